//! The record itself: a log for each source that writes, and how two records are joined.
//!
//! A source is whoever writes, a tab on a device: its answers are numbered from 1 on, and no other may write under its
//! number at the same time. The oldest answers are folded into counts a week, so that the record stays small; how well
//! each item was remembered then is kept with it.
//!
//! Joining takes, for each source, the counts of whichever record has folded more of it, and every answer beyond
//! those. It is commutative, associative and idempotent for any two records: two tabs and a backup give the same
//! whatever comes first, and nothing that one of them wrote is lost to the other.

use super::attempt::{Attempt, Counts, Subject};
use super::item::{Item, StaffKey};
use super::memory::Memory;
use super::picture::week;
use crookwise_theory::order::in_order;
use crookwise_theory::ordered::Ordered;

/// Answers kept one by one. At twenty a day that is a hundred days.
pub const MOST_ATTEMPTS: usize = 2000;
/// Counts of weeks kept.
pub const MOST_SUMS: usize = 4000;
/// Sources kept.
pub const MOST_SOURCES: usize = 64;

/// What one source wrote.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Log {
    /// Answers up to this number have become counts.
    pub(super) folded: u32,
    /// Those counts, by week and subject.
    pub(super) sums: Ordered<(u32, Subject), Counts>,
    /// Later answers by their number.
    pub(super) open: Ordered<u32, Attempt>,
}

/// The record of a reader.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Record {
    pub(super) logs: Ordered<u32, Log>,
    /// How well items were remembered after the last of their answers that was folded.
    pub(super) folded: Ordered<Item, Memory>,
    /// The labels each staff was met under, and when, the latest first.
    pub(super) met: Ordered<StaffKey, Vec<(u64, String)>>,
}

impl Record {
    /// Whether nothing has been answered yet.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.logs.is_empty()
    }

    /// Whether there is anything of this source. One that the record does not know any more, because it was wiped or could
    /// not be read, must not be written under again: its numbers are taken in some backup.
    #[must_use]
    pub fn knows(&self, source: u32) -> bool {
        self.logs.contains_key(&source)
    }

    /// Whether there is this very answer of a source.
    #[must_use]
    pub fn has(&self, source: u32, attempt: &Attempt) -> bool {
        self.logs.get(&source).is_some_and(|log| log.open.values().any(|known| known == attempt))
    }

    /// Adds an answer under a source.
    pub fn add(&mut self, source: u32, attempt: Attempt) {
        let log = self.logs.entry(source, Log::default);
        let last = log.open.keys().last().map_or(log.folded, |number| *number);
        log.open.insert(last.saturating_add(1), attempt);
        self.trim();
    }

    /// All answers kept one by one, the oldest first.
    #[must_use]
    pub fn attempts(&self) -> Vec<Attempt> {
        let all = self.logs.values().flat_map(|log| log.open.values().copied());
        in_order(all, |attempt| *attempt)
    }

    /// How well each item is remembered.
    #[must_use]
    pub fn memories(&self) -> Ordered<Item, Memory> {
        let mut memories = self.folded.clone();
        for attempt in self.attempts() {
            remember(&mut memories, &attempt);
        }
        memories
    }

    /// This record and another of the same reader as one.
    #[must_use]
    pub fn merged(&self, other: &Self) -> Self {
        let mut both = self.clone();
        for (source, theirs) in other.logs.iter() {
            let ours = both.logs.entry(*source, Log::default);
            // Where both have folded as much, the counts are the same unless one is damaged.
            if (theirs.folded, &theirs.sums) > (ours.folded, &ours.sums) {
                ours.folded = theirs.folded;
                ours.sums = theirs.sums.clone();
            }
            for (number, attempt) in theirs.open.iter() {
                let kept = ours.open.entry(*number, || *attempt);
                *kept = (*kept).max(*attempt);
            }
            let folded = ours.folded;
            ours.open.retain(|number, _| *number > folded);
        }
        for (item, memory) in other.folded.iter() {
            let kept = both.folded.entry(*item, || *memory);
            *kept = (*kept).max(*memory);
        }
        both.meet_all(other);
        both
    }

    /// Folds what is too old and lets go of what is too much: counts of the oldest weeks, then whole sources that
    /// have been silent longest.
    pub fn trim(&mut self) {
        let open: usize = self.logs.values().map(|log| log.open.len()).sum();
        self.fold_oldest(open.saturating_sub(MOST_ATTEMPTS));
        let sums: usize = self.logs.values().map(|log| log.sums.len()).sum();
        self.drop_oldest(sums.saturating_sub(MOST_SUMS));
        for _ in MOST_SOURCES..self.logs.len() {
            let last = |log: &Log| {
                let open = log.open.values().map(|attempt| week(attempt.at)).max();
                open.max(log.sums.keys().last().map(|(week, _)| *week))
            };
            let silent = self.logs.iter().min_by_key(|(_, log)| last(log)).map(|(source, _)| *source);
            if let Some(source) = silent {
                self.logs.remove(&source);
            }
        }
    }

    /// Folds the oldest answers, so many; those of one source in the order of their numbers.
    fn fold_oldest(&mut self, count: usize) {
        // How many of each source are done with.
        let mut done = vec![0; self.logs.len()];
        for _ in 0..count {
            let at = |(log, done): &(&mut Log, &mut usize)| {
                log.open.nth(**done).map_or(u64::MAX, |(_, attempt)| attempt.at)
            };
            let Some((log, done)) = self.logs.values_mut().zip(&mut done).min_by_key(at) else { break };
            let Some((number, attempt)) = log.open.nth(*done).map(|(number, attempt)| (*number, *attempt))
            else {
                break;
            };
            *done += 1;
            log.folded = number;
            for subject in attempt.subjects() {
                log.sums.entry((week(attempt.at), subject), Counts::default).add(&attempt);
            }
            remember(&mut self.folded, &attempt);
        }
        self.logs.values_mut().zip(done).for_each(|(log, done)| log.open.drop_first(done));
    }

    /// Lets go of the counts of the oldest weeks, so many.
    fn drop_oldest(&mut self, count: usize) {
        let mut done = vec![0; self.logs.len()];
        for _ in 0..count {
            let week = |(log, done): &(&Log, &mut usize)| {
                log.sums.nth(**done).map_or(u32::MAX, |((week, _), _)| *week)
            };
            if let Some((_, done)) = self.logs.values().zip(&mut done).min_by_key(week) {
                *done += 1;
            }
        }
        self.logs.values_mut().zip(done).for_each(|(log, done)| log.sums.drop_first(done));
    }
}

fn remember(memories: &mut Ordered<Item, Memory>, attempt: &Attempt) {
    let before = memories.get(&attempt.item).copied();
    memories.insert(attempt.item, Memory::after(before, attempt));
}

#[cfg(test)]
mod tests {
    use super::super::item::StaffKey;
    use super::super::zone::Zone;
    use super::*;
    use crate::kind::Kind;
    use crate::mistake::Mistake;
    use crookwise_theory::{Clef, Tonic};
    use proptest::collection::{btree_map, vec};
    use proptest::prelude::*;

    fn staff(number: i8) -> StaffKey {
        StaffKey {
            instrument: "horn",
            steps: -number,
            semitones: -2 * number,
            clef: Clef::TREBLE,
            bass: None,
            scheme: None,
        }
    }

    fn any_attempt() -> impl Strategy<Value = Attempt> {
        (0u64..40 * 86_400, 0i8..3, 0i32..3, any::<bool>(), 0u32..9000).prop_map(
            |(at, crook, note, right, ms)| {
                let item = Item {
                    kind: Kind::Sounds,
                    staff: staff(crook),
                    note: Some(Tonic::from_fifths(note)),
                    second: None,
                };
                Attempt::new(at, item, right, &[Mistake::Octave], ms)
            },
        )
    }

    fn any_log() -> impl Strategy<Value = Log> {
        let counts =
            (0u32..3, 0u32..3).prop_map(|(right, wrong)| Counts { asked: right + wrong, right, fluent: 0 });
        let sums =
            btree_map((0u32..3, (0i8..3).prop_map(|crook| Subject::Staff(staff(crook)))), counts, 0..4);
        (0u32..5, sums, btree_map(1u32..8, any_attempt(), 0..6)).prop_map(|(folded, sums, open)| Log {
            folded,
            sums: sums.into_iter().collect(),
            open: open.into_iter().collect(),
        })
    }

    /// Any record at all, also such as no reader could have written.
    pub(crate) fn any_record() -> impl Strategy<Value = Record> {
        let item = (0i8..3).prop_map(|crook| Item {
            kind: Kind::Sounds,
            staff: staff(crook),
            note: None,
            second: None,
        });
        let memory = (0u64..5, 1u32..5, 1300u32..1303).prop_map(|(at, days, ease)| Memory { at, days, ease });
        (btree_map(0u32..4, any_log(), 0..4), btree_map(item, memory, 0..3)).prop_map(|(mut logs, folded)| {
            for log in logs.values_mut() {
                let up_to = log.folded;
                log.open.retain(|number, _| *number > up_to);
            }
            Record {
                logs: logs.into_iter().collect(),
                folded: folded.into_iter().collect(),
                ..Record::default()
            }
        })
    }

    proptest! {
        #[test]
        fn joining_is_commutative_associative_and_idempotent(
            one in any_record(), two in any_record(), three in any_record()
        ) {
            prop_assert_eq!(one.merged(&two), two.merged(&one));
            prop_assert_eq!(one.merged(&two).merged(&three), one.merged(&two.merged(&three)));
            prop_assert_eq!(one.merged(&one), one.clone());
            prop_assert_eq!(one.merged(&two).merged(&two), one.merged(&two));
            prop_assert_eq!(one.merged(&Record::default()), one);
        }

        #[test]
        fn two_tabs_lose_nothing(both in vec((any::<bool>(), any_attempt()), 0..40), seen in 0usize..40) {
            // Two tabs start from one record, write on, and each saves over the other, having joined.
            let mut start = Record::default();
            let (before, after) = both.split_at(seen.min(both.len()));
            before.iter().for_each(|(_, attempt)| start.add(1, *attempt));
            let (mut left, mut right) = (start.clone(), start);
            for (first, attempt) in after {
                if *first { left.add(1, *attempt) } else { right.add(2, *attempt) }
            }
            let saved = left.merged(&right);
            let mut all: Vec<Attempt> = both.iter().map(|(_, attempt)| *attempt).collect();
            all.sort_unstable();
            prop_assert_eq!(saved.attempts(), all);
        }
    }

    #[test]
    fn a_long_record_stays_small_and_keeps_its_counts() {
        let mut record = Record::default();
        let notes = [0, 1, 2, 4, -2];
        let of = |number: u64| {
            let note = Some(Tonic::from_fifths(notes[number as usize % 5]));
            let item = Item { kind: Kind::Sounds, staff: staff((number % 7) as i8), note, second: None };
            // Thirty answers a day.
            Attempt::new(number * 2880, item, !number.is_multiple_of(4), &[], 2000)
        };
        let many = MOST_ATTEMPTS as u64 + 3000;
        (0..many).for_each(|number| record.add(number as u32 % 3, of(number)));
        assert_eq!(record.attempts().len(), MOST_ATTEMPTS);
        assert_eq!(record.attempts()[0], of(3000));
        let by_week = record.over_time(super::super::picture::Span::Week);
        let kinds = by_week.iter().filter(|((_, subject), _)| *subject == Subject::Kind(Kind::Sounds));
        let whole = kinds.fold(Counts::default(), |sum, (_, counts)| sum.plus(*counts));
        assert_eq!((whole.asked, whole.right), (many as u32, many as u32 * 3 / 4));
        // What was folded is still remembered: the same as if nothing had been.
        let mut replayed = Ordered::default();
        (0..many).for_each(|number| remember(&mut replayed, &of(number)));
        assert_eq!(record.memories(), replayed);
        let text = record.to_text(Zone::default());
        assert!(text.len() < 100_000, "{}", text.len());
        assert_eq!(Record::from_text(&text, Zone::default()).unwrap().record, record);
    }

    #[test]
    fn a_backup_that_folded_less_adds_nothing_twice() {
        let mut record = Record::default();
        let item = Item { kind: Kind::Sounds, staff: staff(1), note: None, second: None };
        let add = |record: &mut Record, number: u64| {
            record.add(1, Attempt::new(number * 100, item, true, &[], 10));
        };
        (0..1500).for_each(|number| add(&mut record, number));
        let backup = record.clone();
        (1500..2500).for_each(|number| add(&mut record, number));
        let joined = backup.merged(&record);
        assert_eq!(joined, record);
        let counts = joined.over_time(super::super::picture::Span::Week);
        assert_eq!(counts.get(&(0, Subject::Staff(staff(1)))).unwrap().asked, 2500);
    }

    #[test]
    fn too_many_sources_let_the_silent_go() {
        let mut record = Record::default();
        let item = Item { kind: Kind::Sounds, staff: staff(1), note: None, second: None };
        for source in 0..MOST_SOURCES as u32 + 1 {
            record.add(source, Attempt::new(u64::from(source) * 7 * 86_400, item, true, &[], 10));
        }
        assert_eq!(record.logs.len(), MOST_SOURCES);
        assert!(!record.logs.contains_key(&0));
    }

    proptest! {
        #[test]
        fn any_record_comes_back_from_its_text(record in any_record()) {
            let read = Record::from_text(&record.to_text(Zone::default()), Zone::default()).unwrap();
            prop_assert_eq!(read.damaged, 0);
            // A log that says nothing is not written.
            let mut known = record;
            known.logs.retain(|_, log| *log != Log::default());
            prop_assert_eq!(read.record, known);
        }

        #[test]
        fn one_damaged_line_costs_no_more_than_what_stands_on_it(
            record in any_record(), line in 0usize..30, at in 0usize..40, to in "[0-9a-z -]"
        ) {
            let text = record.to_text(Zone::default());
            let mut lines: Vec<String> = text.lines().map(String::from).collect();
            let line = 1 + line % lines.len();
            if let Some(damaged) = lines.get_mut(line)
                && let Some(old) = damaged.get(at..=at).map(String::from)
                && old != to
            {
                damaged.replace_range(at..=at, &to);
                let speaks_for_others = damaged.starts_with(['t', 'i']) || "ti".contains(&old);
                let read = Record::from_text(&lines.join("\n"), Zone::default()).unwrap();
                prop_assert!(read.damaged >= 1);
                prop_assert!(speaks_for_others || read.damaged == 1, "{}", read.damaged);
            }
        }

        #[test]
        fn no_text_makes_it_panic(text in "\\PC{0,200}", lines in vec("[timfsa] ([0-9]{1,20} |-1 |horn |G2 |k ){0,9}", 0..20)) {
            let _ = Record::from_text(&text, Zone::default());
            let mut all = String::from("crookwise record 1\n");
            for line in &lines {
                let line = line.trim_end();
                let check = crc::Crc::<u16>::new(&crc::CRC_16_IBM_SDLC).checksum(line.as_bytes());
                all.push_str(&format!("{line} {check:04x}\n"));
            }
            let read = Record::from_text(&all, Zone::default()).unwrap();
            let _ = (read.record.memories(), read.record.weak(0), read.record.to_text(Zone::default()));
        }
    }

    #[test]
    fn a_day_is_the_readers_own() {
        // Half past eleven at night on 1 January, five hours behind UTC; answered there on 2 January already.
        let item = Item { kind: Kind::Sounds, staff: staff(1), second: None, note: None };
        let new_york = Zone::ahead(-5 * 60);
        let answered = 366 * 86_400 + 4 * 3600 + 1800;
        let mut record = Record::default();
        record.add(1, Attempt::new(new_york.shown(answered), item, true, &[], 10));
        let due = |text: &str, zone: Zone, now: u64| {
            let record = Record::from_text(text, zone).unwrap().record;
            record.memories().get(&item).unwrap().is_due(zone.shown(now))
        };
        let text = record.to_text(new_york);
        assert!(text.contains(&format!(" {answered} ")), "{text}");
        // It comes back at the reader's midnight, half an hour later, and not before.
        assert!(due(&text, new_york, answered + 1800));
        assert!(!due(&text, new_york, answered + 1799));
        // For a reader in London, whose clock shows half past four in the morning, a day later.
        assert!(!due(&text, Zone::default(), answered + 1800));
        assert!(due(&text, Zone::default(), 367 * 86_400));
    }

    #[test]
    fn a_source_that_was_wiped_is_not_known() {
        let item = Item { kind: Kind::Sounds, staff: staff(1), second: None, note: None };
        let attempt = Attempt::new(5, item, true, &[], 10);
        let mut record = Record::default();
        record.add(7, attempt);
        assert!(record.knows(7) && record.has(7, &attempt));
        assert!(!record.knows(8) && !record.has(8, &attempt) && !Record::default().knows(7));
    }

    #[test]
    fn what_is_no_record_is_said() {
        use super::super::text::RecordError;
        assert_eq!(Record::from_text("", Zone::default()), Err(RecordError::NoRecord));
        assert_eq!(Record::from_text("crookwise record x", Zone::default()), Err(RecordError::NoRecord));
        assert_eq!(Record::from_text("crookwise record 4\n", Zone::default()), Err(RecordError::Newer));
    }
}
