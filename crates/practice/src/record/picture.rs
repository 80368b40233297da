//! The record as pictures over time, and what is weak in it: plain counts that a view draws.

use super::attempt::{Counts, Subject};
use super::item::StaffKey;
use super::log::Record;
use super::memory::DAY;
use crate::kind::Kind;
use crate::mistake::Mistake;
use crookwise_theory::Tonic;
use crookwise_theory::order::in_order;
use crookwise_theory::ordered::Ordered;

/// Days that count for what is weak now.
pub(super) const RECENT_DAYS: u64 = 30;

/// How time is divided.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Span {
    /// Days since 1970: only answers that are kept one by one.
    Day,
    /// Weeks from Monday on, the first is that of 1 January 1970: all answers.
    Week,
}

/// What was missed in the last thirty days, the weakest first.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Weak {
    /// Staves with their counts.
    pub staves: Vec<(StaffKey, Counts)>,
    /// Written notes by name.
    pub notes: Vec<(Tonic, Counts)>,
    /// Kinds of question.
    pub kinds: Vec<(Kind, Counts)>,
    /// Mistakes with their number, the most frequent first.
    pub mistakes: Vec<(Mistake, u32)>,
}

/// Days since 1 January 1970.
#[must_use]
pub fn day(at: u64) -> u32 {
    u32::try_from(at / DAY).unwrap_or(u32::MAX)
}

/// Weeks since that of 1 January 1970, a Thursday; a week begins on Monday.
#[must_use]
pub fn week(at: u64) -> u32 {
    u32::try_from((at / DAY).saturating_add(3) / 7).unwrap_or(u32::MAX)
}

impl Record {
    /// Counts by day or week and by subject.
    #[must_use]
    pub fn over_time(&self, span: Span) -> Ordered<(u32, Subject), Counts> {
        let mut counts: Ordered<(u32, Subject), Counts> = Ordered::default();
        for log in self.logs.values() {
            for attempt in log.open.values() {
                let when = if span == Span::Day { day(attempt.at) } else { week(attempt.at) };
                for subject in attempt.subjects() {
                    counts.entry((when, subject), Counts::default).add(attempt);
                }
            }
            for (key, sum) in log.sums.iter().filter(|_| span == Span::Week) {
                let count = counts.entry(*key, Counts::default);
                *count = count.plus(*sum);
            }
        }
        counts
    }

    /// Counts by subject over the last thirty days.
    #[must_use]
    pub fn recent(&self, now: u64) -> Ordered<Subject, Counts> {
        let mut counts: Ordered<Subject, Counts> = Ordered::default();
        let since = now.saturating_sub(RECENT_DAYS * DAY);
        for attempt in self.logs.values().flat_map(|log| log.open.values()).filter(|one| one.at >= since) {
            for subject in attempt.subjects() {
                counts.entry(subject, Counts::default).add(attempt);
            }
        }
        counts
    }

    /// What is weak, by the answers of the last thirty days. What was always right is not.
    #[must_use]
    pub fn weak(&self, now: u64) -> Weak {
        let mut weak = Weak::default();
        for (subject, counts) in
            self.recent(now).into_iter().filter(|(_, counts)| counts.right < counts.asked)
        {
            match subject {
                Subject::Staff(staff) => weak.staves.push((staff, counts)),
                Subject::Note(note) => weak.notes.push((note, counts)),
                Subject::Kind(kind) => weak.kinds.push((kind, counts)),
                Subject::Mistake(mistake) => weak.mistakes.push((mistake, counts.asked)),
            }
        }
        weakest_first(&mut weak.staves);
        weakest_first(&mut weak.notes);
        weakest_first(&mut weak.kinds);
        weak.mistakes = in_order(weak.mistakes, |(_, count)| core::cmp::Reverse(*count));
        weak
    }
}

fn weakest_first<T>(list: &mut Vec<(T, Counts)>) {
    *list = in_order(core::mem::take(list), |(_, counts)| core::cmp::Reverse(counts.weakness()));
}

impl Counts {
    /// How weak it is, 0 to 1000: misses, a slow answer as half a miss, among all answers. Four answers that are as
    /// good as most are added, so that a single miss does not stand first.
    #[must_use]
    pub fn weakness(self) -> u32 {
        let missed = u64::from(self.asked.saturating_sub(self.right));
        let slow = u64::from(self.right.saturating_sub(self.fluent));
        let parts = 1000 * (2 * missed + slow + 1) / (2 * u64::from(self.asked) + 8);
        u32::try_from(parts).unwrap_or(1000)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::{Attempt, Item};
    use crookwise_theory::label::{DecodeOptions, decode};
    use crookwise_theory::{Habits, Written};

    #[test]
    fn a_week_begins_on_monday() {
        // 4 January 1970 was a Sunday, 5 January a Monday.
        assert_eq!((week(0), week(4 * DAY - 1), week(4 * DAY), week(11 * DAY)), (0, 0, 1, 2));
        assert_eq!(day(2 * DAY), 2);
    }

    #[test]
    fn what_was_always_right_is_not_weak() {
        let staff = |label: &str| {
            let staff = decode(label, DecodeOptions::default()).staves.remove(0);
            StaffKey::of(&staff, Habits::of(staff.instrument.clef)).unwrap()
        };
        let (horn, clarinet) = (staff("Corni in Es"), staff("Clarinetti in A"));
        let note = |name: &str| Some(Written(name.parse().unwrap()));
        let mut record = Record::default();
        for (kind, staff, written, right) in [
            (Kind::Sounds, horn, note("G4"), true),
            (Kind::Sounds, horn, note("E5"), false),
            (Kind::Partial, horn, note("G4"), true),
            (Kind::Partial, clarinet, note("G4"), true),
        ] {
            // Slow, but right.
            let item = Item::about(kind, staff, written);
            record.add(1, Attempt::new(20_000 * DAY, item, right, &[Mistake::Octave], 60_000));
        }
        let weak = record.weak(20_000 * DAY);
        let names =
            |list: Vec<(StaffKey, Counts)>| list.into_iter().map(|(staff, _)| staff).collect::<Vec<_>>();
        assert_eq!(names(weak.staves), [horn]);
        assert_eq!(weak.notes.iter().map(|(note, _)| note.to_string()).collect::<Vec<_>>(), ["E"]);
        assert_eq!(weak.kinds.iter().map(|(kind, _)| *kind).collect::<Vec<_>>(), [Kind::Sounds]);
        assert_eq!(weak.mistakes, [(Mistake::Octave, 1)]);
    }

    #[test]
    fn one_miss_is_not_yet_a_weakness() {
        let counts = |asked, right, fluent| Counts { asked, right, fluent }.weakness();
        assert!(counts(1, 0, 0) < counts(20, 10, 10));
        assert!(counts(20, 20, 10) > counts(20, 20, 20));
        assert!(counts(u32::MAX, 0, 0) <= 1000);
    }
}
