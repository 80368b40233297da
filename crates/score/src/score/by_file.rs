//! The notes of a part as its file has them: every pitched note in the order in which they are written, with what it
//! sounds by the file's own transposition. What the label means, and what a reader corrected, plays no part here.

use super::{NoteId, Part, ScoreNote, StaffId};
use crookwise_theory::order::put_in_order;
use crookwise_theory::{Sounding, Transposition, Written};

/// A pitched note as its file has it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NoteByFile<'a> {
    /// The staff it stands on.
    pub staff: StaffId,
    /// Its number.
    pub id: NoteId,
    /// The note.
    pub note: &'a ScoreNote,
    /// Its pitch as written in the file.
    pub written: Written,
    /// What it sounds by the file's own transposition.
    pub sounding: Sounding,
}

impl Part {
    /// Its pitched notes in the order of the file; grace and cue notes and all notes of a stem are among them.
    #[must_use]
    pub fn by_file(&self) -> Vec<NoteByFile<'_>> {
        let mut all: Vec<NoteByFile<'_>> = Vec::new();
        for staff in &self.staves {
            for (id, note) in staff.notes() {
                let Some(printed) = note.printed.filter(|_| !note.look.unpitched) else { continue };
                let written = Written(printed.0);
                let told = staff.told_at(note.start).map_or(Transposition::NONE, |told| told.transposition);
                all.push(NoteByFile {
                    staff: staff.id,
                    id: *id,
                    note,
                    written,
                    sounding: told.to_sounding(written),
                });
            }
        }
        // Numbers are given in the order of the file.
        put_in_order(&mut all, |note| note.id);
        all
    }
}
