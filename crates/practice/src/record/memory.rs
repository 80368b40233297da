//! How well an item is remembered, and when it is to come back.
//!
//! The schedule is SM-2 (P. A. Woźniak, *Optimization of learning*, thesis, Poznań 1990, section 3.2).
//! Each item has an ease, at first 2.5. An answer of quality q, 0 to 5, moves it by
//! 0.1 − (5 − q)(0.08 + (5 − q) 0.02), but not below 1.3. What was right comes back after one day, then after six, then
//! after the last interval times the ease.
//!
//! Three things are ours: an item comes back on a day, not at an hour; a right answer before its time does not lengthen
//! the interval, for nothing was nearly forgotten; and after a miss the intervals begin anew at a day.
//!
//! Reckoned in thousandths and whole days, so that it gives the same on every machine.

use super::attempt::Attempt;
use crate::pace::Pace;

/// Seconds of a day.
pub(super) const DAY: u64 = 86_400;
/// Days of the longest interval: two years, after which reading is played at sight or forgotten.
const LONGEST: u32 = 730;
/// Thousandths of the ease to begin with.
const FIRST_EASE: u32 = 2500;
/// Thousandths of the lowest ease.
const HARDEST: u32 = 1300;
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
        let (days, ease) = before.map_or((0, FIRST_EASE), |before| (before.days, before.ease));
        // The change of the ease for quality 5, 4, 3 and 2, by the formula above, in thousandths.
        let (harder, easier) = match (attempt.right, attempt.pace()) {
            (true, Pace::Fluent) => (0, 100),
            (true, Pace::Steady) => (0, 0),
            (true, Pace::Slow | Pace::VerySlow) => (140, 0),
            (false, _) => (320, 0),
        };
        let ease = ease.saturating_add(easier).saturating_sub(harder).clamp(HARDEST, EASIEST);
        let days = match (attempt.right, days) {
            (false, _) => 0,
            (true, 0) => 1,
            (true, 1) => 6,
            (true, days) => times(days, ease).min(LONGEST),
        };
        Self { at: attempt.at, days, ease }
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

/// Days times an ease, to the nearest day.
fn times(days: u32, ease: u32) -> u32 {
    let thousandths = u64::from(days) * u64::from(ease);
    u32::try_from((thousandths + 500) / 1000).unwrap_or(u32::MAX)
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

    /// The published formula, as it stands there.
    fn published(ease: f64, quality: f64) -> f64 {
        (ease + (0.1 - (5.0 - quality) * (0.08 + (5.0 - quality) * 0.02))).max(1.3)
    }

    #[test]
    fn the_schedule_is_the_published_one() {
        for (right, ms, quality) in
            [(true, 2_000, 5.0), (true, 6_000, 4.0), (true, 12_000, 3.0), (false, 2_000, 2.0)]
        {
            for ease in [1300, 1310, 1440, 1900, 2500, 2840, 6400] {
                for days in [2, 6, 17, 49, 200] {
                    let known = Memory { at: 0, days, ease };
                    let answer = attempt(u64::from(days) * DAY, right, ms);
                    let next = Memory::after(Some(known), &answer);
                    let wanted = published(f64::from(ease) / 1000.0, quality);
                    assert_eq!(f64::from(next.ease), (wanted * 1000.0).round(), "{:?}", answer.pace());
                    let interval = if right { (f64::from(days) * wanted).round().min(730.0) } else { 0.0 };
                    assert!((f64::from(next.days) - interval).abs() < 1e-9, "{days} {ease} {quality}");
                }
            }
        }
    }

    #[test]
    fn late_news_changes_nothing() {
        let known = Memory { at: DAY, days: 1, ease: 2500 };
        assert_eq!(Memory::after(Some(known), &attempt(0, false, 2000)), known);
        assert_eq!(Memory { at: u64::MAX, ..known }.due(), u64::MAX);
    }
}
