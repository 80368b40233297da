//! Rests: which sign, and on which line.

use super::beams;
use super::chord::{Chord, y_of};
use super::row::PlacedBar;
use crate::glyph::{Glyph, Outline, measured};
use crate::units::{Bounds, StaffSpace};
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

/// What rests of a bar keep clear of: the heads and beams of each voice.
#[derive(Default)]
pub(super) struct InTheWay {
    /// Heads by their voice.
    heads: Vec<(usize, Bounds)>,
    /// Beams, and whether their stems go up.
    beams: Vec<(Bounds, bool)>,
}

impl InTheWay {
    pub fn of(placed: &PlacedBar, voices: &[Vec<Option<Chord<'_>>>]) -> Self {
        let mut heads = Vec::new();
        for (number, chord) in voices
            .iter()
            .enumerate()
            .flat_map(|(number, all)| all.iter().flatten().map(move |own| (number, own)))
        {
            let x = StaffSpace(placed.x_of(chord.event.at));
            let bounds = chord.heads.iter().map(|head| chord.head_bounds(head).shifted(x, StaffSpace::ZERO));
            heads.extend(bounds.map(|bounds| (number, bounds)));
        }
        Self { heads, beams: voices.iter().flat_map(|chords| beams::zones(placed, chords)).collect() }
    }

    /// Whether a rest of a voice lies over something.
    fn meets(&self, rest: Bounds, voice: usize) -> bool {
        let rest = rest.grown(StaffSpace(CLEAR));
        let of_others = self.heads.iter().filter(|(number, _)| *number != voice);
        of_others
            .map(|(_, bounds)| bounds)
            .chain(self.beams.iter().map(|(bounds, _)| bounds))
            .any(|own| rest.overlaps(*own))
    }

    /// Away from the first beam that a rest lies over.
    fn away(&self, rest: Bounds) -> i32 {
        let met = self.beams.iter().find(|(bounds, _)| rest.grown(StaffSpace(CLEAR)).overlaps(*bounds));
        if met.is_some_and(|(_, up)| *up) { -2 } else { 2 }
    }
}

/// From a rest to what it keeps clear of.
const CLEAR: f64 = 0.2;

/// The line on which the origin of a rest stands, 0 at the bottom: whole rests hang from the fourth line, others stand round
/// the middle, away from beams. In two voices each goes to its own side, as far as the notes of the other ask; none stands for
/// the second of two that rest alike.
pub(super) fn place_beside(
    placed: &PlacedBar,
    event: &PrintedEvent,
    voice: usize,
    bar: &PrintedBar,
    way: &InTheWay,
) -> Option<i32> {
    let middle = if event.whole_bar || event.value == Some(NoteValue::Whole) { 6 } else { 4 };
    let bounds =
        |place: i32| sign(event).bounds().shifted(StaffSpace(left(placed, event)), StaffSpace(y_of(place)));
    let (start, step) = match bar.voices.len() {
        0 | 1 => (middle, way.away(bounds(middle))),
        _ if rest_alike(bar, event) => return (voice == 0).then_some(middle),
        _ if voice.is_multiple_of(2) => (middle + 4, 2),
        _ => (middle - 4, -2),
    };
    let places = (0..12).map(|count| start + count * step);
    Some(places.clone().find(|place| !way.meets(bounds(*place), voice)).unwrap_or(start))
}

/// Whether all voices have the same rest at once.
fn rest_alike(bar: &PrintedBar, event: &PrintedEvent) -> bool {
    let alike = |other: &PrintedEvent| {
        other.is_rest() && (other.at, other.length, other.value) == (event.at, event.length, event.value)
    };
    bar.voices.iter().all(|voice| voice.iter().any(alike))
}
