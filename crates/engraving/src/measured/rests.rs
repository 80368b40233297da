//! Rests: which sign, and on which line.

use super::chord::{Chord, y_of};
use super::row::PlacedBar;
use crate::glyph::{Glyph, Outline, measured};
use crate::units::StaffSpace;
use crookwise_score::printed::{PrintedBar, PrintedEvent};
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

/// Where the left edge of a rest stands: one that fills its bar in the middle.
pub(super) fn left(placed: &PlacedBar, event: &PrintedEvent) -> f64 {
    if event.whole_bar {
        (placed.begins + placed.ends) / 2.0 - sign(event).bounds().width().0 / 2.0
    } else {
        placed.x_of(event.at)
    }
}

/// The line on which the origin of a rest stands, 0 at the bottom: whole rests hang from the fourth line, others stand round
/// the middle. In two voices each goes to its own side, as far as the notes of the other ask; none stands for the second of
/// two that rest alike.
pub(super) fn place_beside(
    placed: &PlacedBar,
    event: &PrintedEvent,
    voice: usize,
    bar: &PrintedBar,
    voices: &[Vec<Option<Chord<'_>>>],
) -> Option<i32> {
    let middle = if event.whole_bar || event.value == Some(NoteValue::Whole) { 6 } else { 4 };
    if bar.voices.len() < 2 {
        return Some(middle);
    }
    let alike = |other: &PrintedEvent| {
        other.is_rest() && (other.at, other.length, other.value) == (event.at, event.length, event.value)
    };
    let rests_too = |(_, other): &(usize, &Vec<PrintedEvent>)| other.iter().any(alike);
    if let Some((first, _)) = bar.voices.iter().enumerate().find(rests_too)
        && bar.voices.iter().all(|other| other.iter().any(alike))
    {
        return (first == voice).then_some(middle);
    }
    let others = voices.iter().enumerate().filter(|(number, _)| *number != voice);
    let near: Vec<&Chord<'_>> = others.flat_map(|(_, chords)| chords.iter().flatten()).collect();
    let above = voice.is_multiple_of(2);
    let step = if above { 2 } else { -2 };
    let mut place = middle + 2 * step;
    while (-20..=28).contains(&place) && near.iter().any(|chord| touches(placed, event, place, chord)) {
        place += step;
    }
    Some(place)
}

/// Whether a rest on a place lies over the heads of a chord.
fn touches(placed: &PlacedBar, event: &PrintedEvent, place: i32, chord: &Chord<'_>) -> bool {
    const CLEAR: f64 = 0.2;
    let own = sign(event).bounds().shifted(StaffSpace(left(placed, event)), StaffSpace(y_of(place)));
    let x = placed.x_of(chord.event.at);
    chord.heads.iter().any(|head| {
        let head = chord.head_bounds(head).shifted(StaffSpace(x), StaffSpace::ZERO);
        own.overlaps(head.grown(StaffSpace(CLEAR)))
    })
}
