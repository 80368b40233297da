//! A score as its file has it: part after part, bar after bar, each time counted from its bar's beginning.

use crookwise_score::score::{BarSigns, Direction, GroupSign, Look, Quarters, TimeSignature, Tuplet};
use crookwise_theory::{Clef, Key, MusicXmlTranspose, Pitch};
use std::sync::Arc;

/// A score.
#[derive(Debug, Default)]
pub(crate) struct RawScore {
    /// What the file says of what it is.
    pub heading: Heading,
    /// Whether the file says that it is written at sounding pitch.
    pub at_pitch: bool,
    /// Its parts in the order of its list.
    pub parts: Vec<RawPart>,
    /// Its groups of parts.
    pub groups: Vec<RawGroup>,
    /// The movement's keys, where the file tells them apart from its parts.
    pub keys: Vec<(Quarters, Key)>,
}

/// What a file says of what it is; empty where it does not say.
#[derive(Debug, Default)]
pub(crate) struct Heading {
    pub work: String,
    /// Its number: "Op. 67".
    pub work_number: String,
    pub movement: String,
    pub movement_number: String,
    pub composer: String,
}

/// A group of parts, by the places of its first and last.
#[derive(Debug)]
pub(crate) struct RawGroup {
    pub from: usize,
    pub to: usize,
    pub name: String,
    pub sign: GroupSign,
}

/// What a file counts of a part.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct RawCounts {
    /// Notes with a pitch.
    pub pitched: u32,
    /// Rests.
    pub rests: u32,
    /// Notes without a pitch of their own.
    pub unpitched: u32,
    /// Notes on the stem of the one before.
    pub on_stem: u32,
    /// Grace notes.
    pub graces: u32,
    /// Small notes that another part plays.
    pub cues: u32,
}

/// A part.
#[derive(Debug, Default)]
pub(crate) struct RawPart {
    pub id: String,
    pub name: String,
    pub bars: Vec<RawBar>,
    pub items: Vec<RawItem>,
    pub counts: RawCounts,
    /// Whether a note has a pitch that could be read, for each of the file's elements of notes in their order.
    pub pitched: Vec<bool>,
    /// Staves, at least 1.
    pub staves: u8,
}

/// A bar of a part.
#[derive(Debug)]
pub(crate) struct RawBar {
    pub number: Arc<str>,
    pub length: Quarters,
    pub time: Option<TimeSignature>,
    pub signs: BarSigns,
}

/// When something is: the bar, the time in it, and how many grace notes stand there before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct RawTime {
    pub bar: u32,
    pub offset: Quarters,
    pub graces: u32,
}

/// What stands in a part.
#[derive(Debug)]
pub(crate) enum RawItem {
    Note(RawNote),
    Change { at: RawTime, staff: Option<u8>, to: RawChange },
    Direction { at: RawTime, staff: u8, direction: Direction },
}

/// A note or rest.
#[derive(Debug)]
pub(crate) struct RawNote {
    pub at: RawTime,
    pub length: Quarters,
    pub staff: u8,
    pub voice: u8,
    pub pitch: Option<Pitch>,
    pub tied: bool,
    pub grace: bool,
    pub tuplet: Option<Tuplet>,
    pub look: Look,
}

/// What changes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum RawChange {
    Clef(Clef),
    /// Fifths as written, and whether minor where told.
    Key(i32, Option<bool>),
    Transpose(RawTranspose),
}

/// A transposition as told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct RawTranspose {
    pub numbers: MusicXmlTranspose,
    /// Whether the number of letters was told.
    pub letters: bool,
    /// Whether the octave below sounds too.
    pub doubled_below: bool,
}
