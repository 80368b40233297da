//! The notes and rests of a bar drawn: heads with their ledger lines, accidentals and dots, stems, grace notes, tremolos.

use super::beams::{self, Placed};
use super::chord::{Chord, LEDGER_REACH, STEM, y_of};
use super::marks;
use super::rests;
use super::row::PlacedBar;
use crate::drawing::{Drawing, ElementId, Ink, Shape};
use crate::glyph::measured;
use crate::units::{Point, StaffSpace};
use crookwise_score::printed::{PrintedBar, PrintedEvent};
use crookwise_score::score::{NoteValue, TremoloKind};

/// Thickness of a ledger line (engraving default of the font).
const LEDGER: f64 = 0.16;

/// Draws the notes and rests of a bar.
pub(super) fn draw_bar(
    placed: &PlacedBar,
    bar: &PrintedBar,
    voices: &[Vec<Option<Chord<'_>>>],
    ink: Ink,
    drawing: &mut Drawing,
) {
    let rests_among = bar.voices.iter().flatten().any(|event| event.is_rest() && !event.whole_bar);
    let way = if rests_among { rests::InTheWay::of(placed, voices) } else { rests::InTheWay::default() };
    for (number, (voice, chords)) in bar.voices.iter().zip(voices).enumerate() {
        for event in voice.iter().filter(|event| event.is_rest()) {
            if let Some(place) = rests::place_beside(placed, event, number, bar, &way) {
                draw_rest(placed, event, place, ink, drawing);
            }
        }
        let mut group: Vec<Placed<'_, '_>> = Vec::new();
        let mut pending: Option<(&Chord<'_>, f64, u8)> = None;
        for chord in chords.iter().flatten() {
            let x = placed.x_of(chord.event.at) + chord.shift;
            draw_heads_of(chord, x, ink, drawing);
            draw_graces(chord, x, ink, drawing);
            marks::arpeggio(chord, x + chord.notes_left(), ink, drawing);
            if chord.is_beamed() {
                group.push(Placed { chord, x });
                if chord.event.beams.end & 1 > 0 {
                    beams::draw(&core::mem::take(&mut group), drawing, ink);
                }
            } else {
                draw_stem(chord, x, ink, drawing);
            }
            match chord.event.tremolo {
                Some(tremolo) if tremolo.kind == TremoloKind::Begins => {
                    pending = Some((chord, x, tremolo.strokes));
                }
                Some(tremolo) if tremolo.kind == TremoloKind::Ends => {
                    if let Some((first, from, strokes)) = pending.take() {
                        draw_between((first, from), (chord, x), strokes, ink, drawing);
                    }
                }
                Some(tremolo) => draw_strokes(chord, x, tremolo.strokes, ink, drawing),
                None => {}
            }
        }
        if !group.is_empty() {
            beams::draw(&group, drawing, ink);
        }
    }
}

fn draw_rest(placed: &PlacedBar, event: &PrintedEvent, place: i32, ink: Ink, drawing: &mut Drawing) {
    let sign = rests::sign(event);
    let x = rests::left(placed, event);
    let at = Point::new(x, y_of(place));
    drawing.push(Shape::Sign { sign, at, scale: if event.cue { 0.75 } else { 1.0 } }, ink, None);
    for dot in 0..event.dots {
        let at = Point::new(x + sign.bounds().right.0 + 0.3 + 0.5 * f64::from(dot), y_of(place) - 0.5);
        drawing.push(Shape::Sign { sign: &measured::AUGMENTATION_DOT, at, scale: 1.0 }, ink, None);
    }
    // A whole or half rest outside the staff has a line of its own.
    if !(0..=8).contains(&place) && event.value.is_some_and(|value| value >= NoteValue::Half) {
        let (from, to) =
            (Point::new(x - 0.3, y_of(place)), Point::new(x + sign.bounds().right.0 + 0.3, y_of(place)));
        drawing.push(Shape::Line { from, to, thickness: StaffSpace(LEDGER) }, Ink::Ledger, None);
    }
}

/// Heads with their ledger lines, accidentals and dots.
fn draw_heads_of(chord: &Chord<'_>, x: f64, ink: Ink, drawing: &mut Drawing) {
    let width = chord.head_width();
    let reach = LEDGER_REACH * chord.scale;
    let mut ledger = |place: i32, left: f64, right: f64| {
        let (from, to) = (Point::new(left - reach, y_of(place)), Point::new(right + reach, y_of(place)));
        drawing.push(Shape::Line { from, to, thickness: StaffSpace(LEDGER) }, Ink::Ledger, None);
    };
    // Each line as wide as the heads that need it.
    for (places, needs) in [((10..=chord.highest()), true), ((chord.lowest()..=-2), false)] {
        for place in places.filter(|place| place % 2 == 0) {
            let heads = chord
                .heads
                .iter()
                .filter(|head| if needs { head.place >= place } else { head.place <= place });
            let left = heads.clone().map(|head| head.x).fold(f64::INFINITY, f64::min);
            let right = heads.map(|head| head.x).fold(f64::NEG_INFINITY, f64::max);
            if left.is_finite() {
                ledger(place, x + left, x + right + width);
            }
        }
    }
    for head in &chord.heads {
        let at = Point::new(x + head.x - chord.sign.bounds().left.0 * chord.scale, y_of(head.place));
        let id = Some(ElementId(head.note.id.number()));
        if let Some((accidental, left)) = head.accidental {
            for (glyph, inner) in accidental.placed() {
                let at = Point::new(x + left + inner.0 * chord.scale, y_of(head.place));
                drawing.push(Shape::Sign { sign: glyph.outline(), at, scale: chord.scale }, ink, None);
            }
        }
        drawing.push(Shape::Sign { sign: chord.sign, at, scale: chord.scale }, ink, id);
    }
    if chord.event.dots > 0 {
        let (left, places) = chord.dots();
        for place in places {
            for dot in 0..chord.event.dots {
                let at = Point::new(x + left + 0.5 * f64::from(dot), y_of(place));
                drawing.push(
                    Shape::Sign { sign: &measured::AUGMENTATION_DOT, at, scale: chord.scale },
                    ink,
                    None,
                );
            }
        }
    }
}

/// The stem of a chord that no beam joins, and its flags.
fn draw_stem(chord: &Chord<'_>, x: f64, ink: Ink, drawing: &mut Drawing) {
    if !chord.has_stem() {
        return;
    }
    let (root, tip) = chord.stem();
    let middle = x + chord.stem_x();
    let (from, to) = (Point::new(middle, root), Point::new(middle, tip));
    drawing.push(Shape::Line { from, to, thickness: StaffSpace(STEM) }, ink, None);
    if let Some(sign) = chord.flag() {
        let at = Point::new(middle - STEM / 2.0, tip);
        drawing.push(Shape::Sign { sign, at, scale: chord.scale }, ink, None);
    }
}

fn draw_graces(chord: &Chord<'_>, x: f64, ink: Ink, drawing: &mut Drawing) {
    let joined = chord.graces.len() > 1
        && chord.graces.iter().all(|(grace, _)| grace.flag().is_some() || grace.is_beamed());
    let group: Vec<Placed<'_, '_>> =
        chord.graces.iter().map(|(grace, at)| Placed { chord: grace, x: x + at }).collect();
    for placed in &group {
        draw_heads_of(placed.chord, placed.x, ink, drawing);
        if !joined || !placed.chord.is_beamed() {
            draw_stem(placed.chord, placed.x, ink, drawing);
        }
        if placed.chord.event.slash {
            let (_, tip) = placed.chord.stem();
            let middle = placed.x + placed.chord.stem_x();
            let (from, to) = (Point::new(middle - 0.6, tip + 1.3), Point::new(middle + 0.8, tip + 0.3));
            drawing.push(Shape::Line { from, to, thickness: StaffSpace(0.1) }, ink, None);
        }
    }
    if joined && group.iter().all(|placed| placed.chord.is_beamed()) {
        beams::draw(&group, drawing, ink);
    }
}

/// Strokes through a stem, or over the head where there is none.
fn draw_strokes(chord: &Chord<'_>, x: f64, strokes: u8, ink: Ink, drawing: &mut Drawing) {
    let (_, tip) = chord.stem();
    let side = if chord.up { 1.0 } else { -1.0 };
    let middle = x + if chord.has_stem() { chord.stem_x() } else { chord.head_width() / 2.0 };
    let beams = f64::from(super::chord::flags(chord.event.value));
    let start = tip + side * (0.9 + if chord.is_beamed() { 0.75 * beams } else { 0.35 * beams });
    for stroke in 0..strokes.min(5) {
        let y = start + side * 0.75 * f64::from(stroke);
        let (from, to) = (Point::new(middle - 0.6, y + 0.2), Point::new(middle + 0.6, y - 0.2));
        drawing.push(Shape::Beam { from, to, thickness: StaffSpace(0.42) }, ink, None);
    }
}

/// Strokes between two chords.
fn draw_between(
    (first, from): (&Chord<'_>, f64),
    (second, to): (&Chord<'_>, f64),
    strokes: u8,
    ink: Ink,
    drawing: &mut Drawing,
) {
    let side = if first.up { 1.0 } else { -1.0 };
    let (left, right) = (from + first.stem_x() + 0.5, to + second.stem_x() - 0.5);
    let (start, end) = (first.stem().1 + side * 0.5, second.stem().1 + side * 0.5);
    for stroke in 0..strokes.min(5) {
        let down = side * 0.75 * f64::from(stroke);
        let (from, to) = (Point::new(left, start + down), Point::new(right.max(left + 0.8), end + down));
        drawing.push(Shape::Beam { from, to, thickness: StaffSpace(0.5) }, ink, None);
    }
}
