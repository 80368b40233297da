//! Named exercises: each is its link, so that it opens in every later version; its title is its name.

use super::{ListFull, key, texts};
use crate::state::store::Drawers;
use crate::state::store::entry::{self, Unread, What};
use crookwise_practice::{LONGEST_TITLE, clean_title};
use crookwise_share::Link;
use crookwise_share::practise::{PractiseLink, SentExercise};
use crookwise_theory::order::in_order;

/// Named exercises that are kept at most.
pub const MOST_NAMED: usize = 300;

/// An exercise in the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Named {
    /// Its title: no two have the same.
    pub title: String,
    /// The exercise.
    pub exercise: SentExercise,
    /// When it was first kept, in milliseconds since 1970: the order of the list.
    pub at: u64,
}

impl Named {
    fn of(exercise: SentExercise, at: u64) -> Self {
        Self { title: exercise.title().to_owned(), exercise, at }
    }

    /// As an entry.
    #[must_use]
    pub fn write(&self) -> String {
        let link = Link::from(PractiseLink::Do(Some(self.exercise.clone()))).encode();
        entry::write(What::Named, &format!("{}\n{link}", self.at))
    }

    /// Reads an entry.
    ///
    /// # Errors
    /// Where it is damaged, or a newer version wrote it.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let (at, link) = entry::read(What::Named, text)?.split_once('\n').ok_or(Unread::Damaged)?;
        let at = at.parse().map_err(|_| Unread::Damaged)?;
        match Link::decode_kept(link)? {
            Some(Link::Practise(PractiseLink::Do(Some(exercise)))) if !exercise.title().is_empty() => {
                Ok(Self::of(exercise, at))
            }
            _ => Err(Unread::Damaged),
        }
    }
}

/// All of them, the oldest first.
#[must_use]
pub fn list(kept: &Drawers) -> Vec<Named> {
    // By title they stand already.
    in_order(texts(kept, What::Named).filter_map(|(_, text)| Named::read(text).ok()), |one| one.at)
}

/// Keeps an exercise that has a title; gives the one that it replaces, if there was one of this title that asks otherwise.
///
/// # Errors
/// Where there are as many as may be, or it has no title.
pub fn keep(kept: &mut Drawers, exercise: &SentExercise, at: u64) -> Result<Option<Named>, ListFull> {
    let exercise = exercise.titled(exercise.title());
    let before = list(kept).into_iter().find(|one| one.title == exercise.title());
    let full = before.is_none() && texts(kept, What::Named).count() >= MOST_NAMED;
    if full || exercise.title().is_empty() {
        return Err(ListFull);
    }
    put(kept, &Named::of(exercise.clone(), before.as_ref().map_or(at, |one| one.at)));
    Ok(before.filter(|before| before.exercise != exercise))
}

/// Gives it another title; where that is taken, with a number behind it. One that has changed since it was seen stays.
pub fn rename(kept: &mut Drawers, seen: &Named, title: &str) -> Option<Named> {
    let title = clean_title(title).trim().to_owned();
    if title.is_empty() || title == seen.title || !remove(kept, seen) {
        return None;
    }
    let exercise = seen.exercise.titled(&free_title(kept, &title));
    let renamed = Named::of(exercise, seen.at);
    put(kept, &renamed);
    Some(renamed)
}

/// Takes it out as it was seen; false where it has changed since, or is gone.
pub fn remove(kept: &mut Drawers, seen: &Named) -> bool {
    let name = key(What::Named, &seen.title);
    let is_same = kept.get(&name) == Some(&seen.write());
    if is_same {
        kept.remove(&name);
    }
    is_same
}

/// Takes in one from elsewhere: under a title that is free, unless the same is here already.
pub fn take_in(kept: &mut Drawers, one: &Named) -> Result<(), ListFull> {
    let all = list(kept);
    let is_here = |known: &Named| {
        known.exercise == one.exercise
            || known.at == one.at && known.exercise.titled(&one.title) == one.exercise
    };
    if all.iter().any(is_here) {
        return Ok(());
    }
    if all.len() >= MOST_NAMED {
        return Err(ListFull);
    }
    put(kept, &Named::of(one.exercise.titled(&free_title(kept, &one.title)), one.at));
    Ok(())
}

/// Puts back what was replaced or taken out, as it was.
pub fn put(kept: &mut Drawers, one: &Named) {
    kept.insert(key(What::Named, &one.title), one.write());
}

/// A title that none has: with a number behind it where it is taken.
fn free_title(kept: &Drawers, title: &str) -> String {
    let mut free = title.to_owned();
    let mut number = 2;
    while kept.contains_key(&key(What::Named, &free)) {
        let behind = format!(" {number}");
        let room = LONGEST_TITLE - behind.len();
        free = title.chars().take(room).collect::<String>().trim_end().to_owned() + &behind;
        number += 1;
    }
    free
}

#[cfg(test)]
mod tests {
    use super::super::tests::sent;
    use super::*;

    fn titles(kept: &Drawers) -> Vec<String> {
        list(kept).into_iter().map(|one| one.title).collect()
    }

    #[test]
    fn exercises_are_kept_renamed_and_taken_out_and_put_back() {
        let mut kept = Drawers::default();
        assert_eq!(keep(&mut kept, &sent("First", 1), 5), Ok(None));
        assert_eq!(keep(&mut kept, &sent("Another", 2), 6), Ok(None));
        assert_eq!(keep(&mut kept, &sent(" ", 3), 7), Err(ListFull));
        assert_eq!(titles(&kept), ["First", "Another"]);
        // The same once more replaces nothing, another of the same title gives the one before.
        assert_eq!(keep(&mut kept, &sent("First", 1), 8), Ok(None));
        let before = keep(&mut kept, &sent("First", 9), 9).unwrap().unwrap();
        assert_eq!((before.exercise.clone(), before.at), (sent("First", 1), 5));
        put(&mut kept, &before);
        assert_eq!(list(&kept)[0], before);
        let renamed = rename(&mut kept, &before, " Second/third \n").unwrap();
        assert_eq!(
            (titles(&kept), renamed.exercise),
            (vec!["Second/third".into(), "Another".into()], sent("Second/third", 1))
        );
        // A title that is taken gets a number, however long it is.
        let long = "w".repeat(LONGEST_TITLE);
        keep(&mut kept, &sent(&long, 4), 10).unwrap();
        let first = list(&kept)[0].clone();
        let again = rename(&mut kept, &first, &long).unwrap();
        assert_eq!(again.title, format!("{} 2", "w".repeat(LONGEST_TITLE - 2)));
        assert!(remove(&mut kept, &again));
        assert_eq!(titles(&kept), ["Another", &long]);
    }

    #[test]
    fn what_another_window_changed_is_neither_renamed_nor_taken_out() {
        let mut kept = Drawers::default();
        keep(&mut kept, &sent("Mine", 1), 1).unwrap();
        let seen = list(&kept)[0].clone();
        keep(&mut kept, &sent("Mine", 2), 2).unwrap();
        assert!(rename(&mut kept, &seen, "Yours").is_none() && !remove(&mut kept, &seen));
        assert_eq!(titles(&kept), ["Mine"]);
    }

    #[test]
    fn what_comes_from_elsewhere_is_joined() {
        let mut kept = Drawers::default();
        keep(&mut kept, &sent("Mine", 1), 1).unwrap();
        for (seed, at) in [(1, 1), (2, 9), (2, 9)] {
            take_in(&mut kept, &Named::of(sent("Mine", seed), at)).unwrap();
        }
        assert_eq!(titles(&kept), ["Mine", "Mine 2"]);
        for number in 0..MOST_NAMED as u32 {
            let _ = keep(&mut kept, &sent(&format!("{number}"), number), 10);
        }
        assert_eq!(keep(&mut kept, &sent("one more", 1), 11), Err(ListFull));
        assert_eq!(take_in(&mut kept, &Named::of(sent("one more", 7), 11)), Err(ListFull));
        assert_eq!(list(&kept).len(), MOST_NAMED);
    }
}
