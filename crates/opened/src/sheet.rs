//! A score on the screen: the rows that are wanted as a sheet, and its systems drawn when they are looked at.

use crate::groups::groups;
use crate::holder::{Opened, decoder};
use crate::protocol::{DrawnRow, RowWanted, SystemRow};
use crookwise_engraving::measured::{
    AboveAll, DrawnSystem, MusicSheet, SheetBar, SheetGroup, SheetRow, SystemSpan,
};
use crookwise_engraving::svg::{self, SvgOptions};
use crookwise_engraving::{Ink, StaffSpace, glyph};
use crookwise_score::harmony::ScoreHarmony;
use crookwise_score::printed::{
    PrintedSign, PrintedStaff, Row, RowPitch, printed, rests_together, skeleton, staff_label,
};
use crookwise_score::score::{Direction, GroupSign, NoteId, PartStaff, Quarters, Score, StaffId};
use crookwise_score::tempo::is_heading;
use crookwise_theory::{Intonation, Pitch};
use std::collections::HashMap;
use std::sync::Arc;

/// A sheet with its systems for a width.
#[derive(Debug)]
pub(crate) struct OpenSheet {
    sheet: MusicSheet,
    spans: Vec<SystemSpan>,
    width: f64,
    gathered: bool,
    /// The staff of each note that is shown.
    staff_of: HashMap<u32, u32>,
    /// The staves of each row.
    staves_of: Vec<Vec<u32>>,
}

/// How a sheet is to be shown; lengths in hundredths of a staff space.
#[derive(Clone, Copy, Debug)]
pub(crate) struct SheetShape {
    pub width: u32,
    /// The least size of letters.
    pub letters: u32,
    /// Whether the shapes of a picture share paths.
    pub gathered: bool,
}

/// The harmonies under the rows of a sheet.
#[derive(Clone, Copy, Debug)]
pub(crate) struct UnderRows<'a> {
    pub harmonies: &'a [ScoreHarmony],
    /// Whether they only have their room.
    pub is_hidden: bool,
}

/// How far, in staff spaces, hundredths go.
pub(crate) const HUNDREDTHS: f64 = 100.0;

impl OpenSheet {
    /// The rows of a score, with room for others that are not shown, and the harmonies on a grand staff under them where they are
    /// given.
    pub fn of(
        opened: &Opened,
        (rows, unseen, under): (&[RowWanted], &[RowWanted], Option<UnderRows<'_>>),
        SheetShape { width, letters, gathered }: SheetShape,
    ) -> Self {
        let score = &opened.import.score;
        let (mut made, staves_of) = sheet_rows(opened, rows);
        let mut groups = groups(score, &staves_of);
        // The staves of one instrument share their bar lines.
        for group in groups.iter().filter(|group| group.sign == GroupSign::Brace) {
            made.iter_mut().take(group.last).skip(group.first).for_each(|row| row.joined = true);
        }
        // Harmonies hold notes of every staff.
        let shown: Vec<u32> = match under {
            Some(_) => score.staves().map(|staff| opened.number_of(staff.id)).collect(),
            None => rows.iter().flat_map(|row| row.staves.iter().copied()).collect(),
        };
        let mut staff_of = HashMap::new();
        for staff in shown {
            let notes = opened.staff_id(staff).and_then(|id| score.staff(id)).map(PartStaff::notes);
            staff_of.extend(notes.unwrap_or_default().iter().map(|(id, _)| (id.number(), staff)));
        }
        let mut hidden = 0;
        if let Some(UnderRows { harmonies, is_hidden }) = under {
            let owner = |note: NoteId| opened.staff_id(*staff_of.get(&note.number())?);
            groups.push(SheetGroup { first: made.len(), last: made.len() + 1, sign: GroupSign::Brace });
            let both = together(score, harmonies, &owner);
            hidden = if is_hidden { both.len() } else { 0 };
            made.extend(both);
        }
        let staves: Vec<Arc<PrintedStaff>> = made.iter().map(|row| Arc::clone(&row.staff)).collect();
        let together = rests_together(score, &staves);
        let letters = StaffSpace(f64::from(letters) / HUNDREDTHS);
        let mut sheet = MusicSheet::of(made, bars(score), together, letters).joined(groups).hiding(hidden);
        if !unseen.is_empty() {
            sheet = sheet.with_room_for(sheet_rows(opened, unseen).0);
        }
        let width = f64::from(width) / HUNDREDTHS;
        let spans = sheet.break_into(width);
        let numbers = |staves: &Vec<StaffId>| staves.iter().map(|id| opened.number_of(*id)).collect();
        let staves_of = staves_of.iter().map(numbers).collect();
        Self { sheet, spans, width, gathered, staff_of, staves_of }
    }

    /// Its systems from one on, each with the bars it holds and where its staves stand; where a height is given, only as many as
    /// fill it: to know how high a system is takes drawing it.
    pub fn systems_from(&self, first: usize, high: Option<u32>) -> Vec<SystemRow> {
        let mut rows = Vec::new();
        let mut filled = 0;
        for span in self.spans.iter().skip(first) {
            if high.is_some_and(|high| filled >= i64::from(high)) {
                break;
            }
            let drawn = self.sheet.draw(*span, self.width);
            let height = hundredths(drawn.frame.height().0);
            filled += i64::from(height);
            let bars = (short(span.first), short(span.end.saturating_sub(1)));
            rows.push(SystemRow { bars, height, staves: self.staves_on(&drawn) });
        }
        rows
    }

    /// Where the staves of a system stand: each with all of its rows.
    fn staves_on(&self, drawn: &DrawnSystem) -> Vec<(u32, i32, i32)> {
        let mut all: Vec<(u32, i32, i32)> = Vec::new();
        let mut upper = 0;
        for (staves, foot) in self.staves_of.iter().zip(&drawn.feet) {
            let lower = hundredths(foot - drawn.frame.top.0);
            for staff in staves {
                match all.iter_mut().find(|(other, ..)| other == staff) {
                    Some((.., to)) => *to = lower,
                    None => all.push((*staff, upper, lower)),
                }
            }
            upper = lower;
        }
        all
    }

    /// One of its systems as a picture, with where its bars and onsets stand in hundredths of a staff space.
    pub fn draw(&self, number: u32) -> Option<DrawnRow> {
        let span = self.spans.get(usize::try_from(number).ok()?)?;
        let drawn = self.sheet.draw(*span, self.width);
        let options = SvgOptions { frame: Some(drawn.frame), ..SvgOptions::default() };
        let pictures = if self.gathered {
            svg::write_gathered(&drawn.drawing, &options)
        } else {
            vec![svg::write(&drawn.drawing, &options)]
        };
        let top = drawn.frame.top.0;
        Some(DrawnRow {
            pictures,
            size: (hundredths(drawn.frame.width().0), hundredths(drawn.frame.height().0)),
            tops: drawn.tops.iter().map(|line| hundredths(line - top)).collect(),
            feet: drawn.feet.iter().map(|foot| hundredths(foot - top)).collect(),
            bars: drawn
                .bars
                .iter()
                .map(|(bar, left, right)| (short(*bar), hundredths(*left), hundredths(*right)))
                .collect(),
            onsets: drawn
                .onsets
                .iter()
                .map(|(bar, quarters, x)| (short(*bar), hundredths(*quarters), hundredths(*x)))
                .collect(),
            heads: drawn
                .heads
                .iter()
                .filter_map(|(note, _, at)| {
                    Some((*self.staff_of.get(note)?, *note, (hundredths(at.x.0), hundredths(at.y.0 - top))))
                })
                .collect(),
        })
    }
}

/// The rows that are wanted as they are engraved, and the staves of each.
pub(crate) fn sheet_rows(opened: &Opened, rows: &[RowWanted]) -> (Vec<SheetRow>, Vec<Vec<StaffId>>) {
    let mut made: Vec<SheetRow> = Vec::new();
    let mut staves_of: Vec<Vec<StaffId>> = Vec::new();
    for wanted in rows {
        match opened.printed.iter().find(|(known, _)| known == wanted) {
            Some((_, known)) => made.extend(known.iter().cloned()),
            None => made.extend(engraved(opened, wanted)),
        }
        staves_of.resize(made.len(), staves(opened, wanted));
    }
    (made, staves_of)
}

fn staves(opened: &Opened, wanted: &RowWanted) -> Vec<StaffId> {
    wanted.staves.iter().filter_map(|staff| opened.staff_id(*staff)).collect()
}

/// A row that is wanted as it is engraved: one, or two where it is shown as written and as it sounds.
pub(crate) fn engraved(opened: &Opened, wanted: &RowWanted) -> Vec<SheetRow> {
    let score = &opened.import.score;
    let staves = staves(opened, wanted);
    let parts: Vec<_> = staves.iter().filter_map(|id| score.staff(*id)).collect();
    let label = staff_label(&parts);
    let print = |pitch| {
        let row = Row { staves: staves.clone(), pitch };
        printed(score, &row, Intonation::default(), &mut decoder)
    };
    let written = wanted.written.then(|| print(RowPitch::Written));
    // What sounds as it is written need not stand there twice.
    let sounding = wanted.sounding.then(|| print(RowPitch::Sounding));
    let mut sounding =
        sounding.filter(|own| written.as_ref().is_none_or(|written| !same_pitches(written, own)));
    if let (Some(sounding), None) = (&mut sounding, &written) {
        take_directions(sounding, print(RowPitch::Written));
    }
    let of = |staff, ink, (label, beneath): (String, &str), has_made, joined| SheetRow {
        staff: Arc::new(staff),
        ink,
        label: (label, beneath.to_owned()),
        made: has_made,
        joined,
    };
    // The label stands once over what belongs together.
    let second = if written.is_some() { String::new() } else { label.clone() };
    let beneath = if sounding.is_some() || !wanted.sounding { "as written" } else { "sounds as written" };
    let joined = sounding.is_some();
    let written = written.map(|staff| of(staff, Ink::Written, (label, beneath), wanted.made, joined));
    let sounding = sounding.map(|staff| of(staff, Ink::Sounding, (second, "as it sounds"), false, false));
    written.into_iter().chain(sounding).collect()
}

/// What stands over and under the written row comes to one that stands alone, but for lines of octaves and crooks, which
/// mean written notes.
fn take_directions(sounding: &mut PrintedStaff, written: PrintedStaff) {
    let is_heard = |(_, sign): &(Quarters, PrintedSign)| match sign {
        PrintedSign::Direction(direction) => !matches!(direction, Direction::Ottava(_)),
        PrintedSign::Crook(_) => false,
    };
    for (bar, of) in sounding.bars.iter_mut().zip(written.bars) {
        bar.signs.extend(of.signs.into_iter().filter(is_heard));
    }
}

/// The two staves of the harmonies.
fn together(
    score: &Score,
    harmonies: &[ScoreHarmony],
    owner: &dyn Fn(NoteId) -> Option<StaffId>,
) -> [SheetRow; 2] {
    let [upper, lower] = skeleton(score, harmonies, owner);
    let row = |staff, label: (&str, &str), joined| SheetRow {
        staff: Arc::new(staff),
        ink: Ink::Sounding,
        label: (label.0.to_owned(), label.1.to_owned()),
        made: false,
        joined,
    };
    [row(upper, ("Together", "the whole page"), true), row(lower, ("", ""), false)]
}

/// Whether two rows have the same notes in their course.
fn same_pitches(one: &PrintedStaff, two: &PrintedStaff) -> bool {
    let pitches = |staff: &PrintedStaff| -> Vec<Pitch> {
        let events = staff.bars.iter().flat_map(|bar| bar.voices.iter().flatten());
        events.flat_map(|event| event.notes.iter().map(|note| note.pitch)).collect()
    };
    pitches(one) == pitches(two)
}

/// All of it lies far within what a 32-bit number holds.
pub(crate) fn hundredths(length: f64) -> i32 {
    (length * HUNDREDTHS).round() as i32
}

pub(crate) fn short(bar: usize) -> u32 {
    u32::try_from(bar).unwrap_or(u32::MAX)
}

/// The signs that systems are drawn with, once for the page.
pub(crate) fn signs() -> String {
    svg::sign_defs(&glyph::measured::ALL)
}

/// What a sheet knows of the bars of a score: letters and words of tempo stand over all.
pub(crate) fn bars(score: &Score) -> Vec<SheetBar> {
    let mut bars: Vec<SheetBar> = score
        .bars()
        .iter()
        .map(|bar| SheetBar {
            number: bar.number.clone(),
            length: bar.length,
            time: bar.time,
            signs: bar.signs.clone(),
            above: Vec::new(),
        })
        .collect();
    for told in score.staves().flat_map(|staff| &staff.directions) {
        let above = match &told.direction {
            Direction::Rehearsal(letter) => AboveAll::Letter(letter.clone()),
            Direction::Words(words) if is_heading(words) => AboveAll::Tempo(words.clone()),
            _ => continue,
        };
        let number = score.bar_at(told.at.time);
        let Some((bar, own)) = bars.get_mut(number).zip(score.bars().get(number)) else { continue };
        // One of a kind: parts of a file may spell the same heading otherwise, and have it a little later.
        let is_kind = |(_, other): &(Quarters, AboveAll)| {
            core::mem::discriminant(other) == core::mem::discriminant(&above)
        };
        if !bar.above.iter().any(is_kind) {
            bar.above.push((told.at.time.minus(own.start).unwrap_or_default(), above));
        }
    }
    bars
}
