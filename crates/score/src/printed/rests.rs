//! Bars of rest that print as one: they break wherever anything changes.

use super::{PrintedSign, PrintedStaff};
use crate::score::{BarLine, BarSigns, Direction, Score};
use crate::tempo::is_heading;
use core::borrow::Borrow;

/// For each bar how many bars of rest print as one from it on, itself counted; 1 for a bar that stands alone, 0 for one
/// that stands in such a rest of an earlier bar.
#[must_use]
pub fn rests_together<S: Borrow<PrintedStaff>>(score: &Score, staves: &[S]) -> Vec<usize> {
    let staves: Vec<&PrintedStaff> = staves.iter().map(Borrow::borrow).collect();
    together(score, &staves)
}

fn together(score: &Score, staves: &[&PrintedStaff]) -> Vec<usize> {
    let count = score.bars().len();
    let mut runs = vec![1; count];
    let told = told(score);
    let breaks = |bar: usize| told.get(bar).copied().unwrap_or(true) || begins(score, staves, bar);
    let mut from = 0;
    while from < count {
        let mut to = from;
        while to < count && rests(staves, to) && (to == from || !breaks(to)) {
            to += 1;
            if ends(score, to - 1) {
                break;
            }
        }
        if to > from + 1 {
            for (bar, run) in runs.iter_mut().enumerate().take(to).skip(from) {
                *run = if bar == from { to - from } else { 0 };
            }
        }
        from = to.max(from + 1);
    }
    runs
}

/// Whether nobody plays in a bar.
fn rests(staves: &[&PrintedStaff], bar: usize) -> bool {
    staves.iter().filter_map(|staff| staff.bars.get(bar)).all(|bar| bar.is_silent() && bar.clefs.is_empty())
}

/// Whether a tempo or a rehearsal letter stands at each bar, whatever staff has it.
fn told(score: &Score) -> Vec<bool> {
    let mut told = vec![false; score.bars().len()];
    for direction in score.staves().flat_map(|staff| &staff.directions) {
        let seen = match &direction.direction {
            Direction::Rehearsal(_) | Direction::Tempo(_) => true,
            Direction::Words(words) => is_heading(words),
            _ => false,
        };
        if let Some(at) = told.get_mut(score.bar_at(direction.at.time)).filter(|_| seen) {
            *at = true;
        }
    }
    told
}

/// Whether something begins with a bar that a long rest may not hide.
fn begins(score: &Score, staves: &[&PrintedStaff], bar: usize) -> bool {
    let Some(own) = score.bars().get(bar) else { return true };
    let begins = own.time.is_some()
        || own.signs.repeat_from
        || own.signs.ending.is_some()
        || !own.signs.jumps.is_empty()
        || own.signs.like_before > 0;
    let changes = staves.iter().any(|staff| {
        let (Some(now), Some(before)) =
            (staff.bars.get(bar), bar.checked_sub(1).and_then(|at| staff.bars.get(at)))
        else {
            return false;
        };
        now.signature != before.signature
            || now.clef != before.clef
            || now.signs.iter().any(|(_, sign)| is_seen(sign))
    });
    begins || changes
}

/// Signs that a player at rest must see: words and another crook.
fn is_seen(sign: &PrintedSign) -> bool {
    matches!(sign, PrintedSign::Crook(_) | PrintedSign::Direction(Direction::Words(_)))
}

/// Whether something ends with a bar.
fn ends(score: &Score, bar: usize) -> bool {
    let Some(own) = score.bars().get(bar) else { return true };
    let BarSigns { repeat_to, ending_ends, line, .. } = &own.signs;
    repeat_to.is_some() || *ending_ends || *line != BarLine::Thin
}
