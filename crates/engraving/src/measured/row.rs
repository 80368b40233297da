//! One row of a system drawn: lines, head, notes, rests, and what belongs to them.

use super::chord::Chord;
use super::columns::{bar_chords, clef_at, last_clef};
use super::outside::Outside;
use super::skyline::Skyline;
use super::{MusicSheet, SheetRow, bar_lines, course, notes};
use crate::drawing::{Drawing, Ink, Shape};
use crate::head;
use crate::units::{Point, StaffSpace};
use crookwise_score::printed::PrintedBar;
use crookwise_score::score::Quarters;

/// Thickness of a staff line (engraving default of the font).
const LINE: f64 = 0.13;

/// A bar with its place on a system.
#[derive(Clone, Debug)]
pub(super) struct PlacedBar {
    pub bar: usize,
    pub left: f64,
    pub right: f64,
    /// Where its changes end and its notes may begin.
    pub begins: f64,
    pub columns: Vec<(Quarters, f64)>,
    pub rests: usize,
    pub at_head: bool,
}

impl PlacedBar {
    /// Where a time of the bar stands, between its columns too.
    pub fn x_of(&self, at: Quarters) -> f64 {
        let after = self.columns.partition_point(|(time, _)| *time <= at);
        let before = after.checked_sub(1).and_then(|place| self.columns.get(place));
        match (before, self.columns.get(after)) {
            (Some((from, x)), Some((to, next))) => {
                let whole = to.minus(*from).map_or(1.0, Quarters::decimal).max(1e-6);
                let part = at.minus(*from).map_or(0.0, Quarters::decimal);
                x + (next - x) * (part / whole)
            }
            (Some((_, x)), None) | (None, Some((_, x))) => *x,
            (None, None) => self.begins + 0.7,
        }
    }
}

/// A bar with its place and its chords, voice by voice.
pub(super) type DrawnBar<'b, 'a> = (&'b PlacedBar, &'a PrintedBar, Vec<Vec<Option<Chord<'a>>>>);

/// A row that is drawn. y = 0 is its top line.
pub(super) struct RowDrawing {
    pub drawing: Drawing,
    pub top: f64,
    pub bottom: f64,
}

/// A chord with its place, as what is drawn afterwards needs it.
pub(super) struct DrawnChord<'c, 'a> {
    pub chord: &'c Chord<'a>,
    pub x: f64,
    /// The number of its voice, where there are two.
    pub voice: Option<usize>,
}

/// Draws a row between the left end of its lines and the right end of the system.
pub(super) fn draw_row(
    sheet: &MusicSheet,
    row: usize,
    placed: &[PlacedBar],
    (left, right): (f64, f64),
) -> RowDrawing {
    let mut drawing = Drawing::default();
    let Some(own) = sheet.rows.get(row) else { return RowDrawing { drawing, top: 0.0, bottom: 4.0 } };
    for line in 0..5 {
        let y = f64::from(line);
        let (from, to) = (Point::new(left, y), Point::new(right, y));
        drawing.push(Shape::Line { from, to, thickness: StaffSpace(LINE) }, Ink::Staff, None);
    }
    let of_signs = drawing.items.len();
    draw_heads(sheet, own, placed, left, &mut drawing);
    let mut skyline = Skyline::default();
    skyline.take(&drawing, of_signs);
    let chords: Vec<DrawnBar<'_, '_>> = placed
        .iter()
        .filter_map(|placed| {
            let bar = own.staff.bars.get(placed.bar)?;
            Some((placed, bar, if placed.rests > 1 { Vec::new() } else { bar_chords(bar) }))
        })
        .collect();
    let of_notes = drawing.items.len();
    for (placed, bar, voices) in &chords {
        if placed.rests > 1 {
            bar_lines::long_rest(&mut drawing, placed.rests, placed.begins, placed.right);
            continue;
        }
        notes::draw_bar(placed, bar, voices, own.ink, &mut drawing);
    }
    skyline.take(&drawing, of_notes);
    let of_curves = drawing.items.len();
    course::draw(&chords, own.ink, (left, right), &skyline, &mut drawing);
    skyline.take(&drawing, of_curves);
    let mut outside =
        Outside { drawing: &mut drawing, skyline: &mut skyline, ink: own.ink, letters: sheet.letters };
    for (placed, bar, voices) in &chords {
        let drawn = drawn_chords(placed, voices);
        outside.tuplets(&drawn, bar);
        outside.at_notes(&drawn);
        outside.signs(placed, bar);
    }
    outside.hairpins(own, placed, right);
    if own.made {
        let drawn: Vec<_> =
            chords.iter().flat_map(|(placed, _, voices)| drawn_chords(placed, voices)).collect();
        let line = outside.beneath(&drawn);
        outside.made(&drawn, line);
    }
    let ink = drawing.bounds().unwrap_or_default();
    RowDrawing { drawing, top: ink.top.0.min(0.0), bottom: ink.bottom.0.max(4.0) }
}

/// Clef and signature at the head, and what changes before bars.
fn draw_heads(sheet: &MusicSheet, row: &SheetRow, placed: &[PlacedBar], left: f64, drawing: &mut Drawing) {
    let head_of = |bar: &PrintedBar| head::head(bar.clef, bar.signature).0;
    for (at, bar) in placed.iter().enumerate() {
        let Some(now) = row.staff.bars.get(bar.bar) else { continue };
        let mut x = bar.left;
        if at == 0 {
            drawing.place(head_of(now), StaffSpace(left), StaffSpace::ZERO);
        } else if let Some(before) = bar.bar.checked_sub(1).and_then(|at| row.staff.bars.get(at)) {
            let old = (last_clef(before), before.signature);
            let clef = (now.clef != old.0).then_some(now.clef);
            let signature = (now.signature != old.1).then_some(now.signature);
            let (signs, room) = head::change(old, clef, signature);
            drawing.place(signs, StaffSpace(x), StaffSpace::ZERO);
            x += room.0;
        }
        if let Some(time) = sheet.bars.get(bar.bar).and_then(|own| own.time) {
            // Time signatures stand under each other, right before the notes, or before the repeat that begins there.
            let repeat =
                if sheet.bars.get(bar.bar).is_some_and(|own| own.signs.repeat_from) { 1.6 } else { 0.0 };
            let left = bar.begins - bar_lines::time_width(time) - 0.1 - repeat;
            bar_lines::time(drawing, time, left.max(x));
        }
        for (at, clef) in &now.clefs {
            let before = (clef_at(now, Quarters::ZERO), now.signature);
            let (sign, room) = head::change(before, Some(*clef), None);
            drawing.place(sign, StaffSpace(bar.x_of(*at) - room.0 - 0.3), StaffSpace::ZERO);
        }
    }
}

/// The chords of a bar with their places.
fn drawn_chords<'c, 'a>(placed: &PlacedBar, voices: &'c [Vec<Option<Chord<'a>>>]) -> Vec<DrawnChord<'c, 'a>> {
    let two = voices.len() > 1;
    let of_voice = |(number, voice): (usize, &'c Vec<Option<Chord<'a>>>)| {
        voice.iter().flatten().map(move |chord| (number, chord)).collect::<Vec<_>>()
    };
    let all = voices.iter().enumerate().flat_map(of_voice);
    all.map(|(number, chord)| DrawnChord {
        chord,
        x: placed.x_of(chord.event.at) + chord.shift,
        voice: two.then_some(number),
    })
    .collect()
}
