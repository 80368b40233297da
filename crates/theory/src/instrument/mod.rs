//! The staves of a score: who reads them and how they transpose by themselves.

mod habits;
mod properties;

pub(crate) use habits::{Form, Habit, KeyAsked, OtherReading};
pub use properties::{
    Blown, Build, InstrumentKind, KeyMeans, LikeHorn, NamesKey, OtherClefs, OwnKey, PitchKind,
};

use crate::clef::Clef;
use crate::crook::{CrookFamily, OctaveWord};
use crate::notation::{Scheme, Systems};
use crate::pitch::{Pitch, Step, Tonic};
use crate::tables::{INSTRUMENT_NOTES, INSTRUMENTS};
use crate::transposition::Transposition;

/// A row of the table of instruments.
#[derive(Debug)]
pub struct Instrument {
    /// The name in links and in the JavaScript package: one of a closed list.
    pub id: &'static str,
    /// English name, with the key where the instrument has one of its own.
    pub english: &'static str,
    /// Italian names; several parted by semicolons, plural endings after a comma.
    pub italian: &'static str,
    /// German names.
    pub german: &'static str,
    /// French names.
    pub french: &'static str,
    /// Spanish names.
    pub spanish: &'static str,
    /// Further names in use, in any language, parted by semicolons.
    pub also: &'static str,
    /// Abbreviations in use, parted by semicolons.
    pub abbreviations: &'static str,
    /// From written to sounding; `None` where the crook or the named drums decide (horn, trumpet, timpani) and where
    /// there is no pitch.
    pub transposition: Option<Transposition>,
    /// The clef its staff has unless told otherwise.
    pub clef: Clef,
    /// Usual written range, as the table has it.
    pub range: &'static str,
    /// Its place in the list.
    pub family: Family,
    /// The family of its crooks, for horn and trumpet.
    pub crooks: Option<CrookFamily>,
    /// Its bass-clef staves follow the old octave habit by default: horn, trumpet, basset horn. Common practice before
    /// about 1900.
    pub old_bass: bool,
    /// The systems by which it is written, where there is more than one.
    pub systems: Option<Systems>,
    /// The system that the row stands for.
    pub scheme: Option<Scheme>,
    /// How it is written in other clefs.
    pub other_clefs: OtherClefs,
    /// How brass makes its notes.
    pub build: Build,
    /// The octave word that belongs to its key.
    pub octave: Option<OctaveWord>,
    /// Doubled an octave below, as cellos and basses on one staff are.
    pub doubled_below: bool,
    /// Whether its notes have a pitch.
    pub pitch: PitchKind,
    /// Its part has a signature by habit; natural brass has none all the same.
    pub has_signature: bool,
    /// The instrument that its player has beside it, by its id: the clarinets in B-flat and A are such a pair.
    pub pair: Option<&'static str>,
    /// Whether it is taken for a horn by its name.
    pub like_horn: LikeHorn,
    /// The row of which it is only a habit of writing or tuning: by its id.
    pub variant_of: Option<&'static str>,
    /// When the trade means that habit; empty for all other rows.
    pub variant_reason: &'static str,
    /// The key it stands in by itself.
    pub own_key: OwnKey,
    /// What a key on its label says.
    pub key_means: KeyMeans,
    /// Whether its name says its key.
    pub names_key: NamesKey,
    /// What it is called, where not by its English name up to the first remark; else empty.
    pub called: &'static str,
    /// A label that means this row, where its English name does not; else empty.
    pub label: &'static str,
    /// Of rows that share a name the one with the lowest number is meant most often. Common practice.
    pub rank: u8,
    /// The plain instrument that it is one of.
    pub kind: Option<InstrumentKind>,
    /// Its own words are the words of its kind.
    pub teaches_kind: bool,
    /// How it is blown, for woodwind. Common practice.
    pub blown: Option<Blown>,
}

/// What the table notes beside an instrument. It stands apart, so that a program which does not show it does not carry it.
#[derive(Debug)]
pub struct InstrumentNotes {
    /// All its clefs, as the table has them.
    pub clefs: &'static str,
    /// S with a source, C for common practice, M for from memory.
    pub source: &'static str,
    /// What else the trade knows of it.
    pub remark: &'static str,
}

/// Groups of the list of instruments.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Family {
    /// Woodwind.
    Woodwind,
    /// Brass.
    Brass,
    /// Timpani and pitched percussion.
    Percussion,
    /// Harp, guitar and keyboards.
    PluckedAndKeyboard,
    /// Bowed strings.
    Strings,
    /// Voices.
    Voices,
}

impl Family {
    /// Every group in score order.
    pub const ALL: [Self; 6] = [
        Self::Woodwind,
        Self::Brass,
        Self::Percussion,
        Self::PluckedAndKeyboard,
        Self::Voices,
        Self::Strings,
    ];

    /// Its name in the list.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Woodwind => "Woodwind",
            Self::Brass => "Brass",
            Self::Percussion => "Drums and bells",
            Self::PluckedAndKeyboard => "Harp, guitar, keyboard",
            Self::Strings => "Strings",
            Self::Voices => "Voices",
        }
    }
}

impl Instrument {
    /// The instrument with that id.
    ///
    /// ```
    /// # use crookwise_theory::Instrument;
    /// assert_eq!(Instrument::by_id("cl_a").unwrap().english, "Clarinet in A");
    /// ```
    #[must_use]
    pub fn by_id(id: &str) -> Option<&'static Self> {
        INSTRUMENTS.iter().find(|instrument| instrument.id == id)
    }

    /// What the table notes beside it.
    ///
    /// ```
    /// # use crookwise_theory::Instrument;
    /// assert_eq!(Instrument::by_id("viola").unwrap().notes().unwrap().clefs, "C3, G2");
    /// ```
    #[must_use]
    pub fn notes(&self) -> Option<&'static InstrumentNotes> {
        INSTRUMENTS.iter().zip(&INSTRUMENT_NOTES).find(|(row, _)| *row == self).map(|(_, notes)| notes)
    }

    /// Whether it is one of the two instruments with crooks and a natural series.
    #[must_use]
    pub const fn is_crooked(&self) -> bool {
        self.crooks.is_some()
    }

    /// Whether its notes have a pitch. Where they have none, what is printed stands for a stroke, and nothing sounds
    /// that could be named.
    ///
    /// ```
    /// # use crookwise_theory::Instrument;
    /// assert!(Instrument::by_id("timp_old").unwrap().is_pitched());
    /// ```
    #[must_use]
    pub const fn is_pitched(&self) -> bool {
        !matches!(self.pitch, PitchKind::None)
    }

    /// Whether the label names the notes it has: timpani.
    #[must_use]
    pub const fn has_named_drums(&self) -> bool {
        matches!(self.pitch, PitchKind::NamedDrums)
    }

    /// The key it stands in by itself; `None` for what stands in no key.
    ///
    /// ```
    /// # use crookwise_theory::{Instrument, Step, Tonic};
    /// let key = |id| Instrument::by_id(id).unwrap().key();
    /// assert_eq!(key("cl_a"), Some(Tonic::new(Step::A, 0)));
    /// assert_eq!(key("flute"), None);
    /// ```
    #[must_use]
    pub fn key(&self) -> Option<Tonic> {
        let c = Tonic::new(Step::C, 0);
        match self.own_key {
            OwnKey::Said(key) => Some(key),
            OwnKey::None => None,
            OwnKey::ByTransposition => {
                let sounding = Pitch::natural(Step::C, 4) + self.transposition?.0;
                Some(sounding.tonic()).filter(|key| *key != c)
            }
        }
    }

    /// The instrument that its player has beside it.
    ///
    /// ```
    /// # use crookwise_theory::Instrument;
    /// assert_eq!(Instrument::by_id("cl_a").unwrap().other_of_pair(), Instrument::by_id("cl_bb"));
    /// ```
    #[must_use]
    pub fn other_of_pair(&self) -> Option<&'static Self> {
        self.pair.and_then(Self::by_id)
    }

    /// Whether it is one of the usual instruments of its name.
    #[must_use]
    pub const fn is_usual(&self) -> bool {
        self.rank < 5
    }

    /// The row of a crooked family.
    #[must_use]
    pub fn with_crooks(family: CrookFamily) -> Option<&'static Self> {
        INSTRUMENTS.iter().find(|row| row.crooks == Some(family))
    }

    /// The row of which it is only a habit of writing or tuning, else itself.
    pub(crate) fn plain(&'static self) -> &'static Self {
        self.variant_of.and_then(Self::by_id).unwrap_or(self)
    }
}

impl PartialEq for Instrument {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

impl Eq for Instrument {}
