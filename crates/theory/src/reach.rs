//! How a written note is made on natural horn and trumpet: open, with the hand, or with the lip.
//!
//! A guide: players, instruments and sources differ.

use crate::crook::CrookFamily;
use crate::pitch::Pitch;
use crate::tables::{HORN_REACH, TRUMPET_REACH};

/// How a note is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Production {
    /// An open note, the hand at rest.
    Open,
    /// Open, with the hand drawn out to sharpen.
    HandOut,
    /// The bell closed by a quarter.
    Quarter,
    /// The bell half closed.
    Half,
    /// The bell closed by three quarters.
    ThreeQuarter,
    /// The bell fully stopped.
    Full,
    /// Bent with the lip.
    Lipped,
    /// An ordinary note of a chromatic instrument: nothing to make.
    Chromatic,
    /// Not on the plain series, by hand or by lip.
    Unavailable,
}

impl Production {
    /// Every way, in the order of this list.
    pub const ALL: [Self; 9] = [
        Self::Open,
        Self::HandOut,
        Self::Quarter,
        Self::Half,
        Self::ThreeQuarter,
        Self::Full,
        Self::Lipped,
        Self::Chromatic,
        Self::Unavailable,
    ];

    /// The name in the JavaScript package.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::HandOut => "handOut",
            Self::Quarter => "quarter",
            Self::Half => "half",
            Self::ThreeQuarter => "threeQuarter",
            Self::Full => "full",
            Self::Lipped => "lipped",
            Self::Chromatic => "chromatic",
            Self::Unavailable => "unavailable",
        }
    }

    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::HandOut => "open, hand out",
            Self::Quarter => "a quarter stopped",
            Self::Half => "half stopped",
            Self::ThreeQuarter => "three quarters stopped",
            Self::Full => "fully stopped",
            Self::Lipped => "lipped",
            Self::Chromatic => "an ordinary note",
            Self::Unavailable => "not on the plain series",
        }
    }

    /// The sign over the note: the fraction of the bell closed, `+` for full, `o` for the hand drawn out;
    /// empty for an open note.
    #[must_use]
    pub const fn sign(self) -> &'static str {
        match self {
            Self::HandOut => "o",
            Self::Quarter => "¼",
            Self::Half => "½",
            Self::ThreeQuarter => "¾",
            Self::Full => "+",
            Self::Lipped => "lip",
            Self::Unavailable => "–",
            Self::Open | Self::Chromatic => "",
        }
    }

    /// Whether the hand or the lip shapes the note.
    #[must_use]
    pub const fn is_corrected(self) -> bool {
        !matches!(self, Self::Open | Self::Chromatic | Self::Unavailable)
    }
}

/// How good a note is: A open and true to E not on the series.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Grade {
    /// Open and true.
    A,
    /// Open but to be corrected, or half stopped: sounds well enough (Widor p. 34).
    B,
    /// Very high, or corrected far.
    C,
    /// Muffled; avoided except in passing.
    D,
    /// Not on the plain series.
    E,
}

impl Grade {
    /// What the grade means.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::A => "open and true",
            Self::B => "good with a little help",
            Self::C => "high or far corrected",
            Self::D => "muffled, for passing notes",
            Self::E => "hardly to be had",
        }
    }
}

/// How one written note is made. Sources: Widor, *Initiation musicale*, p. 34; R. Burdick; and a model of
/// bending where neither speaks, said so in the note.
#[derive(Debug)]
pub struct Reach {
    /// MIDI number of the written note.
    pub written_midi: i32,
    /// The partial whose note this is, as the table has it.
    pub partial: Option<u8>,
    /// How it is made.
    pub production: Production,
    /// Another way, where sources differ.
    pub other: Option<Production>,
    /// Whose way the other is.
    pub other_note: &'static str,
    /// How good it is.
    pub grade: Grade,
    /// Cents to bend from the partial it is made from, in equal temperament.
    pub bend: Option<f64>,
    /// The partial it is made from.
    pub from: Option<u8>,
    /// What else is known.
    pub note: &'static str,
}

impl Reach {
    /// How a written note is made; `None` beyond the table.
    #[must_use]
    pub fn of(family: CrookFamily, written: Pitch) -> Option<&'static Self> {
        let table: &'static [Self] = match family {
            CrookFamily::Horn => &HORN_REACH,
            CrookFamily::Trumpet => &TRUMPET_REACH,
        };
        let midi = written.midi();
        table.iter().find(|row| row.written_midi == midi)
    }

    /// Every row of an instrument, from low to high.
    #[must_use]
    pub fn all(family: CrookFamily) -> &'static [Self] {
        match family {
            CrookFamily::Horn => &HORN_REACH,
            CrookFamily::Trumpet => &TRUMPET_REACH,
        }
    }
}
