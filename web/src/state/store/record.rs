//! The record of practice in its drawer: joined, never written over, begun anew under a new source when it was wiped.
//!
//! What reads and joins it is code of Practise. Elsewhere it arrives as a value, a [`Keeper`], and only where there is a
//! record to be joined: what waits for it, or what a file brings. Without one nobody touches the drawer.

use super::Drawers;
use super::aside::{self, SetAside};
use super::earlier;
use super::entry::{self, Unread, What};
use crookwise_practice::record::{Record, RecordError, Zone};
use crookwise_theory::ordered::Ordered;

/// The drawer.
pub const DRAWER: &str = "record";
/// Names of answers that the record does not have yet begin so; they are kept at once.
pub const ANSWERS: &str = "crookwise.answers.";
/// The record.
const RECORD: &str = "record/record";
/// The number under which this device writes into it.
const SOURCE: &str = "record/source";

/// What is done with the record elsewhere than in Practise.
#[derive(Clone, Copy, Debug)]
pub struct Keeper {
    /// [`sort_out`], done before every change of the drawer.
    pub sort_out: fn(&mut Drawers, Zone) -> SetAside,
    /// [`join`].
    pub join: fn(&mut Drawers, &str, Zone) -> SetAside,
    /// [`take_over`].
    pub take_over: fn(&mut Drawers, &Ordered<String, String>, u32, Zone) -> SetAside,
}

/// The one there is.
pub const KEEPER: Keeper = Keeper { sort_out, join, take_over };

/// The record for the reader's clock.
#[must_use]
pub fn read(kept: &Drawers, zone: Zone) -> Record {
    let read = kept.get(RECORD).and_then(|text| Record::from_text(text, zone).ok());
    read.map(|read| read.record).unwrap_or_default()
}

/// The record as it is kept, for a backup.
#[must_use]
pub fn text(kept: &Drawers) -> Option<String> {
    kept.get(RECORD).cloned()
}

/// Sets aside what cannot be read, and takes in again what was set aside and now can be. Done before every change, so that
/// nothing is written over what is not understood.
pub fn sort_out(kept: &mut Drawers, zone: Zone) -> SetAside {
    let mut found = SetAside::default();
    if let Some(text) = kept.get(RECORD).cloned() {
        let (record, why) = understood(&text, zone);
        if let Some(why) = why {
            aside::put(kept, What::Record, &text);
            // What may be missing has numbers: none of them is given again.
            kept.remove(SOURCE);
            put(kept, &record, zone);
            found.add(why);
        }
    }
    for aside in aside::of_kind(kept, What::Record) {
        if let (record, None) = understood(&aside.text, zone) {
            let both = read(kept, zone).merged(&record);
            put(kept, &both, zone);
            kept.remove(&aside.name);
        }
    }
    found
}

/// Adds answers; those that are there already are not added again. `chance` is the source where none has been chosen.
pub fn add(kept: &mut Drawers, answers: &Record, chance: u32, zone: Zone) {
    let mut record = read(kept, zone);
    let known = kept.get(SOURCE).and_then(|text| text.parse().ok());
    let source = known.filter(|source| record.knows(*source)).unwrap_or_else(|| {
        let mut source = chance;
        while record.knows(source) || Some(source) == known {
            source = source.wrapping_add(1);
        }
        source
    });
    for answer in answers.attempts() {
        if !record.has(source, &answer) {
            record.add(source, answer);
        }
    }
    record.meet_all(answers);
    kept.insert(SOURCE.to_owned(), source.to_string());
    put(kept, &record, zone);
}

/// Joins another record of the same reader; what cannot be read of it is set aside whole.
pub fn join(kept: &mut Drawers, text: &str, zone: Zone) -> SetAside {
    let mut found = SetAside::default();
    let (record, why) = understood(text, zone);
    if let Some(why) = why {
        aside::put(kept, What::Record, text);
        found.add(why);
    }
    let both = read(kept, zone).merged(&record);
    put(kept, &both, zone);
    found
}

/// Takes over what waits for the record among the texts that are kept at once: see [`earlier::waits_for_record`]. `chance`
/// is the source of answers where none has been chosen.
pub fn take_over(kept: &mut Drawers, waiting: &Ordered<String, String>, chance: u32, zone: Zone) -> SetAside {
    let mut found = SetAside::default();
    for (name, text) in waiting.iter() {
        found = found.and(if name.starts_with(ANSWERS) {
            take_answers(kept, text, chance, zone)
        } else if name == earlier::SOURCE_IN_PLACE {
            // Another one may have been chosen meanwhile.
            SetAside::default()
        } else {
            join(kept, text, zone)
        });
    }
    found
}

fn take_answers(kept: &mut Drawers, text: &str, chance: u32, zone: Zone) -> SetAside {
    let mut found = SetAside::default();
    let (answers, why) = waited(text, zone);
    if let Some(why) = why {
        aside::put(kept, What::Answers, text);
        found.add(why);
    }
    if !answers.is_empty() {
        add(kept, &answers, chance, zone);
    }
    found
}

/// Forgets every answer. The source is forgotten with them: its numbers are taken in some backup.
pub fn wipe(kept: &mut Drawers) {
    kept.remove(RECORD);
    kept.remove(SOURCE);
}

/// Answers that the record does not have yet, as they are kept at once.
#[must_use]
pub fn waiting(answers: &Record, zone: Zone) -> String {
    entry::write(What::Answers, &answers.to_text(zone))
}

/// Reads such answers; also where some of them are damaged.
#[must_use]
pub fn waited(text: &str, zone: Zone) -> (Record, Option<Unread>) {
    match entry::read(What::Answers, text) {
        Ok(body) => understood(body, zone),
        Err(why) => (Record::default(), Some(why)),
    }
}

/// What can be read of a record, and why not all of it.
fn understood(text: &str, zone: Zone) -> (Record, Option<Unread>) {
    match Record::from_text(text, zone) {
        Ok(read) => (read.record, (read.damaged > 0).then_some(Unread::Damaged)),
        Err(RecordError::Newer) => (Record::default(), Some(Unread::Newer)),
        Err(RecordError::NoRecord) => (Record::default(), Some(Unread::Damaged)),
    }
}

fn put(kept: &mut Drawers, record: &Record, zone: Zone) {
    if record.is_empty() {
        kept.remove(RECORD);
    } else {
        kept.insert(RECORD.to_owned(), record.to_text(zone));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::practise::run::Run;
    use crate::state::practise::{remembered, setting};
    use crookwise_practice::record::Attempt;

    const ZONE: fn() -> Zone = Zone::default;

    /// So many answers, the first at `at`.
    fn answers(count: u64, at: u64) -> Record {
        let mut run = Run::begin(setting::first(3)).unwrap();
        let right = run.question().unwrap().right.clone();
        run.answer(Some(right), 2_000);
        let (one, label) = remembered::last(&run, at).unwrap();
        let mut record = Record::default();
        for number in 0..count {
            let at = at + number * 60;
            record.add(0, Attempt { at, ..one });
            record.meet(one.item.staff, at, &label);
        }
        record
    }

    fn count(kept: &Drawers) -> usize {
        read(kept, ZONE()).attempts().len()
    }

    #[test]
    fn two_windows_add_to_one_record() {
        let mut kept = Drawers::default();
        add(&mut kept, &answers(2, 1_000), 7, ZONE());
        add(&mut kept, &answers(3, 2_000), 8, ZONE());
        assert_eq!(count(&kept), 5);
        // What was added and not yet known to be is added once.
        add(&mut kept, &answers(3, 2_000), 9, ZONE());
        assert_eq!(count(&kept), 5);
    }

    #[test]
    fn a_wiped_record_takes_a_new_source_so_a_backup_comes_back_whole() {
        let mut kept = Drawers::default();
        add(&mut kept, &answers(5, 1_000), 7, ZONE());
        let backup = text(&kept).unwrap();
        wipe(&mut kept);
        assert_eq!((count(&kept), text(&kept)), (0, None));
        add(&mut kept, &answers(3, 9_000), 8, ZONE());
        assert!(join(&mut kept, &backup, ZONE()).is_empty());
        assert_eq!(count(&kept), 8);
        // Also where chance gives the old number again after the backup came back.
        add(&mut kept, &answers(1, 90_000), 7, ZONE());
        assert_eq!(count(&kept), 9);
    }

    #[test]
    fn a_record_of_a_newer_version_is_set_aside_and_never_written_over() {
        let newer = "crookwise record 9\nsomething of a later version";
        let mut kept =
            Drawers::from_iter([(RECORD.to_owned(), newer.to_owned()), (SOURCE.into(), "7".into())]);
        assert_eq!(sort_out(&mut kept, ZONE()), SetAside { damaged: 0, newer: 1 });
        add(&mut kept, &answers(1, 1_000), 8, ZONE());
        assert_eq!(sort_out(&mut kept, ZONE()), SetAside::default());
        assert_eq!(aside::all(&kept)[0].text, newer);
        assert_eq!(count(&kept), 1);
    }

    #[test]
    fn of_a_damaged_record_the_rest_goes_on_and_the_whole_is_set_aside() {
        let mut kept = Drawers::default();
        add(&mut kept, &answers(4, 1_000), 7, ZONE());
        let whole = text(&kept).unwrap();
        let last = whole.lines().last().unwrap();
        let damaged = whole.replace(last, &last.replace("a 7", "a 8"));
        kept.insert(RECORD.into(), damaged.clone());
        assert_eq!(sort_out(&mut kept, ZONE()), SetAside { damaged: 1, newer: 0 });
        assert_eq!((count(&kept), aside::all(&kept)[0].text.as_str()), (3, damaged.as_str()));
        // The number of the answer that is missing is not given again: the undamaged backup joins whole.
        add(&mut kept, &answers(1, 9_000), 7, ZONE());
        assert!(join(&mut kept, &whole, ZONE()).is_empty());
        assert_eq!(count(&kept), 5);
    }

    #[test]
    fn a_damaged_record_out_of_a_file_is_set_aside_too() {
        let mut kept = Drawers::default();
        assert_eq!(join(&mut kept, "rubbish", ZONE()), SetAside { damaged: 1, newer: 0 });
        assert_eq!(join(&mut kept, "crookwise record 9\nx", ZONE()), SetAside { damaged: 0, newer: 1 });
        assert_eq!((aside::all(&kept).len(), text(&kept)), (2, None));
    }

    #[test]
    fn of_two_records_out_of_files_both_are_kept() {
        let (mut one, mut two, mut kept) = (Drawers::default(), Drawers::default(), Drawers::default());
        add(&mut one, &answers(2, 1_000), 1, ZONE());
        add(&mut two, &answers(3, 5_000), 2, ZONE());
        for other in [&one, &two] {
            assert!(join(&mut kept, &text(other).unwrap(), ZONE()).is_empty());
        }
        assert_eq!(count(&kept), 5);
    }

    #[test]
    fn what_was_set_aside_comes_back_when_it_can_be_read() {
        let mut kept = Drawers::default();
        add(&mut kept, &answers(2, 1_000), 1, ZONE());
        let earlier = text(&kept).unwrap();
        wipe(&mut kept);
        aside::put(&mut kept, What::Record, &earlier);
        add(&mut kept, &answers(1, 5_000), 2, ZONE());
        assert_eq!(sort_out(&mut kept, ZONE()), SetAside::default());
        assert_eq!((count(&kept), aside::all(&kept).len()), (3, 0));
    }

    #[test]
    fn answers_wait_until_the_record_has_them() {
        let zone = Zone::ahead(120);
        let some = answers(3, 100_000);
        let text = waiting(&some, zone);
        assert_eq!(waited(&text, zone), (some, None));
        assert_eq!(
            waited(&text.replace("answers 1", "answers 2"), zone),
            (Record::default(), Some(Unread::Newer))
        );
        let (left, why) = waited(&text[..text.len() - 3], zone);
        assert_eq!((left.attempts().len(), why), (2, Some(Unread::Damaged)));
    }
}
