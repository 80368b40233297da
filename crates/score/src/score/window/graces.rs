//! Grace notes in a window. They have no time of their own, and a column has: here they take theirs before the beat, so that
//! what they grace begins on its time (common practice since the nineteenth century; before it many were played on the beat).

use super::super::parts::{PartStaff, ScoreNote};
use super::super::quarters::{Moment, Quarters};
use super::WindowError;
use crate::length::Length;
use core::ops::Range;

/// Grace notes in a quarter note, at the speed at which they are played.
const IN_A_QUARTER: i64 = 8;

/// Whether a note belongs to these bars: a grace note to the bar in which it is printed, at whose end it may stand.
pub(super) fn belongs(note: &ScoreNote, bars: &Range<usize>) -> bool {
    !note.grace || usize::try_from(note.bar).is_ok_and(|bar| bars.contains(&bar))
}

/// When a note ends among columns: before the grace notes of its own voice, and the last of these when the beat begins.
pub(super) fn end(staff: &PartStaff, note: &ScoreNote, bars: &Range<usize>) -> Moment {
    let from = if note.grace { note.start } else { Moment::without_length(note.end.time, 0) };
    let all = staff.notes();
    let later = all.get(all.partition_point(|(_, other)| other.start < from)..).unwrap_or_default();
    let at_once = later.iter().map(|(_, other)| other).take_while(|other| other.start.time == from.time);
    let next = at_once
        .filter(|other| other.grace && other.voice == note.voice && belongs(other, bars))
        .map(|other| other.start)
        .find(|start| !note.grace || *start > note.start);
    match next {
        Some(next) if next > note.start => next,
        _ if note.grace => Moment::measured(note.start.time),
        _ => note.end,
    }
}

/// How long the columns are, up to the end. Grace notes take their time from the column before them, half of it at most, and
/// are an upbeat where there is none; what is no grace note and has no length has none here.
pub(super) fn lengths(
    columns: &[Moment],
    end: Quarters,
    are_graces: bool,
) -> Result<Vec<Option<Length>>, WindowError> {
    let mut lengths: Vec<Option<Quarters>> = Vec::with_capacity(columns.len());
    let mut graces = 0;
    for (column, at) in columns.iter().enumerate() {
        graces = if at.is_measured() { 0 } else { graces + 1 };
        let next = columns.get(column + 1);
        if at.is_measured() {
            let until = next.map_or(end, |next| next.time);
            lengths.push(Some(until.minus(at.time).ok_or(WindowError::TooFine)?));
        } else if next.is_none_or(|next| next.is_measured()) {
            let each = match lengths.last_mut() {
                Some(Some(before)) if are_graces => shared(before, graces),
                _ => Quarters::new(1, IN_A_QUARTER),
            };
            lengths.resize(column + 1, each.filter(|_| are_graces));
        }
    }
    let length = |length: Quarters| length.as_length().ok_or(WindowError::TooFine);
    lengths.into_iter().map(|one| one.map(length).transpose()).collect()
}

/// How long each of so many grace notes is; what is before them gets shorter by all. `None` where that cannot be reckoned.
fn shared(before: &mut Quarters, graces: i64) -> Option<Quarters> {
    let (above, below) = before.fraction();
    let half = Quarters::new(above, below.checked_mul(graces.checked_mul(2)?)?)?;
    let each = Quarters::new(1, IN_A_QUARTER)?.min(half);
    let (above, below) = each.fraction();
    *before = before.minus(Quarters::new(above.checked_mul(graces)?, below)?)?;
    Some(each)
}
