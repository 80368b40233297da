//! What stands at bars and over staves: repeats, endings, words, loudness, tempo; and what a file says of transposition.

use super::parts::PartId;
use super::quarters::{Moment, Quarters};
use crookwise_theory::{MusicXmlTranspose, Transposition};
use std::sync::Arc;

/// How a bar line is drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum BarLine {
    /// One thin line.
    #[default]
    Thin,
    /// Two thin lines.
    Double,
    /// Thin and thick: the end.
    Final,
    /// Dashed or dotted.
    Dashed,
    /// None.
    None,
}

/// What a bar has beside its notes.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BarSigns {
    /// A repeat begins with it.
    pub repeat_from: bool,
    /// A repeat ends with it: how often it is played in all.
    pub repeat_to: Option<u16>,
    /// The ending that begins with it, as printed ("1, 2").
    pub ending: Option<Arc<str>>,
    /// Whether an ending ends with it.
    pub ending_ends: bool,
    /// The line at its end.
    pub line: BarLine,
    /// Where players jump to or from.
    pub jumps: Vec<Jump>,
    /// Bars that print as one rest from it on; 0 for none.
    pub rests_together: u16,
    /// Bars of the figure that is repeated here by a sign; 0 for none.
    pub like_before: u16,
}

/// Where players jump to or from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Jump {
    /// Back to the beginning.
    DaCapo,
    /// Back to the segno.
    DalSegno,
    /// The segno.
    Segno,
    /// On to the coda.
    ToCoda,
    /// The coda.
    Coda,
    /// The end, where players have jumped back.
    Fine,
}

/// What stands over or under a staff from a moment on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TimedDirection {
    /// When.
    pub at: Moment,
    /// What.
    pub direction: Direction,
}

/// What can stand over or under a staff.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Direction {
    /// Words as printed.
    Words(Arc<str>),
    /// Loudness as printed: "f", "pp", "sfz".
    Dynamic(Arc<str>),
    /// A hairpin that opens.
    Crescendo,
    /// A hairpin that closes.
    Diminuendo,
    /// The end of a hairpin.
    HairpinEnds,
    /// A tempo, in thousandths of quarter notes a minute.
    Tempo(u32),
    /// A rehearsal letter or number.
    Rehearsal(Arc<str>),
    /// Printed so many octaves lower than it is read (8va: 1); 0 ends it. Pitches are those that are read.
    Ottava(i8),
}

/// The transposition a file tells for a staff from a moment on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Told {
    /// From when.
    pub at: Moment,
    /// From written to sounding.
    pub transposition: Transposition,
    /// The same in the numbers of the file, letters filled in where it has none.
    pub numbers: MusicXmlTranspose,
    /// Whether the octave below sounds too.
    pub doubled_below: bool,
    /// Whether the file says how many letters it is; if not they were taken from the label or are the usual ones.
    pub letters: bool,
}

/// Parts that are bracketed together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PartGroup {
    /// Its first part.
    pub from: PartId,
    /// Its last part.
    pub to: PartId,
    /// As it is named in print; empty where it is not.
    pub name: Arc<str>,
    /// What joins it.
    pub sign: GroupSign,
}

/// What joins parts at the left margin.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum GroupSign {
    /// Nothing.
    #[default]
    None,
    /// A brace, as of a piano.
    Brace,
    /// A bracket, as of a family.
    Bracket,
    /// A thin line or a square.
    Line,
}

impl super::PartStaff {
    /// The transposition the file tells at a moment; none told is none.
    #[must_use]
    pub fn told_at(&self, at: Moment) -> Option<&Told> {
        let after = self.told.partition_point(|told| told.at <= at);
        after.checked_sub(1).and_then(|last| self.told.get(last))
    }
}

impl super::Score {
    /// The bar that holds a time, counted from 0; the last one for times beyond.
    #[must_use]
    pub fn bar_at(&self, time: Quarters) -> usize {
        let after = self.bars.partition_point(|bar| bar.start <= time);
        after.saturating_sub(1)
    }
}
