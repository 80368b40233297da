//! What a label at the head of a staff says: the staff it names.

use crate::crook::{Crook, CrookFamily, OctaveWord};
use crate::instrument::Instrument;
use crate::pitch::Tonic;
use crate::transposition::{Sounding, Transposition};
use core::fmt;

/// Natural brass has a series; with valves every note is an ordinary one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mechanism {
    /// Without valves: hand and lip.
    Natural,
    /// With valves.
    Valves,
}

impl Mechanism {
    /// The word in links and in the JavaScript package.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Natural => "natural",
            Self::Valves => "valves",
        }
    }
}

/// A staff as its label names it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StaffLabel {
    /// The row of the table of instruments.
    pub instrument: &'static Instrument,
    /// The key the label or the instrument has; `None` for what stands in no key.
    pub key: Option<Tonic>,
    /// Alto or basso, where the key is built in both.
    pub octave: Option<OctaveWord>,
    /// How many players, where the label prints it.
    pub count: Option<u32>,
    /// Which players, where the label numbers them.
    pub players: Vec<u32>,
    /// Natural or valves for horn, trumpet and their kin; `None` for all others.
    pub mechanism: Option<Mechanism>,
    /// Doubled an octave below, as cellos and basses on one staff are.
    pub doubled_below: bool,
    /// The notes named for the drums.
    pub drums: Vec<Tonic>,
    /// From written to sounding, by the habit assumed.
    pub transposition: Transposition,
}

impl StaffLabel {
    /// Horn or trumpet, where it is one of them.
    #[must_use]
    pub const fn crook_family(&self) -> Option<CrookFamily> {
        self.instrument.crooks
    }

    /// Whether its notes have a pitch: see [`Instrument::is_pitched`].
    #[must_use]
    pub const fn is_pitched(&self) -> bool {
        self.instrument.is_pitched()
    }

    /// Whether its label names drums and none of them has this sound, whatever it is spelled as: one is tuned anew for it, or
    /// there is another drum. Common practice.
    #[must_use]
    pub fn has_no_drum_for(&self, sounding: Sounding) -> bool {
        let sounds = sounding.0.tonic().pitch_class();
        !self.drums.is_empty() && self.drums.iter().all(|drum| drum.pitch_class() != sounds)
    }

    /// Its crook, for horn and trumpet in a key that is built.
    #[must_use]
    pub fn crook(&self) -> Option<&'static Crook> {
        self.crook_family()?.by_transposition(self.transposition)
    }

    /// Whether partials, hand and lip mean something on it.
    #[must_use]
    pub fn natural_family(&self) -> Option<CrookFamily> {
        self.crook_family().filter(|_| self.mechanism == Some(Mechanism::Natural))
    }
}

/// Why a label gives no staff, or not the whole of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LabelProblem {
    /// Nothing is written there.
    Empty,
    /// Longer than any label: more than [`super::LONGEST`] characters.
    TooLong,
    /// No word of it names an instrument. The first word that is not understood, and the nearest known one.
    NoInstrument {
        /// The word as it stands in the label.
        word: String,
        /// The nearest word known, where one is near.
        nearest: Option<String>,
    },
    /// The instrument is known, but a word is not understood.
    UnknownWord {
        /// The word as it stands in the label.
        word: String,
        /// The nearest word known, where one is near.
        nearest: Option<String>,
    },
    /// What stands where a key should names none.
    UnreadKey {
        /// The word as it stands in the label.
        word: String,
        /// The instrument in English.
        instrument: &'static str,
    },
    /// A horn or trumpet whose key is not named.
    NoKey {
        /// The instrument in English.
        instrument: &'static str,
    },
    /// A key in which the instrument is not built.
    NoSuchCrook {
        /// The instrument in English.
        instrument: &'static str,
        /// The key in words.
        key: String,
    },
}

impl fmt::Display for LabelProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let hint = |f: &mut fmt::Formatter<'_>, nearest: &Option<String>| match nearest {
            Some(nearest) => write!(f, "; the nearest word known is “{nearest}”"),
            None => Ok(()),
        };
        match self {
            Self::Empty => f.write_str("Type what the score prints at the head of the staff"),
            Self::TooLong => f.write_str("This is longer than any label at the head of a staff"),
            Self::NoInstrument { word, nearest } => {
                write!(f, "“{word}” names no instrument known here")?;
                hint(f, nearest)
            }
            Self::UnknownWord { word, nearest } => {
                write!(f, "“{word}” is not understood")?;
                hint(f, nearest)
            }
            Self::UnreadKey { word, instrument } => {
                write!(
                    f,
                    "“{word}” names no key known here: choose in which one the {} stands",
                    noun_of(instrument)
                )
            }
            Self::NoKey { instrument } => {
                write!(f, "The label does not say in which key the {instrument} stands")
            }
            Self::NoSuchCrook { instrument, key } => {
                write!(f, "No {} in {key} is built, or none is known here", noun_of(instrument))
            }
        }
    }
}

/// The English name within a sentence, without its key and remarks.
fn noun_of(instrument: &str) -> String {
    let name = instrument.split([',', '(']).next().unwrap_or(instrument);
    name.split(" in ").next().unwrap_or(name).trim().to_ascii_lowercase()
}

impl core::error::Error for LabelProblem {}
