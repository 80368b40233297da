//! How well an item is remembered, and when it is to come back.
//!
//! The schedule is the public SM-2 algorithm by the crate `srs-sm2` 0.1.1: MIT or Apache-2.0, of July 2026, by one
//! author and young, but documented and tested; it stands on `libm` alone, knows no clock and no memory of its own, and
//! only multiplies, adds and rounds, so that it gives the same on every machine. Weighed against it, as wasm for a page
//! (opt-level "z", fat LTO, brotli 11): `srs-sm2` takes 0.3 kB; `fsrs` 6.6.2, the best kept of all, takes 15.5 kB, but
//! stands on `priority-queue`, which comes under LGPL or MPL, and on random numbers that need a browser; `rs-fsrs`
//! 1.2.1 takes 76.8 kB and `sm-2` 0.2.0 58.9 kB, both ask the browser for the time; `sra` 0.1.0 takes 0.1 kB and has
//! stayed a first version.
//!
//! Three things are ours: an item comes back on a day, not at an hour; a right answer before its time does not lengthen
//! the interval, for nothing was nearly forgotten; and after a miss the intervals begin anew at a day, where the
//! library would go on with six.

use super::attempt::Attempt;
use crate::pace::Pace;
use srs_sm2::{Schedule, schedule_next};

/// Seconds of a day.
pub(super) const DAY: u64 = 86_400;
/// Days of the longest interval: two years, after which reading is played at sight or forgotten.
const LONGEST: u32 = 730;
/// Thousandths of the highest ease; some forty right and quick answers in a row.
const EASIEST: u32 = 6500;

/// How well an item is remembered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Memory {
    /// The answer it was set by, in seconds since 1970.
    pub at: u64,
    /// Days of the interval; 0 after a miss.
    pub days: u32,
    /// How fast the intervals grow, in thousandths, 1300 to 6500.
    pub ease: u32,
}

impl Memory {
    /// How well the item of an answer is remembered after it. Fluent is right and quick: a right answer counts less the
    /// slower it was. An answer older than the memory changes nothing.
    pub(super) fn after(before: Option<Self>, attempt: &Attempt) -> Self {
        if let Some(before) = before {
            let early = attempt.right && !before.is_due(attempt.at);
            if before.at > attempt.at || early {
                return before;
            }
        }
        let current = before.map_or_else(Schedule::default, |before| Schedule {
            interval_days: i32::try_from(before.days).unwrap_or(0),
            ease_factor: f64::from(before.ease) / 1000.0,
        });
        let quality = match (attempt.right, attempt.pace()) {
            (false, _) => 2,
            (true, Pace::Fluent) => 5,
            (true, Pace::Steady) => 4,
            (true, Pace::Slow | Pace::VerySlow) => 3,
        };
        let next = schedule_next(current, quality);
        let days = if attempt.right { u32::try_from(next.interval_days).unwrap_or(1) } else { 0 };
        // A float becomes a whole number by cutting; what is beyond its bounds is set to them.
        let ease = (next.ease_factor * 1000.0 + 0.5) as u32;
        Self { at: attempt.at, days: days.min(LONGEST), ease: ease.clamp(1300, EASIEST) }
    }

    /// When it is to come back, in seconds since 1970: at the beginning of a day, after a miss of the next one.
    #[must_use]
    pub fn due(self) -> u64 {
        (self.at / DAY).saturating_add(self.days.max(1).into()).saturating_mul(DAY)
    }

    /// Whether it is to come back.
    #[must_use]
    pub fn is_due(self, now: u64) -> bool {
        self.due() <= now
    }
}

#[cfg(test)]
mod tests {
    use super::super::item::{Item, StaffKey};
    use super::*;
    use crate::kind::Kind;
    use crookwise_theory::Clef;

    fn attempt(at: u64, right: bool, ms: u32) -> Attempt {
        let staff = StaffKey {
            instrument: "horn",
            steps: -2,
            semitones: -3,
            clef: Clef::TREBLE,
            bass: None,
            scheme: None,
        };
        Attempt::new(at, Item { kind: Kind::Sounds, staff, note: None, second: None }, right, &[], ms)
    }

    /// Days between answers that all come when they are due.
    fn intervals(ms: u32) -> Vec<u64> {
        let mut memory = Memory::after(None, &attempt(20 * 3600, true, ms));
        let mut intervals = Vec::new();
        for _ in 0..6 {
            let due = memory.due() + 20 * 3600;
            intervals.push((due - memory.at) / DAY);
            memory = Memory::after(Some(memory), &attempt(due, true, ms));
        }
        intervals
    }

    #[test]
    fn what_is_right_and_quick_comes_back_ever_later() {
        assert_eq!(intervals(2_000), [1, 6, 17, 49, 147, 456]);
        assert_eq!(intervals(10_000), [1, 6, 12, 23, 41, 68]);
    }

    #[test]
    fn what_was_missed_comes_back_the_next_day_and_then_the_next() {
        let known = Memory { at: 0, days: 17, ease: 2800 };
        let missed = Memory::after(Some(known), &attempt(17 * DAY + 5, false, 2000));
        assert_eq!((missed.due(), missed.ease), (18 * DAY, 2480));
        let again = Memory::after(Some(missed), &attempt(18 * DAY + 5, true, 2000));
        assert_eq!(again.due(), 19 * DAY);
    }

    #[test]
    fn a_right_answer_before_its_time_changes_nothing_a_wrong_one_does() {
        let known = Memory { at: 0, days: 17, ease: 2800 };
        assert_eq!(Memory::after(Some(known), &attempt(3 * DAY, true, 2000)), known);
        assert_eq!(Memory::after(Some(known), &attempt(3 * DAY, false, 2000)).due(), 4 * DAY);
    }

    #[test]
    fn late_news_changes_nothing() {
        let known = Memory { at: DAY, days: 1, ease: 2500 };
        assert_eq!(Memory::after(Some(known), &attempt(0, false, 2000)), known);
        assert_eq!(Memory { at: u64::MAX, ..known }.due(), u64::MAX);
    }
}
