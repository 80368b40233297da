//! Accidentals set to the left of a chord: as near as they go, none over another or over a head.

use crate::accidental::Accidental;
use crate::units::{Bounds, StaffSpace};
use crookwise_theory::order::in_order;
use std::collections::VecDeque;

/// Between an accidental and a notehead.
const HEAD_GAP: StaffSpace = StaffSpace(0.24);
/// Between an accidental and a ledger line or stem.
const LINE_GAP: StaffSpace = StaffSpace(0.12);
/// Between two accidentals.
const SIGN_GAP: StaffSpace = StaffSpace(0.14);

/// What accidentals keep clear of.
#[derive(Debug, Default)]
pub(crate) struct Obstacles {
    /// Heads.
    pub(crate) heads: Vec<Bounds>,
    /// Ledger lines and stems.
    pub(crate) lines: Vec<Bounds>,
}

/// The left ends of accidentals on given lines (`y`), in the order given.
///
/// The outer lines are set first, from above and below in turn (common practice), so the inner ones are the farther
/// to the left. Those on one line stand in the order given, as their heads do.
pub(crate) fn stack(signs: &[(StaffSpace, Accidental)], obstacles: &Obstacles) -> Vec<StaffSpace> {
    let order = in_order(0..signs.len(), |&sign| signs[sign].0.0);
    let mut lines: VecDeque<&[usize]> = order.chunk_by(|&one, &two| signs[one].0 == signs[two].0).collect();
    let mut turns = Vec::new();
    let mut above = true;
    while let Some(line) = if above { lines.pop_front() } else { lines.pop_back() } {
        turns.extend(line.iter().rev().copied());
        above = !above;
    }
    let mut lefts = vec![StaffSpace::ZERO; signs.len()];
    let mut set: Vec<Bounds> = Vec::new();
    for at in turns {
        let (y, sign) = signs[at];
        let bands: Vec<Bounds> =
            sign.bands().into_iter().map(|band| band.shifted(StaffSpace::ZERO, y)).collect();
        let mut left = -sign.width();
        for band in &bands {
            for (others, gap) in
                [(&obstacles.heads, HEAD_GAP), (&obstacles.lines, LINE_GAP), (&set, SIGN_GAP)]
            {
                let level = |other: &&Bounds| band.top < other.bottom && other.top < band.bottom;
                for other in others.iter().filter(level) {
                    left = left.min(other.left - gap - band.right);
                }
            }
        }
        lefts[at] = left;
        set.extend(bands.into_iter().map(|band| band.shifted(left, StaffSpace::ZERO)));
    }
    lefts
}
