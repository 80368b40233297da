//! A bar before it has its width: what begins when, and how much room each needs.

use super::chord::Chord;
use super::voices::chords;
use super::{SheetBar, SheetRow, bar_lines, outside, rests};
use crate::drawing::Drawing;
use crate::head;
use crate::units::StaffSpace;
use crookwise_score::printed::{PrintedBar, PrintedEvent};
use crookwise_score::score::Quarters;
use crookwise_theory::Clef;
use crookwise_theory::order::put_in_order;

/// The room a quarter note takes by itself.
const QUARTER: f64 = 3.3;
/// The least room from one onset to the next.
const LEAST: f64 = 1.75;
/// Between what stands in one column and what stands in the next.
const GAP: f64 = 0.35;
/// Between a bar line and the first column.
pub(super) const AFTER_LINE: f64 = 0.7;

/// What begins at one time.
#[derive(Clone, Copy, Debug)]
pub(super) struct Column {
    pub at: Quarters,
    /// How far it reaches to the left, at most 0, and to the right.
    pub reach: (f64, f64),
    /// What it would take to the next column, or to the end of the bar, by its time.
    pub ideal: f64,
    /// The least it must take to the next column.
    pub least: f64,
}

/// A bar with its columns.
#[derive(Clone, Debug)]
pub(super) struct BarColumns {
    /// What stands before its first column where it does not begin a system: changes of clef, signature and time.
    pub lead: f64,
    /// The same where it begins one: only the time signature.
    pub lead_at_head: f64,
    /// What stands at its end: a clef that holds from the next bar on.
    pub tail: f64,
    pub columns: Vec<Column>,
    /// Bars that print as one rest, where they do.
    pub rests: usize,
}

/// The clef that holds for an event of a bar.
pub(super) fn clef_at(bar: &PrintedBar, at: Quarters) -> Clef {
    bar.clefs.iter().rev().find(|(from, _)| *from <= at).map_or(bar.clef, |(_, clef)| *clef)
}

/// The chords of a bar.
pub(super) fn bar_chords(bar: &PrintedBar) -> Vec<Vec<Option<Chord<'_>>>> {
    chords(&bar.voices, |event: &PrintedEvent| clef_at(bar, event.at))
}

impl BarColumns {
    pub fn of(rows: &[SheetRow], bars: &[SheetBar], together: &[usize], number: usize, letters: f64) -> Self {
        let rests = together.get(number).copied().unwrap_or(1);
        let (lead, lead_at_head) = leads(rows, bars, number);
        let tail = tail(rows, number + rests.max(1));
        if rests > 1 {
            return Self { lead, lead_at_head, tail, columns: Vec::new(), rests };
        }
        let printed = rows.iter().filter_map(|row| Some((row.staff.bars.get(number)?, row.made)));
        let length = bars.get(number).map_or(Quarters::ZERO, |bar| bar.length);
        let mut columns = Vec::new();
        for (bar, made) in printed {
            let chords = bar_chords(bar);
            for (voice, chords) in bar.voices.iter().zip(&chords) {
                for (event, chord) in voice.iter().zip(chords) {
                    if event.whole_bar && event.is_rest() {
                        continue;
                    }
                    let mut reach = match chord {
                        Some(chord) => {
                            let said = if made { outside::half_width(chord, letters) } else { 0.0 };
                            let middle = chord.shift + chord.head_width() / 2.0;
                            (chord.left().min(middle - said), chord.right().max(middle + said))
                        }
                        None => (0.0, rests::sign(event).bounds().width().0 + 0.4 * f64::from(event.dots)),
                    };
                    // A clef within the bar stands before its column.
                    if let Some((_, clef)) = bar.clefs.iter().find(|(at, _)| *at == event.at) {
                        reach.0 -= clef_room(bar, *clef);
                    }
                    add(&mut columns, event.at, reach);
                }
            }
        }
        put_in_order(&mut columns, |column: &Column| column.at);
        let ends: Vec<Quarters> = columns.iter().skip(1).map(|column| column.at).chain([length]).collect();
        let nexts: Vec<f64> = columns.iter().skip(1).map(|column| column.reach.0).chain([-0.3]).collect();
        for ((column, end), next) in columns.iter_mut().zip(ends).zip(nexts) {
            let quarters = end.minus(column.at).map_or(0.0, Quarters::decimal).max(0.0);
            // A square root is exact on every machine: twice the time takes some two fifths more room.
            column.ideal = (QUARTER * quarters.sqrt()).max(LEAST);
            column.least = column.reach.1 - next + GAP;
        }
        Self { lead, lead_at_head, tail, columns, rests }
    }

    /// What the bar takes when its times take so many times what they would by themselves.
    pub fn width(&self, at_head: bool, by: f64) -> f64 {
        let lead = self.tail + if at_head { self.lead_at_head } else { self.lead };
        if self.rests > 1 {
            return lead + 7.5 * by.clamp(0.7, 1.6) + 1.0;
        }
        if self.columns.is_empty() {
            return lead + 4.2 * by.clamp(0.6, 2.0);
        }
        let first = -self.columns.first().map_or(0.0, |column| column.reach.0);
        lead + AFTER_LINE + first + self.columns.iter().map(|column| column.room(by)).sum::<f64>()
    }

    /// Where its columns stand from its left bar line.
    pub fn places(&self, at_head: bool, by: f64) -> Vec<(Quarters, f64)> {
        let lead = if at_head { self.lead_at_head } else { self.lead };
        let mut x = lead + AFTER_LINE - self.columns.first().map_or(0.0, |column| column.reach.0);
        let mut places = Vec::with_capacity(self.columns.len());
        for column in &self.columns {
            places.push((column.at, x));
            x += column.room(by);
        }
        places
    }
}

impl Column {
    fn room(&self, by: f64) -> f64 {
        (self.ideal * by).max(self.least)
    }
}

fn add(columns: &mut Vec<Column>, at: Quarters, reach: (f64, f64)) {
    match columns.iter_mut().find(|column| column.at == at) {
        Some(column) => {
            column.reach = (column.reach.0.min(reach.0), column.reach.1.max(reach.1));
        }
        None => columns.push(Column { at, reach, ideal: LEAST, least: 0.0 }),
    }
}

/// The room of a clef within a bar, before its column.
pub(super) fn clef_room(bar: &PrintedBar, clef: Clef) -> f64 {
    // The old one is of no matter, so long as it is another.
    let other = if clef == Clef::BASS { Clef::TREBLE } else { Clef::BASS };
    head::change((other, bar.signature), Some(clef), None).1.0
}

/// How much room changes before a bar take, within a system and where it begins one.
fn leads(rows: &[SheetRow], bars: &[SheetBar], number: usize) -> (f64, f64) {
    let Some(own) = bars.get(number) else { return (0.0, 0.0) };
    let time = own.time.map_or(0.0, |time| bar_lines::time_width(time) + 0.9);
    let repeat = if own.signs.repeat_from { 1.3 } else { 0.0 };
    let changes = rows.iter().map(|row| changed(row, number).1.1.0);
    (changes.fold(0.0, f64::max) + time + repeat, time + repeat)
}

/// The room of clefs that hold from a bar on, at the end of the one before.
fn tail(rows: &[SheetRow], next: usize) -> f64 {
    rows.iter().map(|row| changed(row, next).0.1.0).fold(0.0, f64::max)
}

/// Signs with the room they take.
pub(super) type Signs = (Drawing, StaffSpace);

/// What changes in a row with a bar: its clef, which stands before the bar line, and its signature, which stands behind.
pub(super) fn changed(row: &SheetRow, number: usize) -> (Signs, Signs) {
    let (Some(now), Some(before)) =
        (row.staff.bars.get(number), number.checked_sub(1).and_then(|at| row.staff.bars.get(at)))
    else {
        return Default::default();
    };
    let signature = (now.signature != before.signature).then_some(now.signature);
    let old = last_clef(before);
    let clef = (now.clef != old).then_some(now.clef);
    (
        head::change((old, before.signature), clef, None),
        head::change((now.clef, before.signature), None, signature),
    )
}

/// The clef that holds at the end of a bar.
pub(super) fn last_clef(bar: &PrintedBar) -> Clef {
    bar.clefs.last().map_or(bar.clef, |(_, clef)| *clef)
}
