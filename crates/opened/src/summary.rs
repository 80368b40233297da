//! What is in a score, as the page lists it: its parts, their staves, what changes on them and what is odd. Bars and staves are
//! counted from 0.

use serde::{Deserialize, Serialize};

/// What is in a score.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Summary {
    /// A name that follows from the bytes of its file.
    pub id: String,
    /// Its title; empty where it has none.
    pub title: String,
    /// Who wrote it; empty where that is not said.
    pub composer: String,
    /// The numbers of its bars as printed.
    pub bars: Vec<String>,
    /// Rehearsal letters and numbers, with the bar that each stands over.
    pub letters: Vec<(String, u32)>,
    /// Its parts in score order.
    pub parts: Vec<PartRow>,
    /// Staves that print joins on one, the upper first.
    pub pairs: Vec<(u32, u32)>,
    /// What is odd in the whole file.
    pub remarks: Vec<String>,
}

/// A part.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct PartRow {
    /// Its name in the file.
    pub name: String,
    /// How many notes it has.
    pub notes: u32,
    /// Its staves.
    pub staves: Vec<StaffRow>,
    /// What is odd in it.
    pub remarks: Vec<String>,
}

/// A staff of a part.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct StaffRow {
    /// Its number among the staves of the score.
    pub staff: u32,
    /// Its label, corrected where it was.
    pub label: String,
    /// The reading of its label that holds, where it is not the usual one, in the form a link has.
    pub reads: Option<String>,
    /// The reading that the file gave it, likewise.
    pub reads_by_file: Option<String>,
    /// Its label in the file.
    pub label_by_file: String,
    /// What it changes to in its course.
    pub changes: Vec<StaffChangeRow>,
    /// Words for another crook that its file does not heed, and that were not settled yet.
    pub unheeded: Vec<UnheededRow>,
    /// Whether it sounds as it is printed, whatever its label says: drums printed by their names.
    pub as_printed: bool,
    /// Whether it is one of the brass, or a drum beside it.
    pub stands_out: bool,
    /// Old bass-clef notation that its file has as new.
    pub old_bass: Option<OldBassRow>,
}

/// A change of crook, or of instrument, in the course of a staff.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct StaffChangeRow {
    /// The bar in which it stands.
    pub bar: u32,
    /// As print has it.
    pub label: String,
    /// Whether the reader put it there.
    pub is_corrected: bool,
    /// Whether it is understood; else nothing changes.
    pub is_understood: bool,
}

/// Words for another crook that a file does not heed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct UnheededRow {
    /// The bar in which they stand.
    pub bar: u32,
    /// The bar in which the staff plays next.
    pub from: u32,
    /// As they are printed.
    pub words: String,
}

/// Notes in old bass-clef notation.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct OldBassRow {
    /// How many.
    pub notes: u32,
    /// The bars in which they stand.
    pub bars: Vec<u32>,
    /// Whether they are read as old.
    pub is_read: bool,
}
