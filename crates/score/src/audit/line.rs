//! One crook of a staff, and the change to the next.

use super::HIGH;
use crate::place::Place;
use crate::score::{NoteId, Quarters, Score, ScoreNote};
use crookwise_theory::order::in_order;
use crookwise_theory::{Making, Pitch, Production, Reading, Tonic, Transposition, Written};
use std::collections::HashMap;

/// All that a staff plays on one crook before it changes.
#[derive(Clone, Debug, PartialEq)]
pub struct AuditLine {
    /// The crook in words: "Horn in E-flat".
    pub crook: String,
    /// From written to sounding.
    pub transposition: Transposition,
    /// The bars of its first and its last note, counted from 0.
    pub bars: (usize, usize),
    /// Open notes by their partial, rising.
    pub open: Vec<(u8, Vec<NoteId>)>,
    /// Notes on the series that hand or lip correct, by partial, rising.
    pub corrected: Vec<(u8, Vec<NoteId>)>,
    /// Notes off the series that the hand or the lip makes, by their letter above the crook's C, and how.
    pub made: Vec<(Tonic, Production, Vec<NoteId>)>,
    /// Notes out of reach.
    pub out_of_reach: Vec<NoteId>,
    /// What is written for each of those off the series and out of reach, in their course.
    pub written: Vec<(NoteId, Written)>,
    /// The lowest note written, and where.
    pub lowest: Option<(Written, NoteId)>,
    /// The highest note written, and where.
    pub highest: Option<(Written, NoteId)>,
    /// The longest stretch above partial [`HIGH`].
    pub longest_high: Option<Stretch>,
}

/// Notes in a row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// The first of them.
    pub from: NoteId,
    /// Its bar, counted from 0.
    pub bar: usize,
    /// How long they last, in quarter notes.
    pub length: Quarters,
    /// How many are struck.
    pub attacks: usize,
}

/// A change of crook.
#[derive(Clone, Debug, PartialEq)]
pub struct CrookChange {
    /// The crook before.
    pub from: String,
    /// The crook after.
    pub to: String,
    /// The last note before it.
    pub last: NoteId,
    /// The first note after it.
    pub first: NoteId,
    /// The bar of that note, counted from 0.
    pub bar: usize,
    /// The rest between them, in quarter notes.
    pub rest: Quarters,
}

impl AuditLine {
    /// Notes that are struck.
    #[must_use]
    pub fn attacks(&self) -> usize {
        self.notes().count()
    }

    /// Of these, those on the series.
    #[must_use]
    pub fn on_series(&self) -> usize {
        self.open.iter().chain(&self.corrected).map(|(_, notes)| notes.len()).sum()
    }

    /// Notes off the series or out of reach by what is written, from the lowest up.
    #[must_use]
    pub fn by_written(&self, notes: &[NoteId]) -> Vec<(Written, Vec<NoteId>)> {
        let written: HashMap<NoteId, Written> = self.written.iter().copied().collect();
        let mut all: Vec<(Written, Vec<NoteId>)> = Vec::new();
        for id in notes {
            let Some(own) = written.get(id) else { continue };
            match all.iter_mut().find(|(other, _)| other == own) {
                Some((_, ids)) => ids.push(*id),
                None => all.push((*own, vec![*id])),
            }
        }
        in_order(all, |(written, _)| written.0.semitones())
    }

    /// Every note that is struck, kind by kind.
    pub fn notes(&self) -> impl Iterator<Item = NoteId> {
        let on = self.open.iter().chain(&self.corrected).flat_map(|(_, notes)| notes);
        let off = self.made.iter().flat_map(|(.., notes)| notes).chain(&self.out_of_reach);
        on.chain(off).copied()
    }
}

/// Gathers the notes of a staff in their order.
pub(super) struct Gathering<'a> {
    score: &'a Score,
    lines: Vec<AuditLine>,
    changes: Vec<CrookChange>,
    /// The note before: its number, when it ended.
    last: Option<(NoteId, Quarters)>,
    /// The stretch above the high partial that goes on.
    high: Option<(Stretch, Quarters)>,
}

impl<'a> Gathering<'a> {
    pub fn new(score: &'a Score) -> Self {
        Self { score, lines: Vec::new(), changes: Vec::new(), last: None, high: None }
    }

    /// The next note, grace and tied ones too.
    pub fn note(
        &mut self,
        (id, note): (NoteId, &ScoreNote),
        place: &Place,
        reading: &Reading,
        making: &Making,
    ) {
        let bar = usize::try_from(note.bar).unwrap_or_else(|_| self.score.bar_at(note.start.time));
        let transposition = place.staff.transposition;
        if self.lines.last().is_none_or(|line| line.transposition != transposition) {
            self.begin((id, note, bar), place);
        }
        self.high_or_not((id, note, bar), making);
        self.last = Some((id, note.end.time));
        if !note.is_struck() {
            return;
        }
        let Some(line) = self.lines.last_mut() else { return };
        line.bars.1 = bar;
        let written = reading.written;
        let is_beyond = |other: Option<(Written, NoteId)>, sign: i32| {
            other.is_none_or(|(other, _)| (written.0.semitones() - other.0.semitones()) * sign > 0)
        };
        if is_beyond(line.lowest, -1) {
            line.lowest = Some((written, id));
        }
        if is_beyond(line.highest, 1) {
            line.highest = Some((written, id));
        }
        if making.partial.is_none() {
            line.written.push((id, written));
        }
        match (making.partial, making.production) {
            (Some(partial), Production::Open) => put(&mut line.open, partial.number(), id),
            (Some(partial), _) => put(&mut line.corrected, partial.number(), id),
            (None, Production::Unavailable) => line.out_of_reach.push(id),
            (None, production) => {
                let letter = written.0.tonic();
                let same =
                    |row: &&mut (Tonic, Production, Vec<NoteId>)| row.0 == letter && row.1 == production;
                match line.made.iter_mut().find(same) {
                    Some(row) => row.2.push(id),
                    None => line.made.push((letter, production, vec![id])),
                }
            }
        }
    }

    fn begin(&mut self, (id, note, bar): (NoteId, &ScoreNote, usize), place: &Place) {
        self.close_high();
        let crook = place.staff.name();
        if let Some((line, (last, ended))) = self.lines.last().zip(self.last) {
            let rest = note.start.time.minus(ended).unwrap_or(Quarters::ZERO);
            let (from, to) = (line.crook.clone(), crook.clone());
            self.changes.push(CrookChange { from, to, last, first: id, bar, rest });
        }
        self.lines.push(AuditLine {
            crook,
            transposition: place.staff.transposition,
            bars: (bar, bar),
            open: Vec::new(),
            corrected: Vec::new(),
            made: Vec::new(),
            out_of_reach: Vec::new(),
            written: Vec::new(),
            lowest: None,
            highest: None,
            longest_high: None,
        });
    }

    /// A stretch goes on while notes above the partial follow each other without a rest.
    fn high_or_not(&mut self, (id, note, bar): (NoteId, &ScoreNote, usize), making: &Making) {
        let is_high = making.partial.or(making.from).is_some_and(|partial| partial.number() > HIGH);
        let goes_on = self.high.as_ref().is_some_and(|(_, ended)| *ended >= note.start.time);
        if !is_high || !goes_on {
            self.close_high();
        }
        if is_high {
            let start = note.start.time;
            let (mut stretch, _) = self
                .high
                .take()
                .unwrap_or((Stretch { from: id, bar, length: Quarters::ZERO, attacks: 0 }, start));
            let length = note.end.time.minus(start).unwrap_or(Quarters::ZERO);
            stretch.length = stretch.length.plus(length).unwrap_or(stretch.length);
            stretch.attacks += usize::from(note.is_struck());
            self.high = Some((stretch, note.end.time));
        }
    }

    fn close_high(&mut self) {
        if let Some(((stretch, _), line)) = self.high.take().zip(self.lines.last_mut())
            && line.longest_high.is_none_or(|longest| longest.length < stretch.length)
        {
            line.longest_high = Some(stretch);
        }
    }

    pub fn done(mut self) -> (Vec<AuditLine>, Vec<CrookChange>) {
        self.close_high();
        for line in &mut self.lines {
            line.open = in_order(core::mem::take(&mut line.open), |(partial, _)| *partial);
            line.corrected = in_order(core::mem::take(&mut line.corrected), |(partial, _)| *partial);
            line.made = in_order(core::mem::take(&mut line.made), |(letter, ..)| {
                Pitch::new(letter.step, letter.alter, 4).semitones()
            });
        }
        (self.lines, self.changes)
    }
}

fn put(list: &mut Vec<(u8, Vec<NoteId>)>, partial: u8, id: NoteId) {
    match list.iter_mut().find(|(other, _)| *other == partial) {
        Some((_, notes)) => notes.push(id),
        None => list.push((partial, vec![id])),
    }
}
