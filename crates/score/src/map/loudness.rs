//! How loud each bar of a movement is.
//!
//! A bar in which nobody plays has 0. Of the staves that sound in it, each has the strength its signs of loudness give
//! ([`Strengths`]) as the mean of that at the beginning and in the middle of the bar. Their mean, out of
//! 127, counts [`LOUDNESS_BY_SIGNS`] of a hundred; the square root of how many of all staves that ever play are playing counts
//! [`LOUDNESS_BY_NUMBER`], since twice as many players are not twice as loud. Our own measure, to see a tutti and a solo from afar; it
//! says nothing of decibels.

use super::ends_in;
use crate::score::{PartStaff, Score, ScoreNote};
use crate::strength::{STRONGEST, Strengths};

/// Of a hundred: how much the signs of loudness count.
pub const LOUDNESS_BY_SIGNS: f64 = 65.0;
/// Of a hundred: how much it counts how many play.
pub const LOUDNESS_BY_NUMBER: f64 = 35.0;

/// Gathers bars staff by staff.
pub(super) struct Bars<'a> {
    score: &'a Score,
    /// For each bar how many staves sound in it, and the sum of their strengths.
    bars: Vec<(u32, f64)>,
    /// Staves that play at all.
    staves: u32,
}

impl<'a> Bars<'a> {
    pub fn new(score: &'a Score) -> Self {
        Self { score, bars: vec![(0, 0.0); score.bars().len()], staves: 0 }
    }

    pub fn staff<'b>(&mut self, staff: &PartStaff, notes: impl Iterator<Item = &'b ScoreNote>) {
        let strengths = Strengths::of(staff);
        // The first bar that is not counted yet.
        let mut next = 0;
        for note in notes {
            let bar = usize::try_from(note.bar).unwrap_or(usize::MAX);
            let last = ends_in(self.score, bar, note.end.time);
            for at in next.max(bar)..=last {
                let Some((own, counted)) = self.score.bars().get(at).zip(self.bars.get_mut(at)) else {
                    break;
                };
                let middle =
                    own.length.scaled((1, 2)).and_then(|half| own.start.plus(half)).unwrap_or(own.start);
                counted.0 += 1;
                counted.1 += f64::midpoint(strengths.at(own.start), strengths.at(middle));
            }
            next = next.max(last.saturating_add(1));
        }
        self.staves += u32::from(next > 0);
    }

    pub fn done(self) -> Vec<u8> {
        let all = f64::from(self.staves.max(1));
        let loudness = |(count, sum): (u32, f64)| {
            if count == 0 {
                return 0;
            }
            let count = f64::from(count);
            let by_signs = sum / count / STRONGEST * LOUDNESS_BY_SIGNS;
            let by_number = (count / all).sqrt() * LOUDNESS_BY_NUMBER;
            (by_signs + by_number).round().clamp(1.0, 100.0) as u8
        };
        self.bars.into_iter().map(loudness).collect()
    }
}
