//! Actions on the notes.

use super::Document;
use crookwise_score::{Event, PassageError};
use crookwise_share::ReadPage;
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

    /// Puts a note into a column of a staff, or behind the last one, and selects it.
    ///
    /// # Errors
    /// Where there is no such place or there are too many columns.
    pub fn place(&mut self, staff: usize, column: usize, note: Printed) -> Result<(), PassageError> {
        self.step(|page| {
            turn_to(page, staff);
            page.passage.set(staff, column, page.player, Event::Note(within_reach(note)))?;
            page.selected = Some(column);
            Ok(())
        })
    }

    /// Enters an event behind the selected column and selects it. Where one player has the page to himself, what
    /// follows moves on; in a page of several it is written over, since columns are shared.
    fn enter(&mut self, event: Event) -> Result<(), PassageError> {
        self.step(|page| {
            let end = page.passage.columns().len();
            let at = if is_alone(page) {
                let at = page.selected.map_or(end, |selected| (selected + 1).min(end));
                page.passage.insert_column(at)?;
                if event != Event::Held {
                    // A note that was held over this place ends before it; what is entered is no longer for that.
                    page.passage.set(page.staff, at, page.player, Event::Rest)?;
                }
                at
            } else {
                page.selected.map_or(0, |selected| (selected + 1).min(end))
            };
            page.passage.set(page.staff, at, page.player, event)?;
            page.selected = Some(at);
            Ok(())
        })
    }

    /// The column by whose clef and crook a note is read that is entered now. A column that is opened belongs to the one
    /// before it: what changes behind stays with what follows.
    fn entered_at(&self) -> usize {
        let last = self.page.passage.columns().len().saturating_sub(1);
        let behind = if is_alone(&self.page) { 0 } else { 1 };
        self.page.selected.map_or(if behind == 0 { last } else { 0 }, |at| (at + behind).min(last))
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
        let (clef, signature) = self.head_at(self.entered_at());
        let near = self
            .page
            .selected
            .and_then(|at| self.page.passage.sounding_note(self.page.staff, at, self.page.player))
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

    /// Takes the selected note out and selects the one before. Where one player has the page to himself its column
    /// goes with it; in a page of several the player rests there.
    pub fn remove(&mut self) {
        self.step(|page| {
            let selected = page.selected.ok_or(PassageError::Nowhere)?;
            if is_alone(page) {
                page.passage.remove_column(selected)?;
            } else {
                page.passage.set(page.staff, selected, page.player, Event::Rest)?;
                drop_empty_end(page);
            }
            let last = page.passage.columns().len().checked_sub(1);
            page.selected = last.map(|last| selected.saturating_sub(1).min(last));
            Ok(())
        })
        .unwrap_or_default();
    }

    /// Takes out all notes of the selected staff.
    pub fn clear(&mut self) {
        self.step(|page| {
            let players = page.passage.staves().get(page.staff).map_or(1, crookwise_score::Staff::players);
            for column in 0..page.passage.columns().len() {
                for player in 0..players {
                    page.passage.set(page.staff, column, player, Event::Rest)?;
                }
            }
            drop_empty_end(page);
            page.selected = None;
            Ok(())
        })
        .unwrap_or_default();
    }

    /// One note for all players of the staff ("a 2"), where there are several.
    ///
    /// # Errors
    /// Where no note is selected.
    pub fn play_together(&mut self) -> Result<(), PassageError> {
        self.step(|page| {
            let selected = page.selected.ok_or(PassageError::Nowhere)?;
            let note = page.passage.sounding_note(page.staff, selected, page.player);
            let (_, printed) = note.ok_or(PassageError::Nowhere)?;
            page.passage.set_together(page.staff, selected, printed)
        })
    }

    /// Changes the note of the selected column, or the one that is held there.
    fn change_note(&mut self, change: impl FnOnce(Pitch) -> Pitch) {
        self.step(|page| {
            let selected = page.selected.ok_or(PassageError::Nowhere)?;
            let (onset, printed) =
                page.passage.sounding_note(page.staff, selected, page.player).ok_or(PassageError::Nowhere)?;
            let changed = Event::Note(within_reach(Printed(change(printed.0))));
            page.passage.set(page.staff, onset, page.player, changed)
        })
        .unwrap_or_default();
    }

    /// Moves the selected note by letters, altered as the signature has it there.
    pub fn move_by(&mut self, letters: i32) {
        let onset = self
            .page
            .selected
            .and_then(|at| self.page.passage.sounding_note(self.page.staff, at, self.page.player));
        let (_, signature) = self.head_at(onset.map_or(0, |(onset, _)| onset));
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

/// Whether one player has the page to himself.
fn is_alone(page: &ReadPage) -> bool {
    page.passage.staves().len() == 1 && page.passage.staves().iter().all(|staff| staff.players() == 1)
}

/// Selects a staff; another staff begins with its first player.
pub(super) fn turn_to(page: &mut ReadPage, staff: usize) {
    if page.staff != staff {
        page.staff = staff;
        page.player = 0;
    }
}

/// Takes out the columns at the end in which everybody rests.
fn drop_empty_end(page: &mut ReadPage) {
    while let Some(last) = page.passage.columns().len().checked_sub(1) {
        let silent = page.passage.staves().iter().all(|staff| {
            (0..staff.players())
                .all(|player| staff.cells().get(last).is_none_or(|cell| cell.of(player) == Event::Rest))
        });
        if !silent || page.passage.remove_column(last).is_err() {
            break;
        }
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
