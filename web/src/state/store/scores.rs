//! What is said of opened scores; their files are bytes and lie in a drawer of their own. They make room for all else: a
//! score is kept only while at most half of what the browser gives is used.

use super::Drawers;
use super::aside::{self, SetAside};
use super::entry::{self, Unread, What};
use crookwise_theory::order::in_order;

/// The drawer.
pub const DRAWER: &str = "scores";

/// A score that is kept on the device.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct KeptScore {
    /// Its name among the files, which follows from its bytes.
    pub id: String,
    /// The name of the file as it came.
    pub file: String,
    /// Its title.
    pub title: String,
    /// How many bytes the file has.
    pub size: u64,
    /// When it was last opened, in milliseconds since 1970.
    pub at: u64,
    /// What the reader corrected, as text.
    pub corrections: String,
}

impl KeptScore {
    /// What it is called in the list.
    #[must_use]
    pub fn name(&self) -> &str {
        if self.title.is_empty() { &self.file } else { &self.title }
    }

    /// As an entry.
    #[must_use]
    pub fn write(&self) -> String {
        let Self { id, file, title, size, at, corrections } = self;
        let line = |text: &str| text.replace(['\n', '\r'], " ");
        let body = format!("{id}\n{}\n{}\n{size}\n{at}\n{}", line(file), line(title), line(corrections));
        entry::write(What::Score, &body)
    }

    /// Reads an entry.
    ///
    /// # Errors
    /// Where it is damaged, or a newer version wrote it.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let mut lines = entry::read(What::Score, text)?.split('\n');
        let mut line = || lines.next().ok_or(Unread::Damaged);
        let (id, file, title) = (line()?.to_owned(), line()?.to_owned(), line()?.to_owned());
        let mut number = || line()?.parse().map_err(|_| Unread::Damaged);
        let (size, at) = (number()?, number()?);
        let corrections = lines.next().ok_or(Unread::Damaged)?.to_owned();
        Ok(Self { id, file, title, size, at, corrections })
    }
}

/// Whether there is room for a file of so many bytes: `used` of `given` bytes are used. Where the browser does not say, it is
/// tried.
#[must_use]
pub fn has_room(size: f64, told: Option<(f64, f64)>) -> bool {
    told.is_none_or(|(used, given)| used + size <= given / 2.0)
}

/// All of them, the last opened first.
#[must_use]
pub fn list(kept: &Drawers) -> Vec<KeptScore> {
    let of_drawer = kept.iter().filter(|(name, _)| is_here(name));
    in_order(of_drawer.filter_map(|(_, text)| KeptScore::read(text).ok()), |one| u64::MAX - one.at)
}

/// Keeps what is said of one; corrections that were kept of it stay unless there are others.
pub fn keep(kept: &mut Drawers, one: &KeptScore) {
    kept.insert(key(&one.id), one.write());
}

/// Takes one out; gives it, where it was there.
pub fn remove(kept: &mut Drawers, id: &str) -> Option<KeptScore> {
    kept.remove(&key(id)).and_then(|text| KeptScore::read(&text).ok())
}

/// Sets aside what cannot be read, and takes in again what was set aside and now can be.
pub fn sort_out(kept: &mut Drawers) -> SetAside {
    let names: Vec<String> = kept.keys().filter(|name| is_here(name)).cloned().collect();
    let own_name = |text: &str| KeptScore::read(text).map(|score| key(&score.id));
    let found = aside::sort_out(kept, What::Score, names, &own_name);
    for aside in aside::all(kept) {
        if aside.what == What::Score
            && let Ok(score) = KeptScore::read(&aside.text)
            && !kept.contains_key(&key(&score.id))
        {
            keep(kept, &score);
            kept.remove(&aside.name);
        }
    }
    found
}

fn is_here(name: &str) -> bool {
    name.strip_prefix(DRAWER).is_some_and(|rest| rest.starts_with('/'))
}

fn key(id: &str) -> String {
    format!("{DRAWER}/{id}")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn score(id: &str, at: u64) -> KeptScore {
        KeptScore {
            id: id.into(),
            file: "a.mxl".into(),
            title: "One\nmovement".into(),
            size: 1_200_000,
            at,
            corrections: "staff=3&label=Corni+in+D".into(),
        }
    }

    #[test]
    fn what_is_said_of_a_score_goes_round() {
        let one = KeptScore { title: "One movement".into(), ..score("1a", 5) };
        assert_eq!(KeptScore::read(&score("1a", 5).write()), Ok(one.clone()));
        assert_eq!(one.name(), "One movement");
        assert_eq!(KeptScore { title: String::new(), ..one }.name(), "a.mxl");
        assert_eq!(KeptScore::read("crookwise score 2\n"), Err(Unread::Newer));
        for damaged in ["", "crookwise score 1\n1a\na\nb\nc\n5\n", "crookwise score 1\n1a\na\nb\n5"] {
            assert_eq!(KeptScore::read(damaged), Err(Unread::Damaged), "{damaged}");
        }
    }

    #[test]
    fn the_last_opened_comes_first_and_nothing_unread_is_lost() {
        let mut kept = Drawers::default();
        for (id, at) in [("a", 1), ("b", 3), ("c", 2)] {
            keep(&mut kept, &score(id, at));
        }
        let ids = |kept: &Drawers| list(kept).into_iter().map(|one| one.id).collect::<Vec<_>>();
        assert_eq!(ids(&kept), ["b", "c", "a"]);
        let newer = score("d", 4).write().replacen(" 1\n", " 2\n", 1);
        kept.insert("scores/d".into(), newer.clone());
        let misplaced = score("e", 5).write();
        kept.insert("scores/f".into(), misplaced);
        assert_eq!(sort_out(&mut kept), SetAside { damaged: 1, newer: 1 });
        assert!(aside::all(&kept).iter().any(|aside| aside.text == newer));
        // The one under a wrong name can be read, and comes back under its own.
        assert_eq!(ids(&kept), ["e", "b", "c", "a"]);
        assert_eq!(remove(&mut kept, "b").map(|one| one.at), Some(3));
        assert_eq!(remove(&mut kept, "b"), None);
        assert_eq!(sort_out(&mut kept), SetAside::default());
    }

    #[test]
    fn scores_leave_half_of_the_room_to_all_else() {
        assert!(has_room(1e6, None) && has_room(1e6, Some((4e6, 1e7))));
        assert!(!has_room(1.1e6, Some((4e6, 1e7))));
    }
}
