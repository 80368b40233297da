//! One row of a system drawn: lines, head, notes, rests, and what belongs to them.

use super::beams::{self, Placed};
use super::chord::{Chord, LEDGER_REACH, STEM, y_of};
use super::columns::{bar_chords, clef_at, last_clef};
use super::curves::{self, OpenSlur, OpenTie};
use super::outside::Outside;
use super::skyline::Skyline;
use super::{Sheet, SheetRow, bar_lines, rests};
use crate::drawing::{Drawing, ElementId, Ink, Shape};
use crate::glyph::measured;
use crate::head;
use crate::units::{Point, StaffSpace};
use crookwise_score::printed::{PrintedBar, PrintedEvent};
use crookwise_score::score::{Quarters, TremoloKind};

/// Thickness of a staff line and of a ledger line (engraving defaults of the font).
const LINE: f64 = 0.13;
const LEDGER: f64 = 0.16;

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
            (Some((_, x)), None) => *x,
            (None, Some((_, x))) => *x,
            (None, None) => self.begins + 0.7,
        }
    }
}

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
    sheet: &Sheet,
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
    let chords: Vec<(&PlacedBar, &PrintedBar, Vec<Vec<Option<Chord<'_>>>>)> = placed
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
        draw_bar(placed, bar, voices, own.ink, &mut drawing);
    }
    skyline.take(&drawing, of_notes);
    let of_curves = drawing.items.len();
    draw_curves(&chords, own.ink, (left, right), &skyline, &mut drawing);
    skyline.take(&drawing, of_curves);
    let mut outside = Outside { drawing: &mut drawing, skyline: &mut skyline, ink: own.ink };
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
fn draw_heads(sheet: &Sheet, row: &SheetRow, placed: &[PlacedBar], left: f64, drawing: &mut Drawing) {
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

fn draw_bar(
    placed: &PlacedBar,
    bar: &PrintedBar,
    voices: &[Vec<Option<Chord<'_>>>],
    ink: Ink,
    drawing: &mut Drawing,
) {
    let two = bar.voices.len() > 1;
    for (number, (voice, chords)) in bar.voices.iter().zip(voices).enumerate() {
        for event in voice.iter().filter(|event| event.is_rest()) {
            draw_rest(placed, event, two.then_some(number), ink, drawing);
        }
        let mut group: Vec<Placed<'_, '_>> = Vec::new();
        let mut pending: Option<(&Chord<'_>, f64, u8)> = None;
        for chord in chords.iter().flatten() {
            let x = placed.x_of(chord.event.at) + chord.shift;
            draw_heads_of(chord, x, ink, drawing);
            draw_graces(chord, x, ink, drawing);
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
                    pending = Some((chord, x, tremolo.strokes))
                }
                Some(tremolo) if tremolo.kind == TremoloKind::Ends => {
                    if let Some((first, from, strokes)) = pending.take() {
                        draw_between((first, from), (chord, x), strokes, ink, drawing);
                    }
                    let _ = tremolo;
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

fn draw_rest(
    placed: &PlacedBar,
    event: &PrintedEvent,
    voice: Option<usize>,
    ink: Ink,
    drawing: &mut Drawing,
) {
    let sign = rests::sign(event);
    let place = rests::place(event, voice);
    let x = if event.whole_bar {
        (placed.begins + placed.right) / 2.0 - sign.bounds().width().0 / 2.0
    } else {
        placed.x_of(event.at)
    };
    let at = Point::new(x, y_of(place));
    drawing.push(Shape::Sign { sign, at, scale: if event.cue { 0.75 } else { 1.0 } }, ink, None);
    for dot in 0..event.dots {
        let at = Point::new(x + sign.bounds().right.0 + 0.3 + 0.5 * f64::from(dot), y_of(place) - 0.5);
        drawing.push(Shape::Sign { sign: &measured::AUGMENTATION_DOT, at, scale: 1.0 }, ink, None);
    }
    // A whole or half rest outside the staff has a line of its own.
    if !(0..=8).contains(&place)
        && event.value.is_some_and(|value| value >= crookwise_score::score::NoteValue::Half)
    {
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

/// Ties and slurs of the whole row.
fn draw_curves(
    bars: &[(&PlacedBar, &PrintedBar, Vec<Vec<Option<Chord<'_>>>>)],
    ink: Ink,
    (left, right): (f64, f64),
    skyline: &Skyline,
    drawing: &mut Drawing,
) {
    let mut ties: Vec<OpenTie> = Vec::new();
    let mut slurs: Vec<OpenSlur> = Vec::new();
    let first = bars.first().map_or(left, |(placed, ..)| placed.begins);
    for (placed, _, voices) in bars {
        let two = voices.len() > 1;
        for (voice, chords) in voices.iter().enumerate() {
            for chord in chords.iter().flatten() {
                let x = placed.x_of(chord.event.at) + chord.shift;
                for head in &chord.heads {
                    let above = if two {
                        voice % 2 == 0
                    } else if chord.heads.len() > 1 {
                        head.place > (chord.lowest() + chord.highest()) / 2
                    } else {
                        !chord.up
                    };
                    let (out, into) = curves::tie_tips(chord, x, head.place, head.x, above);
                    if head.note.tied {
                        // Two players in unison go on as one note: the tie nearest in voice is drawn, the other is the same.
                        let of_pitch = |tie: &OpenTie| tie.pitch == head.note.pitch;
                        let open = ties
                            .iter()
                            .position(|tie| of_pitch(tie) && tie.voice == voice)
                            .or_else(|| ties.iter().position(of_pitch));
                        let found = open.map(|at| ties.remove(at));
                        if !two {
                            ties.retain(|tie| !of_pitch(tie));
                        }
                        let shape = match found {
                            Some(tie) => curves::tie(tie.from, Point { x: into.x, y: tie.from.y }, tie.above),
                            None => curves::into(into, first - 0.2, above),
                        };
                        drawing.push(shape, ink, None);
                    }
                    if head.note.tied_on {
                        ties.push(OpenTie {
                            voice,
                            pitch: head.note.pitch,
                            from: out,
                            above,
                            bar: placed.bar,
                        });
                    }
                }
                for _ in 0..chord.event.slurs_end.min(4) {
                    let open = slurs
                        .iter()
                        .rposition(|slur| slur.voice == voice)
                        .or_else(|| slurs.len().checked_sub(1));
                    match open.map(|at| slurs.remove(at)) {
                        Some(slur) => {
                            let to = curves::slur_tip(chord, x, slur.above);
                            drawing.push(curves::slur(slur.from, to, slur.above, skyline), ink, None);
                        }
                        None => {
                            let above = if two { voice % 2 == 0 } else { !chord.up };
                            drawing.push(
                                curves::into(curves::slur_tip(chord, x, above), first - 0.2, above),
                                ink,
                                None,
                            );
                        }
                    }
                }
                for _ in 0..chord.event.slurs_begin.min(4) {
                    let above = if two { voice % 2 == 0 } else { !chord.up };
                    slurs.push(OpenSlur { voice, from: curves::slur_tip(chord, x, above), above });
                }
            }
        }
    }
    // What is left open within the system is a slip of the file, not a tie to the next.
    let last = bars.last().map(|(placed, ..)| placed.bar);
    for tie in ties.into_iter().filter(|tie| Some(tie.bar) == last) {
        drawing.push(curves::out_of(tie.from, right - 0.3, tie.above), ink, None);
    }
    for slur in slurs {
        drawing.push(curves::out_of(slur.from, right - 0.3, slur.above), ink, None);
    }
}
