//! Answers, as values: what the reader says, names, taps or plays.

use crookwise_score::{Choice, Quality, Role};
use crookwise_theory::{Clef, Degree, Pitch, Production, Tonic};

/// An answer to a question, or one of the choices offered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Answer {
    /// A note with letter and octave, named or put on a staff.
    Note(Pitch),
    /// A note named without its octave; its octave is not judged.
    Name(Tonic),
    /// A key of the keyboard by its MIDI number; its letter is not judged.
    Key(u8),
    /// The notes of all players of a staff, from the first player on; one for "a 2".
    Notes(Vec<Pitch>),
    /// What a label names.
    Label(Choice),
    /// A partial by its number; `None` for a note off the series.
    Partial(Option<u8>),
    /// How a note is made.
    Made(Production),
    /// A degree of the movement's key.
    Degree(Degree),
    /// A clef to imagine.
    Clef {
        /// The clef, without octave mark.
        clef: Clef,
        /// Octaves to add to what is read there.
        octaves: i32,
        /// Sharps (positive) or flats (negative) to add to the signature.
        fifths: i32,
    },
    /// A chord.
    Chord(ChordName),
    /// A column of the passage, from 0.
    Column(u8),
    /// A staff of the passage, from 0 at the top.
    Staff(u8),
    /// The first or the second.
    Which(Which),
}

/// A chord as it is named: root, quality, and what lies lowest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ChordName {
    /// The root.
    pub root: Tonic,
    /// Which chord.
    pub quality: Quality,
    /// The member in the bass.
    pub bass: Role,
}

/// The first or the second of two that are heard one after the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Which {
    /// The first.
    First,
    /// The second.
    Second,
}
