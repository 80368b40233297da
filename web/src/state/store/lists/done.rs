//! Which exercises were done: by the fingerprint of what is asked, whatever seed draws the questions.

use super::{key, texts};
use crate::state::store::Drawers;
use crate::state::store::entry::{self, Unread, What};
use crookwise_practice::Exercise;
use crookwise_practice::results::Fingerprint;

/// That an exercise was done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Done {
    /// Which: see [`which`].
    pub exercise: u32,
    /// When for the first time, in seconds since 1970.
    pub at: u64,
    /// How many answers were right when it went best.
    pub right: u8,
    /// Of how many questions.
    pub of: u8,
}

/// The number of an exercise, the same for other questions of its kind.
#[must_use]
pub fn which(exercise: &Exercise) -> u32 {
    Fingerprint::of_exercise(&Exercise { seed: 0, ..exercise.clone() }).number()
}

impl Done {
    /// As an entry.
    #[must_use]
    pub fn write(self) -> String {
        let Self { exercise, at, right, of } = self;
        entry::write(What::Done, &format!("{exercise} {at} {right} {of}"))
    }

    pub(super) fn read(text: &str) -> Result<Self, Unread> {
        let body = entry::read(What::Done, text)?;
        let mut numbers = body.split(' ').map(|number| number.parse::<u64>().map_err(|_| Unread::Damaged));
        let mut number = || numbers.next().unwrap_or(Err(Unread::Damaged));
        let small = |number: u64| u8::try_from(number).map_err(|_| Unread::Damaged);
        let exercise = u32::try_from(number()?).map_err(|_| Unread::Damaged)?;
        let (at, right, of) = (number()?, small(number()?)?, small(number()?)?);
        let is_one = numbers.next().is_none() && right <= of;
        if is_one { Ok(Self { exercise, at, right, of }) } else { Err(Unread::Damaged) }
    }

    /// Both together: the earlier time and the better end.
    const fn and(self, other: Self) -> Self {
        let best = if self.right as u16 * other.of as u16 >= other.right as u16 * self.of as u16 {
            self
        } else {
            other
        };
        Self { at: if self.at < other.at { self.at } else { other.at }, ..best }
    }
}

/// Everything that was done.
#[must_use]
pub fn list(kept: &Drawers) -> Vec<Done> {
    texts(kept, What::Done).filter_map(|(_, text)| Done::read(text).ok()).collect()
}

/// Adds one.
pub fn join(kept: &mut Drawers, done: Done) {
    let name = key(What::Done, &done.exercise.to_string());
    let known = kept.get(&name).and_then(|text| Done::read(text).ok());
    kept.insert(name, known.map_or(done, |known| known.and(done)).write());
}

/// Forgets all of it.
pub fn wipe(kept: &mut Drawers) {
    let names: Vec<String> = texts(kept, What::Done).map(|(name, _)| name.clone()).collect();
    for name in names {
        kept.remove(&name);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_practice::AskedStaff;

    #[test]
    fn the_first_time_and_the_best_end_count() {
        let done = |at, right| Done { exercise: 7, at, right, of: 10 };
        for order in [[done(5, 3), done(9, 8), done(7, 1)], [done(9, 8), done(7, 1), done(5, 3)]] {
            let mut kept = Drawers::default();
            order.into_iter().for_each(|one| join(&mut kept, one));
            assert_eq!(list(&kept), [done(5, 8)]);
            wipe(&mut kept);
            assert!(kept.is_empty());
        }
        for damaged in ["7 5 3", "7 5 11 10", "7 5 3 10 1", "7 5 300 400", "-1 5 3 10", "x"] {
            let text = entry::write(What::Done, damaged);
            assert_eq!(Done::read(&text), Err(Unread::Damaged), "{damaged}");
        }
    }

    #[test]
    fn other_questions_of_a_kind_are_the_same_exercise() {
        let of =
            |label: &str, seed| Exercise { staves: vec![AskedStaff::of(label)], seed, ..Exercise::default() };
        assert_eq!(which(&of("Corni in Es", 1)), which(&of("Corni in Es", 2)));
        assert_ne!(which(&of("Corni in Es", 1)), which(&of("Corni in D", 1)));
        let titled = Exercise { title: "Monday".into(), ..of("Corni in Es", 1) };
        assert_eq!(which(&titled), which(&of("Corni in Es", 1)));
    }
}
