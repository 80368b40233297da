//! The staves of a score: who reads them and how they transpose by themselves.

use crate::clef::Clef;
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
    /// Abbreviations in use, parted by semicolons.
    pub abbreviations: &'static str,
    /// From written to sounding; `None` where the crook or the named drums decide (horn, trumpet, timpani).
    pub transposition: Option<Transposition>,
    /// The clef its staff has unless told otherwise.
    pub clef: Clef,
    /// Usual written range, as the table has it.
    pub range: &'static str,
    /// Its place in the list.
    pub family: Family,
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

    /// Whether its bass-clef staves follow the old octave habit by default: horn, trumpet, basset horn.
    /// Source: common practice (design of old bass-clef notation before about 1900).
    #[must_use]
    pub fn has_old_bass_notation(&self) -> bool {
        matches!(self.id, "horn" | "trumpet" | "basset_hn" | "cl_basset")
    }

    /// Whether it is one of the two instruments with crooks and a natural series.
    #[must_use]
    pub fn is_crooked(&self) -> bool {
        matches!(self.id, "horn" | "trumpet")
    }
}

impl PartialEq for Instrument {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

impl Eq for Instrument {}
