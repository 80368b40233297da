//! One row of a system drawn: lines, head, notes, rests, and what belongs to them.

use super::chord::Chord;
use super::columns::{bar_chords, changed, clef_room};
use super::course::curves_of;
use super::outside::Outside;
use super::skyline::Skyline;
use super::{MusicSheet, SheetRow, bar_lines, beams, notes};
use crate::drawing::{Drawing, Ink, Shape};
use crate::head;
use crate::units::{Point, StaffSpace};
use crookwise_score::printed::PrintedBar;
use crookwise_score::score::Quarters;
use crookwise_theory::Clef;

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
    /// Where its music ends, before a clef that stands at its bar line.
    pub ends: f64,
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
            (Some((from, x)), None) if at > *from => (self.ends - 0.3).max(*x),
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

/// The ends of a system.
#[derive(Clone, Copy, Debug)]
pub(super) struct SystemEnds {
    /// Where its lines begin.
    pub left: f64,
    /// Its last bar line.
    pub right: f64,
    /// Where its lines end: behind what the next system begins with.
    pub end: f64,
}

/// A chord with its place, as what is drawn afterwards needs it.
pub(super) struct DrawnChord<'c, 'a> {
    pub chord: &'c Chord<'a>,
    pub x: f64,
    /// The number of its voice, where there are two.
    pub voice: Option<usize>,
}

/// Draws a row between the ends of its system.
pub(super) fn draw_row(sheet: &MusicSheet, row: usize, placed: &[PlacedBar], ends: SystemEnds) -> RowDrawing {
    let SystemEnds { left, end, .. } = ends;
    let mut drawing = Drawing::default();
    let Some(own) = sheet.rows.get(row) else { return RowDrawing { drawing, top: 0.0, bottom: 4.0 } };
    for line in 0..5 {
        let y = f64::from(line);
        let (from, to) = (Point::new(left, y), Point::new(end, y));
        drawing.push(Shape::Line { from, to, thickness: StaffSpace(LINE) }, Ink::Staff, None);
    }
    let of_signs = drawing.items.len();
    draw_heads(sheet, own, placed, left, &mut drawing);
    draw_courtesies(sheet, own, placed, ends, &mut drawing);
    let mut skyline = Skyline::default();
    skyline.take(&drawing, of_signs);
    let chords: Vec<DrawnBar<'_, '_>> = placed
        .iter()
        .filter_map(|placed| {
            let bar = own.staff.bars.get(placed.bar)?;
            let mut voices = if placed.rests > 1 { Vec::new() } else { bar_chords(bar) };
            voices.iter_mut().for_each(|voice| beams::settle(placed, voice));
            Some((placed, bar, voices))
        })
        .collect();
    let of_notes = drawing.items.len();
    for (placed, bar, voices) in &chords {
        if placed.rests > 1 {
            bar_lines::long_rest(&mut drawing, placed.rests, placed.begins, placed.ends);
            continue;
        }
        notes::draw_bar(placed, bar, voices, own.ink, &mut drawing);
    }
    skyline.take(&drawing, of_notes);
    let (ink, letters) = (own.ink, sheet.letters);
    let outside = Outside { drawing: &mut drawing, skyline: &mut skyline, ink, letters, right: ends.end };
    draw_outside(outside, own, placed, &chords, ends);
    let ink = drawing.bounds().unwrap_or_default();
    RowDrawing { drawing, top: ink.top.0.min(0.0), bottom: ink.bottom.0.max(4.0) }
}

/// What stands round the notes of a row, from within outwards.
fn draw_outside(
    mut outside: Outside<'_>,
    row: &SheetRow,
    placed: &[PlacedBar],
    bars: &[DrawnBar<'_, '_>],
    ends: SystemEnds,
) {
    let drawn: Vec<_> = bars.iter().flat_map(|(placed, _, voices)| drawn_chords(placed, voices)).collect();
    outside.at_heads(&drawn);
    let begins = placed.first().map_or(ends.left, |placed| placed.begins) - 0.2;
    for curve in curves_of(bars, (begins, ends.right - 0.3), outside.skyline) {
        outside.push(curve, row.ink);
    }
    for (placed, bar, voices) in bars {
        let two = bar.voices.len() > 1;
        for (number, (events, chords)) in bar.voices.iter().zip(voices).enumerate() {
            outside.tuplets(placed, (events, chords), two.then_some(number % 2 == 0));
        }
    }
    outside.over_notes(&drawn);
    outside.ottavas(row, placed, ends.right);
    for (placed, bar, _) in bars {
        outside.signs(placed, bar);
    }
    outside.loudness(row, placed, ends.right);
    if row.made {
        let line = outside.beneath(&drawn);
        outside.made(&drawn, line);
    }
}

/// Clef and signature at the head, and what changes before bars and within them.
fn draw_heads(sheet: &MusicSheet, row: &SheetRow, placed: &[PlacedBar], left: f64, drawing: &mut Drawing) {
    for (at, bar) in placed.iter().enumerate() {
        let Some(now) = row.staff.bars.get(bar.bar) else { continue };
        let own = sheet.bars.get(bar.bar);
        let mut x = bar.left;
        if at == 0 {
            drawing.place(head::head(now.clef, now.signature).0, StaffSpace(left), StaffSpace::ZERO);
        } else {
            let (_, (signs, room)) = changed(row, bar.bar);
            drawing.place(signs, StaffSpace(x), StaffSpace::ZERO);
            x += room.0;
        }
        if let Some(time) = own.and_then(|own| own.time) {
            // Time signatures stand under each other, right before the notes, or before the repeat that begins there.
            let repeat = if own.is_some_and(|own| own.signs.repeat_from) { 1.6 } else { 0.0 };
            let left = bar.begins - bar_lines::time_width(time) - 0.1 - repeat;
            bar_lines::time(drawing, time, left.max(x));
        }
        let chords = if now.clefs.is_empty() { Vec::new() } else { bar_chords(now) };
        for (at, clef) in &now.clefs {
            let here = chords.iter().flatten().flatten().filter(|chord| chord.event.at == *at);
            let reach = here.map(Chord::left).fold(0.0, f64::min);
            let before = (clef_before(now, *at), now.signature);
            let sign = head::change(before, Some(*clef), None).0;
            let x = bar.x_of(*at) + reach - clef_room(now, *clef);
            drawing.place(sign, StaffSpace(x), StaffSpace::ZERO);
        }
        // A clef that holds from the next bar on stands before the bar line.
        let ((clef, room), _) = changed(row, bar.bar + bar.rests.max(1));
        drawing.place(clef, StaffSpace(bar.right - room.0), StaffSpace::ZERO);
    }
}

/// The clef that held right before a time of a bar.
fn clef_before(bar: &PrintedBar, at: Quarters) -> Clef {
    let before = bar.clefs.iter().rev().find(|(from, _)| *from < at);
    before.map_or(bar.clef, |(_, clef)| *clef)
}

/// Behind the last bar line what the next system begins with anew: its signature and its time.
fn draw_courtesies(
    sheet: &MusicSheet,
    row: &SheetRow,
    placed: &[PlacedBar],
    ends: SystemEnds,
    drawing: &mut Drawing,
) {
    let Some(next) = placed.last().map(|last| last.bar + last.rests.max(1)) else { return };
    let (_, (signs, _)) = changed(row, next);
    drawing.place(signs, StaffSpace(ends.right), StaffSpace::ZERO);
    if let Some(time) = sheet.bars.get(next).and_then(|own| own.time) {
        bar_lines::time(drawing, time, ends.end - bar_lines::time_width(time) - 0.3);
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
