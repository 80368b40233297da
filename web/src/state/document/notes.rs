//! Actions on the notes.

use super::{Document, PLAYER, STAFF};
use crookwise_score::{Event, PassageError};
use crookwise_theory::{Interval, Pitch, Printed, StaffPosition, Step};
use std::sync::Arc;

/// Alterations that can be entered, in semitones either way.
const FARTHEST_ALTERATION: i32 = 3;
/// Octaves in which notes can be entered: beyond them no instrument reaches.
const OCTAVES: core::ops::RangeInclusive<i32> = 0..=8;

impl Document {
    /// Selects a column, or nothing. No step: there is nothing to undo.
    pub fn select(&mut self, column: Option<usize>) {
        let column = column.filter(|&at| at < self.page.passage.columns().len());
        if self.page.selected != column {
            Arc::make_mut(&mut self.page).selected = column;
            self.typing = false;
        }
    }

    /// Selects the column so many places on, kept within the passage.
    pub fn select_by(&mut self, places: isize) {
        let last = self.page.passage.columns().len().checked_sub(1);
        let here = self.page.selected.or(last);
        if let (Some(here), Some(last)) = (here, last) {
            self.select(Some(here.saturating_add_signed(places).min(last)));
        }
    }

    /// Puts a note into a column, or behind the last one, and selects it.
    ///
    /// # Errors
    /// Where there is no such place or there are too many columns.
    pub fn place(&mut self, column: usize, note: Printed) -> Result<(), PassageError> {
        self.step(|page| {
            page.passage.set(STAFF, column, PLAYER, Event::Note(within_reach(note)))?;
            page.selected = Some(column);
            Ok(())
        })
    }

    /// Enters an event behind the selected column, or at the end, and selects it.
    fn enter(&mut self, event: Event) -> Result<(), PassageError> {
        self.step(|page| {
            let end = page.passage.columns().len();
            let at = page.selected.map_or(end, |selected| (selected + 1).min(end));
            page.passage.insert_column(at)?;
            page.passage.set(STAFF, at, PLAYER, event)?;
            page.selected = Some(at);
            Ok(())
        })
    }

    /// Enters a note behind the selected one.
    ///
    /// # Errors
    /// Where there are too many columns.
    pub fn enter_note(&mut self, note: Printed) -> Result<(), PassageError> {
        self.enter(Event::Note(within_reach(note)))
    }

    /// Enters the letter nearest to the note before, altered as the signature has it.
    ///
    /// # Errors
    /// Where there are too many columns.
    pub fn enter_letter(&mut self, step: Step) -> Result<(), PassageError> {
        let (clef, signature) = self.staff_clef_and_signature();
        let near = self
            .page
            .selected
            .and_then(|at| self.page.passage.sounding_note(STAFF, at, PLAYER))
            .map_or_else(|| clef.pitch_at(StaffPosition(4)), |(_, printed)| printed.0);
        let up = (step.index() - near.step.index()).rem_euclid(7);
        let letters = if up > 3 { up - 7 } else { up };
        let natural = Pitch::from_diatonic(near.diatonic() + letters, 0);
        self.enter_note(Printed(Pitch { alter: signature.alteration(step), ..natural }))
    }

    /// Holds the selected note for one column more.
    ///
    /// # Errors
    /// Where nothing sounds or there are too many columns.
    pub fn hold(&mut self) -> Result<(), PassageError> {
        self.enter(Event::Held)
    }

    /// Enters a rest behind the selected column.
    ///
    /// # Errors
    /// Where there are too many columns.
    pub fn rest(&mut self) -> Result<(), PassageError> {
        self.enter(Event::Rest)
    }

    /// Takes the selected column out and selects the one before.
    pub fn remove(&mut self) {
        self.step(|page| {
            let selected = page.selected.ok_or(PassageError::Nowhere)?;
            page.passage.remove_column(selected)?;
            let left = page.passage.columns().len();
            page.selected = (left > 0).then(|| selected.saturating_sub(1).min(left.saturating_sub(1)));
            Ok(())
        })
        .unwrap_or_default();
    }

    /// Takes all columns out.
    pub fn clear(&mut self) {
        self.step(|page| {
            while !page.passage.columns().is_empty() {
                page.passage.remove_column(0)?;
            }
            page.selected = None;
            Ok(())
        })
        .unwrap_or_default();
    }

    /// Changes the note of the selected column, or the one that is held there.
    fn change_note(&mut self, change: impl FnOnce(Pitch) -> Pitch) {
        self.step(|page| {
            let selected = page.selected.ok_or(PassageError::Nowhere)?;
            let (onset, printed) =
                page.passage.sounding_note(STAFF, selected, PLAYER).ok_or(PassageError::Nowhere)?;
            page.passage.set(STAFF, onset, PLAYER, Event::Note(within_reach(Printed(change(printed.0)))))
        })
        .unwrap_or_default();
    }

    /// Moves the selected note by letters, altered as the signature has it there.
    pub fn move_by(&mut self, letters: i32) {
        let (_, signature) = self.staff_clef_and_signature();
        self.change_note(|pitch| {
            let natural = Pitch::from_diatonic(pitch.diatonic() + letters, 0);
            Pitch { alter: signature.alteration(natural.step), ..natural }
        });
    }

    /// Moves the selected note by octaves, its alteration kept.
    pub fn move_octaves(&mut self, octaves: i32) {
        self.change_note(|pitch| pitch + Interval::octaves(octaves));
    }

    /// Gives the selected note an accidental: semitones from the natural letter.
    pub fn set_alteration(&mut self, alter: i32) {
        self.change_note(|pitch| Pitch { alter, ..pitch });
    }

    /// Raises or lowers the selected note by semitones on its letter.
    pub fn alter_by(&mut self, semitones: i32) {
        self.change_note(|pitch| Pitch { alter: pitch.alter + semitones, ..pitch });
    }
}

/// The note, brought back into the octaves and alterations that can be entered.
fn within_reach(note: Printed) -> Printed {
    let pitch = note.0;
    Printed(Pitch {
        alter: pitch.alter.clamp(-FARTHEST_ALTERATION, FARTHEST_ALTERATION),
        octave: pitch.octave.clamp(*OCTAVES.start(), *OCTAVES.end()),
        ..pitch
    })
}
