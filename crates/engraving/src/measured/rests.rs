//! Rests: which sign, and on which line.

use crate::glyph::{Glyph, Outline, measured};
use crookwise_score::printed::PrintedEvent;
use crookwise_score::score::NoteValue;

/// The sign of a rest.
pub(super) fn sign(event: &PrintedEvent) -> &'static Outline {
    match event.value {
        Some(value) if value > NoteValue::Whole => &measured::REST_DOUBLE_WHOLE,
        _ if event.whole_bar => Glyph::RestWhole.outline(),
        Some(NoteValue::Whole) => Glyph::RestWhole.outline(),
        Some(NoteValue::Half) => Glyph::RestHalf.outline(),
        Some(NoteValue::Eighth) => Glyph::Rest8th.outline(),
        Some(NoteValue::N16) => Glyph::Rest16th.outline(),
        Some(value) if value < NoteValue::N16 => &measured::REST32ND,
        _ => Glyph::RestQuarter.outline(),
    }
}

/// The line on which its origin stands, 0 at the bottom: whole rests hang from the fourth line, others stand round the
/// middle. In two voices each goes to its own side.
pub(super) fn place(event: &PrintedEvent, voice: Option<usize>) -> i32 {
    let middle = match event.value {
        _ if event.whole_bar => 6,
        Some(NoteValue::Whole) => 6,
        _ => 4,
    };
    match voice {
        None => middle,
        Some(number) if number % 2 == 0 => middle + 4,
        Some(_) => middle - 4,
    }
}
