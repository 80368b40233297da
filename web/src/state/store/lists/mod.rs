//! What a teacher and his students keep of exercises: named ones, courses over weeks, which were done, and the codes of a
//! class. Each is an entry of its own, so that two windows add to each other.

pub mod changing;
pub mod codes;
pub mod done;
pub mod named;
pub mod plans;

use super::Drawers;
use super::aside::{self, SetAside};
use super::entry::{Unread, What};
use codes::KeptCodes;
use crookwise_share::practise::SentExercise;
use done::Done;
use named::Named;
use plans::KeptPlan;

/// The drawer.
pub const DRAWER: &str = "lists";
/// What stands in it.
const KINDS: [What; 4] = [What::Named, What::Weeks, What::Done, What::Codes];

/// All of it that can be read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Lists {
    /// Named exercises, in the order in which they were kept.
    pub named: Vec<Named>,
    /// Courses over weeks, likewise.
    pub plans: Vec<KeptPlan>,
    /// What was done.
    pub done: Vec<Done>,
    /// Codes of a class, the oldest exercise first.
    pub codes: Vec<KeptCodes>,
}

impl Lists {
    /// The course of a number.
    #[must_use]
    pub fn plan(&self, number: u32) -> Option<&KeptPlan> {
        self.plans.iter().find(|one| one.plan.number == number)
    }

    /// Every exercise that stands in the lists.
    pub fn exercises(&self) -> impl Iterator<Item = &SentExercise> {
        let planned = self.plans.iter().flat_map(|one| &one.plan.weeks).flat_map(|week| &week.exercises);
        let worked = self.codes.iter().filter_map(|one| one.sent.as_ref());
        self.named.iter().map(|one| &one.exercise).chain(planned).chain(worked)
    }
}

/// There are as many as may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ListFull;

/// All that is kept.
#[must_use]
pub fn all(kept: &Drawers) -> Lists {
    Lists {
        named: named::list(kept),
        plans: plans::list(kept),
        done: done::list(kept),
        codes: codes::list(kept),
    }
}

/// The texts of one kind with their names.
fn texts(kept: &Drawers, what: What) -> impl Iterator<Item = (&String, &String)> {
    let start = key(what, "");
    kept.iter().filter(move |(name, _)| name.starts_with(&start))
}

/// The name of an entry.
fn key(what: What, name: &str) -> String {
    format!("{DRAWER}/{}/{name}", what.word())
}

/// The name that an entry must have, by what is in it.
fn wanted(what: What, text: &str) -> Result<String, Unread> {
    match what {
        What::Named => Named::read(text).map(|one| key(what, &one.title)),
        What::Weeks => KeptPlan::read(text).map(|one| key(what, &one.plan.number.to_string())),
        What::Done => Done::read(text).map(|one| key(what, &one.exercise.to_string())),
        What::Codes => codes::wanted(text),
        _ => Err(Unread::Damaged),
    }
}

/// Sets aside what cannot be read, and takes in again what was set aside and now can be. Done before every change, so that
/// nothing is written over what is not understood.
pub fn sort_out(kept: &mut Drawers) -> SetAside {
    let mut found = SetAside::default();
    for what in KINDS {
        let names: Vec<String> = texts(kept, what).map(|(name, _)| name.clone()).collect();
        found = found.and(aside::sort_out(kept, what, names, &|text| wanted(what, text)));
        for aside in aside::of_kind(kept, what) {
            if take_in(kept, what, &aside.text) == Ok(Ok(())) {
                kept.remove(&aside.name);
            }
        }
    }
    found
}

/// Takes in an entry that came from elsewhere: nothing that is here is lost by it.
///
/// # Errors
/// Where it cannot be read; within, where there is no room for it.
pub fn take_in(kept: &mut Drawers, what: What, text: &str) -> Result<Result<(), ListFull>, Unread> {
    Ok(match what {
        What::Named => named::take_in(kept, &Named::read(text)?),
        What::Weeks => plans::take_in(kept, KeptPlan::read(text)?),
        What::Done => {
            done::join(kept, Done::read(text)?);
            Ok(())
        }
        What::Codes => codes::join(kept, KeptCodes::read(text)?),
        _ => return Err(Unread::Damaged),
    })
}

/// Every entry as it is kept, for a backup.
#[must_use]
pub fn entries(kept: &Drawers) -> Vec<(What, String)> {
    KINDS.iter().flat_map(|what| texts(kept, *what).map(|(_, text)| (*what, text.clone()))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_practice::{AskedStaff, Exercise};
    use crookwise_share::practise::SentExercise;

    /// Entries as the versions that had them first wrote them. They must be read for ever: add to them, never change them.
    const SAMPLES: [(&str, &str); 5] = [
        (
            "lists/named/First crooks",
            "crookwise named 1\n1796000000000\n/practise?v=2.c7174ce2&do=AgAKAQEBARZDb3JuaSBpbiBFcw&title=First+crooks",
        ),
        (
            "lists/weeks/4711",
            "crookwise weeks 1\n1796000000001\n4711 Horns in autumn\nweek 2026-12-14\nv=2.c7174ce2&do=AgAKAQEBARZDb3JuaSBpbiBFcw&title=First+crooks\nweek",
        ),
        ("lists/done/77", "crookwise done 1\n77 1796000000 8 10"),
        (
            "lists/codes/7",
            "crookwise codes 1\n7 1796000000002\n/practise?v=2.c7174ce2&do=AgAKAQEBARZDb3JuaSBpbiBFcw&title=First+crooks\nCWX4428T5AJG87FXAPTR6AC",
        ),
        (
            "lists/weeks/4712",
            "crookwise weeks 2\n1796000000003\n4712 Horns in score\nweek\nv=2.c7174ce2&do=AgAKAQEBARZDb3JuaSBpbiBFcw&title=First+crooks\n/score?demo=1&bars=28-33&along=5",
        ),
    ];

    pub(super) fn sent(title: &str, seed: u32) -> SentExercise {
        let staves = vec![AskedStaff::of("Corni in Es")];
        SentExercise::of(&Exercise { title: title.into(), staves, seed, ..Exercise::default() })
    }

    #[test]
    fn what_the_first_version_kept_is_read() {
        let mut kept: Drawers =
            SAMPLES.map(|(name, text)| (name.to_owned(), text.to_owned())).into_iter().collect();
        assert_eq!(sort_out(&mut kept), SetAside::default());
        let lists = all(&kept);
        assert_eq!(lists.named.iter().map(|one| one.title.as_str()).collect::<Vec<_>>(), ["First crooks"]);
        assert_eq!(lists.plans[0].plan.exercises(), 1);
        assert_eq!(lists.plans[1].plan.weeks[0].places, ["demo=1&bars=28-33&along=5"]);
        assert_eq!((lists.done[0].exercise, lists.done[0].right, lists.done[0].of), (77, 8, 10));
        assert_eq!((lists.codes[0].codes.len(), lists.codes[0].sent.is_some()), (1, true));
        assert_eq!(entries(&kept).len(), 5);
        // Taken in elsewhere, and once more.
        let mut other = Drawers::default();
        for _ in 0..2 {
            for (what, text) in entries(&kept) {
                assert_eq!(take_in(&mut other, what, &text), Ok(Ok(())));
            }
            assert_eq!(all(&other), lists);
        }
    }

    #[test]
    fn what_cannot_be_read_is_set_aside_and_comes_back() {
        let mut kept = Drawers::default();
        let newer = "crookwise named 2\nsomething of a later version";
        kept.insert("lists/named/Mine".into(), newer.into());
        kept.insert("lists/weeks/1".into(), "rubbish".into());
        kept.insert("lists/done/5".into(), SAMPLES[2].1.into());
        assert_eq!(sort_out(&mut kept), SetAside { damaged: 2, newer: 1 });
        // What stood under a wrong name only is there again, under its own.
        assert_eq!((all(&kept).done.len(), kept.contains_key("lists/done/77")), (1, true));
        assert_eq!(sort_out(&mut kept), SetAside::default());
        assert_eq!(named::keep(&mut kept, &sent("Mine", 1), 1), Ok(None));
        assert!(aside::all(&kept).iter().any(|one| one.text == newer));
        let text = kept.remove("lists/named/Mine").unwrap();
        aside::put(&mut kept, What::Named, &text);
        assert_eq!(sort_out(&mut kept), SetAside::default());
        assert_eq!(all(&kept).named.len(), 1);
    }
}
