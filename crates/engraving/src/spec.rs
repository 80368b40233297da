//! What is to be engraved: one staff in equal columns, in plain values that know no app and no file.

use crate::drawing::{ElementId, Ink};
use crate::glyph::Glyph;
use core::ops::Range;
use crookwise_theory::{Clef, Pitch, Signature, StaffPosition};

/// One staff: clef and signature at its head, then columns. Each column counts as a bar of its own, so an accidental
/// holds for its column only.
#[derive(Clone, Debug, PartialEq)]
pub struct StaffSpec {
    /// The clef at its beginning.
    pub clef: Clef,
    /// The key signature at its beginning.
    pub signature: Signature,
    /// Whether strokes without pitch stand on it: the neutral clef stands for clef and signature.
    pub unpitched: bool,
    /// The ink of notes and rests that name none.
    pub ink: Ink,
    /// The columns from left to right.
    pub columns: Vec<ColumnSpec>,
    /// How much of the staff is drawn.
    pub parts: Parts,
    /// How large it stands among others, where 1 is the size for which its metrics are made.
    pub size: f64,
}

impl StaffSpec {
    /// A staff without columns, in the ink of what is written.
    #[must_use]
    pub const fn new(clef: Clef, signature: Signature) -> Self {
        let (ink, parts) = (Ink::Written, Parts::All);
        Self { clef, signature, unpitched: false, ink, columns: Vec::new(), parts, size: 1.0 }
    }

    /// Clef and signature in force from a column on, its own changes counted.
    #[must_use]
    pub fn in_force(&self, column: usize) -> (Clef, Signature) {
        let mut force = (self.clef, self.signature);
        for column in self.columns.iter().take(column.saturating_add(1)) {
            force = (column.clef_change.unwrap_or(force.0), column.signature_change.unwrap_or(force.1));
        }
        force
    }

    /// All columns.
    #[must_use]
    pub fn all(&self) -> Range<usize> {
        0..self.columns.len()
    }
}

/// How much of a staff is drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Parts {
    /// Lines, clef, signature and notes.
    #[default]
    All,
    /// Only what stands in the columns, to be laid over the same staff drawn before.
    Notes,
}

/// What stands at one moment of a staff.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ColumnSpec {
    /// The notes, in any order.
    pub notes: Vec<NoteSpec>,
    /// The rests.
    pub rests: Vec<RestSpec>,
    /// A new clef before this column.
    pub clef_change: Option<Clef>,
    /// A new signature before this column.
    pub signature_change: Option<Signature>,
    /// A bar begins before this column: its number, over the bar line; where none is printed, no letters.
    pub bar: Option<String>,
    /// Directions over the staff from this column on ("muta in D"), from the highest down.
    pub above: Vec<String>,
}

/// One note.
#[derive(Clone, Debug, PartialEq)]
pub struct NoteSpec {
    /// As printed on this staff. Farther than [`FARTHEST`] places off the staff it is drawn at that place.
    pub pitch: Pitch,
    /// When its accidental is shown.
    pub accidental: AccidentalRule,
    /// Whether a tie comes from the column before.
    pub tied_from_previous: bool,
    /// Its notehead.
    pub head: Head,
    /// Its stem. Notes with the same direction share one stem.
    pub stem: StemRule,
    /// A sign of the hand in the bell or the mute.
    pub sign: Option<TechniqueSign>,
    /// By which the caller knows it again.
    pub id: Option<ElementId>,
    /// Its ink, if not that of the staff.
    pub ink: Option<Ink>,
}

impl NoteSpec {
    /// A black note with stem and accidental as they come.
    #[must_use]
    pub const fn new(pitch: Pitch) -> Self {
        Self {
            pitch,
            accidental: AccidentalRule::Auto,
            tied_from_previous: false,
            head: Head::Black,
            stem: StemRule::Auto,
            sign: None,
            id: None,
            ink: None,
        }
    }
}

/// When an accidental is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum AccidentalRule {
    /// Where the signature does not say it already; not again on a tied note.
    #[default]
    Auto,
    /// Always.
    Force,
    /// Never.
    Hide,
}

/// A notehead.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Head {
    /// Filled.
    #[default]
    Black,
    /// Hollow, with a stem.
    Half,
    /// Hollow, without a stem.
    Whole,
    /// A cross: a stroke without pitch, and so without accidental.
    Cross,
}

impl Head {
    /// Its glyph.
    #[must_use]
    pub const fn glyph(self) -> Glyph {
        match self {
            Self::Black => Glyph::NoteheadBlack,
            Self::Half => Glyph::NoteheadHalf,
            Self::Whole => Glyph::NoteheadWhole,
            Self::Cross => Glyph::NoteheadXBlack,
        }
    }
}

/// The direction of a stem. As soon as one note of a column names a direction, its notes are two voices.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum StemRule {
    /// By the place on the staff; in two voices the direction that is free, or up.
    #[default]
    Auto,
    /// Upwards: the upper voice.
    Up,
    /// Downwards: the lower voice.
    Down,
    /// None.
    None,
}

/// A sign of the hand in the bell or of the mute, as SMuFL and MusicXML have them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TechniqueSign {
    /// A cross: stopped.
    Stopped,
    /// A crossed ring: half stopped.
    HalfStopped,
    /// A ring: open.
    Open,
}

impl TechniqueSign {
    /// Its glyph.
    #[must_use]
    pub const fn glyph(self) -> Glyph {
        match self {
            Self::Stopped => Glyph::BrassMuteClosed,
            Self::HalfStopped => Glyph::BrassMuteHalfClosed,
            Self::Open => Glyph::BrassMuteOpen,
        }
    }
}

/// One rest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RestSpec {
    /// Its value.
    pub value: RestValue,
    /// Where it stands.
    pub place: RestPlace,
    /// By which the caller knows it again.
    pub id: Option<ElementId>,
    /// Its ink, if not that of the staff.
    pub ink: Option<Ink>,
}

impl RestSpec {
    /// A rest in the middle of the staff.
    #[must_use]
    pub const fn new(value: RestValue) -> Self {
        Self { value, place: RestPlace::Middle, id: None, ink: None }
    }
}

/// The value of a rest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RestValue {
    /// A whole bar or a whole note.
    Whole,
    /// A half.
    Half,
    /// A quarter.
    Quarter,
    /// An eighth.
    Eighth,
    /// A sixteenth.
    Sixteenth,
}

impl RestValue {
    /// Its glyph.
    #[must_use]
    pub const fn glyph(self) -> Glyph {
        match self {
            Self::Whole => Glyph::RestWhole,
            Self::Half => Glyph::RestHalf,
            Self::Quarter => Glyph::RestQuarter,
            Self::Eighth => Glyph::Rest8th,
            Self::Sixteenth => Glyph::Rest16th,
        }
    }
}

/// Where a rest stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum RestPlace {
    /// In the middle of the staff, or clear above the notes of its column.
    #[default]
    Middle,
    /// Above the notes: the upper voice rests.
    Above,
    /// Below the notes: the lower voice rests.
    Below,
}

/// How many places above or below the middle line a note is drawn at most: 33 ledger lines.
pub const FARTHEST: i32 = 70;

/// The place where a pitch is drawn.
pub(crate) fn place(pitch: Pitch, clef: Clef) -> StaffPosition {
    StaffPosition(clef.position(pitch).0.clamp(4 - FARTHEST, 4 + FARTHEST))
}
