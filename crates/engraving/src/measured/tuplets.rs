//! The numbers of tuplets, with a bracket where no beam joins all of one.

use super::chord::Chord;
use super::outside::Outside;
use super::rests;
use super::row::PlacedBar;
use crate::drawing::{Shape, TextAlign, TextFace};
use crate::units::{Point, StaffSpace};
use core::ops::Range;
use crookwise_score::printed::PrintedEvent;
use crookwise_score::score::{NoteValue, Quarters, Tuplet};

/// Half of the gap that a bracket leaves for its number.
const HALF_GAP: f64 = 0.9;
/// How far the ends of a bracket reach towards the notes.
const HOOK: f64 = 0.7;

impl Outside<'_> {
    /// The tuplets of a voice; `above` where two voices have settled it.
    pub fn tuplets(
        &mut self,
        placed: &PlacedBar,
        (voice, chords): (&[PrintedEvent], &[Option<Chord<'_>>]),
        above: Option<bool>,
    ) {
        for group in groups(voice) {
            let events = voice.get(group.clone()).unwrap_or_default();
            let chords = chords.get(group).unwrap_or_default();
            let (Some(first), Some(last)) = (events.first(), events.last()) else { continue };
            let shift =
                |at: Option<&Option<Chord<'_>>>| at.and_then(Option::as_ref).map_or(0.0, |own| own.shift);
            let wide = chords
                .last()
                .and_then(Option::as_ref)
                .map_or_else(|| rests::sign(last).bounds().width().0, Chord::head_width);
            let left = placed.x_of(first.at) + shift(chords.first());
            let right = placed.x_of(last.at) + shift(chords.last()) + wide;
            let up = above.or_else(|| chords.iter().flatten().next().map(|own| own.up)).unwrap_or(true);
            let number = first.tuplet.map_or(0, |tuplet| tuplet.notes);
            self.tuplet(&number.to_string(), (left, right), up, is_one_beam(events));
        }
    }

    fn tuplet(&mut self, number: &str, (left, right): (f64, f64), up: bool, beamed: bool) {
        let ink = self.ink;
        let size = self.letters.max(1.5);
        let y = if up {
            self.skyline.top(left, right) - 0.5
        } else {
            self.skyline.bottom(left, right) + 0.3 + 0.8 * size
        };
        let middle = (left + right) / 2.0;
        let shape = Shape::Text {
            text: number.to_owned(),
            at: Point::new(middle, y),
            size: StaffSpace(size),
            align: TextAlign::Middle,
            face: TextFace::Italic,
        };
        self.push(shape, ink);
        if beamed {
            return;
        }
        let (y, hook) = (y - 0.3 * size, if up { HOOK } else { -HOOK });
        for (from, to) in [
            ((left, y), (middle - HALF_GAP, y)),
            ((middle + HALF_GAP, y), (right, y)),
            ((left, y), (left, y + hook)),
            ((right, y), (right, y + hook)),
        ] {
            if from.0 <= to.0 {
                let (from, to) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
                self.push(Shape::Line { from, to, thickness: StaffSpace(0.16) }, ink);
            }
        }
    }
}

/// Whether one beam joins all of a group, and no more.
fn is_one_beam(events: &[PrintedEvent]) -> bool {
    let (Some(first), Some(last)) = (events.first(), events.last()) else { return false };
    let ends = events.iter().filter(|event| event.beams.end & 1 > 0).count();
    first.beams.begin & 1 > 0
        && last.beams.end & 1 > 0
        && ends == 1
        && !events.iter().any(PrintedEvent::is_rest)
}

/// The tuplets of a voice. One ends where its notes, rests among them, last as long as it says of some value.
fn groups(voice: &[PrintedEvent]) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    let mut from = 0;
    while let Some(first) = voice.get(from) {
        let Some(tuplet) = first.tuplet else {
            from += 1;
            continue;
        };
        let mut to = from;
        let mut shortest = first.value;
        while let Some(event) = voice.get(to).filter(|event| event.tuplet == Some(tuplet)) {
            to += 1;
            shortest = shortest.min(event.value);
            let lasts = event.end().minus(first.at).unwrap_or_default();
            if shortest.is_none_or(|shortest| fills(lasts, tuplet, shortest)) {
                break;
            }
        }
        found.push(from..to);
        from = to;
    }
    found
}

/// Whether a time is that of a whole tuplet of some value, none shorter than the shortest of its notes.
fn fills(time: Quarters, tuplet: Tuplet, shortest: NoteValue) -> bool {
    let (over, under) = time.fraction();
    let is_of = |value: &NoteValue| {
        let (quarters, of) = value.quarters();
        over.saturating_mul(of) == under.saturating_mul(quarters).saturating_mul(i64::from(tuplet.in_time_of))
    };
    NoteValue::ALL.iter().filter(|value| **value >= shortest).any(is_of)
}
