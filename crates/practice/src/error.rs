//! Why an exercise cannot be made, in a sentence a musician understands.

use crate::exercise::{MOST_ASKED, MOST_KEYS, MOST_QUESTIONS};
use crate::kind::Kind;
use core::fmt;

/// Why an exercise cannot be made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ExerciseError {
    /// Nothing is asked.
    NoKinds,
    /// There is no staff to ask about.
    NoStaves,
    /// There are more than [`MOST_ASKED`] staves.
    TooManyStaves,
    /// There are more than [`MOST_KEYS`] keys.
    TooManyKeys,
    /// The number of questions is not from 1 to [`MOST_QUESTIONS`].
    Questions,
    /// A key has more than seven sharps or flats.
    Key,
    /// The reading or the signature chosen for a staff is one that no score has; staves are counted from 0.
    Setting {
        /// Which staff.
        staff: usize,
    },
    /// The label of a staff names nothing known; staves are counted from 0.
    Label {
        /// Which staff.
        staff: usize,
    },
    /// The instrument of a staff, or the one it changes to, has no pitch; staves are counted from 0.
    NoPitch {
        /// Which staff.
        staff: usize,
    },
    /// The label of the instrument in hand names nothing known, or an instrument without pitch.
    Hand,
    /// A kind of question finds nothing to ask.
    Nothing {
        /// The kind.
        kind: Kind,
        /// What is missing.
        why: Why,
    },
    /// There are fewer different questions than are needed so that no two in succession are alike.
    TooFew {
        /// How many could be made.
        possible: usize,
    },
}

/// What is missing for a kind of question.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// None of the staves is natural brass.
    NaturalBrass,
    /// It needs at least two staves that can be read together.
    TwoStaves,
    /// It needs an instrument in hand.
    Hand,
    /// No note of the staves lies within the range.
    Range,
    /// The movement's key is not known.
    Key,
    /// All staves sound as they are printed.
    Transposing,
    /// No staff has two players.
    Pair,
    /// No label of the staves has one reading only.
    Ambiguous,
    /// The staves cannot make a whole chord together within the range.
    Chord,
    /// No phrase fits.
    Phrase,
}

impl fmt::Display for ExerciseError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoKinds => f.write_str("Choose at least one kind of question"),
            Self::NoStaves => f.write_str("Choose at least one staff"),
            Self::TooManyStaves => write!(f, "An exercise has at most {MOST_ASKED} staves"),
            Self::TooManyKeys => write!(f, "An exercise has at most {MOST_KEYS} keys"),
            Self::Questions => write!(f, "An exercise has from 1 to {MOST_QUESTIONS} questions"),
            Self::Key => f.write_str("A key has at most seven sharps or flats"),
            Self::Setting { staff } => {
                write!(
                    f,
                    "Staff {} is set as no score has it: choose its reading and signature anew",
                    staff + 1
                )
            }
            Self::Label { staff } => {
                write!(f, "The label of staff {} names no instrument known here", staff + 1)
            }
            Self::NoPitch { staff } => {
                write!(f, "The instrument of staff {} has no pitch: nothing can be asked of it", staff + 1)
            }
            Self::Hand => f.write_str("The instrument in hand is not known here, or has no pitch"),
            Self::Nothing { why, .. } => why.fmt(f),
            Self::TooFew { possible } => {
                write!(
                    f,
                    "Only {possible} different questions can be made of this: allow more notes, staves or kinds"
                )
            }
        }
    }
}

impl fmt::Display for Why {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NaturalBrass => "Only natural horns and trumpets have partials and hand notes: add one",
            Self::TwoStaves => "This needs at least two staves that sound together",
            Self::Hand => "Choose the instrument in the reader's hands",
            Self::Range => "No note of these staves lies within the range",
            Self::Key => "Name the key of the movement",
            Self::Transposing => "All these staves sound as they are printed",
            Self::Pair => "This needs a staff with two players",
            Self::Ambiguous => "Every one of these labels can be read in several ways",
            Self::Chord => "These staves cannot make a whole chord together within the range",
            Self::Phrase => "No phrase of these styles fits these staves and this range",
        })
    }
}

impl core::error::Error for ExerciseError {}
