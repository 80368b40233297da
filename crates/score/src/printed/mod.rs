//! What print shows of a score, bar by bar and still without geometry: which notes share a stem or a staff, which signs a
//! bar's memory asks for, what is beamed. A row is one printed staff: a part as written or as it sounds, or the two players
//! of a pair joined as print has them.

pub mod beams;
mod join;
mod memory;
mod pairs;
mod rests;
mod skeleton;
mod staff;

pub use join::Players;
pub use pairs::pairs;
pub use rests::rests_together;
pub use skeleton::skeleton;
pub use staff::{pair_label, printed, staff_label};

use crate::score::{Beams, Direction, Marks, NoteId, NoteValue, Quarters, StaffId, Stem, Tremolo, Tuplet};
use crookwise_theory::{Clef, Pitch, Production, Signature};
use std::sync::Arc;

/// A change of crook in short: "in G" of "muta in G" or "Corno III in G"; the whole of what has no such words.
#[must_use]
pub fn change_in_short(label: &str) -> &str {
    let label = label.trim();
    label.rfind(" in ").and_then(|at| label.get(at + 1..)).unwrap_or(label)
}

/// At which pitch a row is printed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum RowPitch {
    /// As the part has it.
    #[default]
    Written,
    /// As it sounds, in the movement's key.
    Sounding,
}

/// What is to be printed as one staff.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Row {
    /// The staff, or the two of a pair, the upper first.
    pub staves: Vec<StaffId>,
    /// At which pitch.
    pub pitch: RowPitch,
}

/// A printed staff in its course.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PrintedStaff {
    /// What stands in front of it.
    pub label: String,
    /// One for each bar of the score.
    pub bars: Vec<PrintedBar>,
}

/// A bar of a printed staff. Times are counted from its beginning.
#[derive(Clone, Debug, PartialEq)]
pub struct PrintedBar {
    /// The clef that holds at its beginning.
    pub clef: Clef,
    /// The signature that holds in it.
    pub signature: Signature,
    /// Clefs that begin within it.
    pub clefs: Vec<(Quarters, Clef)>,
    /// One voice or two, the upper first; none where nobody plays.
    pub voices: Vec<Vec<PrintedEvent>>,
    /// What stands over and under it.
    pub signs: Vec<(Quarters, PrintedSign)>,
    /// Who plays, where that is told from here on.
    pub players: Option<Players>,
}

/// What stands over or under a staff.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PrintedSign {
    /// As the score has it.
    Direction(Direction),
    /// Another crook or instrument.
    Crook(Arc<str>),
}

/// What one voice has at one time: a note, notes on one stem, or a rest.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PrintedEvent {
    /// When, from the beginning of the bar.
    pub at: Quarters,
    /// How long.
    pub length: Quarters,
    /// Its value.
    pub value: Option<NoteValue>,
    /// Its dots.
    pub dots: u8,
    /// Its notes from low to high; none for a rest.
    pub notes: Vec<PrintedNote>,
    /// Grace notes before it.
    pub graces: Vec<PrintedEvent>,
    /// Whether a rest fills the bar.
    pub whole_bar: bool,
    /// Its beams.
    pub beams: Beams,
    /// Its stem, where the score says.
    pub stem: Option<Stem>,
    /// The tuplet it belongs to.
    pub tuplet: Option<Tuplet>,
    /// Strokes through its stem.
    pub tremolo: Option<Tremolo>,
    /// Signs at it.
    pub marks: Marks,
    /// Slurs that begin at it.
    pub slurs_begin: u8,
    /// Slurs that end at it.
    pub slurs_end: u8,
    /// Whether it is printed small.
    pub cue: bool,
    /// Whether its stem is struck through.
    pub slash: bool,
}

/// A note of a printed staff.
#[derive(Clone, Debug, PartialEq)]
pub struct PrintedNote {
    /// Its staff in the score.
    pub staff: StaffId,
    /// Its number in the score.
    pub id: NoteId,
    /// As it stands on the staff, octave lines counted.
    pub pitch: Pitch,
    /// The accidental before it, as semitones.
    pub accidental: Option<i8>,
    /// Whether it is tied to the note before.
    pub tied: bool,
    /// Whether it is tied to the note after.
    pub tied_on: bool,
    /// Whether it stands for a stroke without pitch.
    pub unpitched: bool,
    /// How it is made, on natural brass.
    pub made: Option<Made>,
}

/// How a note of natural brass is made, as a small sign says it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Made {
    /// The partial; `None` off the series.
    pub partial: Option<u8>,
    /// How it is made: what a note off the series has instead of a number.
    pub production: Production,
    /// How far it stands from the tuning, in cents; negative is flat.
    pub drift: Option<f64>,
}

impl PrintedEvent {
    /// Whether it is a rest.
    #[must_use]
    pub fn is_rest(&self) -> bool {
        self.notes.is_empty()
    }

    /// When it ends.
    #[must_use]
    pub fn end(&self) -> Quarters {
        self.at.plus(self.length).unwrap_or(self.at)
    }
}

impl PrintedBar {
    /// Whether nobody plays in it.
    #[must_use]
    pub fn is_silent(&self) -> bool {
        self.voices.iter().flatten().all(PrintedEvent::is_rest)
    }
}
