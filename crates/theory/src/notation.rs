//! Habits of notation between the printed page and what sounds: old bass-clef notation, schemes of bass
//! clarinet and Wagner tuba, octave marks of a clef, drums named in the label.

use crate::clef::{Clef, ClefSign};
use crate::instrument::{Instrument, OtherClefs};
use crate::interval::Interval;
use crate::label::StaffLabel;
use crate::pitch::{Pitch, Step, Tonic};
use crate::transposition::{Printed, Sounding, Transposition, Written};
use core::fmt;
use core::str::FromStr;

/// The two habits of writing horn, trumpet and basset horn in the bass clef.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum BassNotation {
    /// An octave lower than the treble staff would have it; the rule before about 1900.
    Old,
    /// As the treble staff goes on downwards.
    New,
}

impl BassNotation {
    /// The word in links and in the JavaScript package.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Old => "old",
            Self::New => "new",
        }
    }
}

/// The system by which a bass clarinet or a Wagner tuba is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Scheme {
    /// Bass clarinet in the treble clef, sounding a ninth lower.
    French,
    /// Bass clarinet in either clef, sounding a second lower.
    German,
    /// Bass clarinet: bass clef a second, treble clef a ninth lower.
    Russian,
    /// Bass clarinet in the bass clef, still a ninth lower.
    Italian,
    /// Wagner tubas in B-flat (a second lower) and F (a fifth lower), as in *Rheingold*.
    Rheingold,
    /// Wagner tubas written in E-flat (a sixth lower) and B-flat basso (a ninth lower), as in
    /// *Götterdämmerung*.
    Goetterdaemmerung,
    /// Wagner tubas in B-flat basso (a ninth lower) and F basso (a twelfth lower), as in *Alpensinfonie*.
    Alpensinfonie,
}

impl Scheme {
    /// The four systems of the bass clarinet.
    pub const BASS_CLARINET: [Self; 4] = [Self::French, Self::German, Self::Russian, Self::Italian];
    /// The three systems of the Wagner tuba.
    pub const WAGNER_TUBA: [Self; 3] = [Self::Rheingold, Self::Goetterdaemmerung, Self::Alpensinfonie];

    /// The word in links and in the JavaScript package.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::French => "french",
            Self::German => "german",
            Self::Russian => "russian",
            Self::Italian => "italian",
            Self::Rheingold => "rheingold",
            Self::Goetterdaemmerung => "goetterdaemmerung",
            Self::Alpensinfonie => "alpensinfonie",
        }
    }

    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::French => "French: treble clef, a ninth lower",
            Self::German => "German: both clefs, a second lower",
            Self::Russian => "Russian: bass clef a second, treble clef a ninth lower",
            Self::Italian => "Italian: bass clef, a ninth lower",
            Self::Rheingold => "as in Rheingold: in B-flat and F",
            Self::Goetterdaemmerung => "as in Götterdämmerung: in E-flat and low B-flat",
            Self::Alpensinfonie => "as in Alpensinfonie: in low B-flat and low F",
        }
    }

    /// The systems an instrument is written by; empty where there is only one.
    ///
    /// ```
    /// # use crookwise_theory::{Instrument, Scheme};
    /// assert_eq!(Scheme::of(Instrument::by_id("bcl_a").unwrap()).len(), 4);
    /// assert!(Scheme::of(Instrument::by_id("flute").unwrap()).is_empty());
    /// ```
    #[must_use]
    pub fn of(instrument: &Instrument) -> &'static [Self] {
        match instrument.systems {
            Some(Systems::BassClarinet) => &Self::BASS_CLARINET,
            Some(Systems::TenorWagnerTuba | Systems::BassWagnerTuba) => &Self::WAGNER_TUBA,
            None => &[],
        }
    }
}

/// Instruments that are written by several systems.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Systems {
    /// Bass clarinets: a second lower than written, or an octave below that.
    BassClarinet,
    /// Wagner tubas of the higher size.
    TenorWagnerTuba,
    /// Wagner tubas of the lower size.
    BassWagnerTuba,
}

impl Systems {
    /// How the instrument of a row sounds by a system and in a clef.
    fn transposition(self, row: &Instrument, scheme: Scheme, clef: Clef) -> Transposition {
        match (self, scheme) {
            (Self::BassClarinet, _) => {
                let own = row.transposition.unwrap_or_default().0;
                let second = if own.steps <= -7 { own + Interval::OCTAVE } else { own };
                let near = match scheme {
                    Scheme::German => true,
                    Scheme::Russian => clef.sign == ClefSign::F,
                    _ => false,
                };
                Transposition(if near { second } else { second - Interval::OCTAVE })
            }
            (Self::TenorWagnerTuba, Scheme::Goetterdaemmerung) => Transposition::new(-5, -9),
            (Self::TenorWagnerTuba, Scheme::Alpensinfonie)
            | (Self::BassWagnerTuba, Scheme::Goetterdaemmerung) => Transposition::new(-8, -14),
            (Self::TenorWagnerTuba, _) => Transposition::new(-1, -2),
            (Self::BassWagnerTuba, Scheme::Alpensinfonie) => Transposition::new(-11, -19),
            (Self::BassWagnerTuba, _) => Transposition::new(-4, -7),
        }
    }
}

impl FromStr for Scheme {
    type Err = UnknownScheme;

    fn from_str(text: &str) -> Result<Self, UnknownScheme> {
        let all = Self::BASS_CLARINET.into_iter().chain(Self::WAGNER_TUBA);
        all.into_iter().find(|scheme| scheme.id() == text).ok_or(UnknownScheme)
    }
}

/// A system of notation that is not known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct UnknownScheme;

impl fmt::Display for UnknownScheme {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("the systems known are french, german, russian and italian for the bass clarinet, rheingold, goetterdaemmerung and alpensinfonie for the Wagner tuba")
    }
}

impl core::error::Error for UnknownScheme {}

/// How a staff is printed, as far as the label does not say it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Habits {
    /// The clef.
    pub clef: Clef,
    /// Old or new bass-clef notation; `None` for the habit of the instrument.
    pub bass: Option<BassNotation>,
    /// The system; `None` for the usual one.
    pub scheme: Option<Scheme>,
    /// The page is printed at sounding pitch.
    pub at_pitch: bool,
}

impl Habits {
    /// A plain staff in a clef.
    #[must_use]
    pub const fn of(clef: Clef) -> Self {
        Self { clef, bass: None, scheme: None, at_pitch: false }
    }
}

/// The two steps from paper to sound on one staff.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Notation {
    /// From printed to written.
    pub printed_to_written: Interval,
    /// From written to sounding.
    pub transposition: Transposition,
    /// The bass notation that was used, where the staff has a choice.
    pub bass: Option<BassNotation>,
    /// The system that was used, where the instrument has a choice.
    pub scheme: Option<Scheme>,
}

impl Notation {
    /// How a staff is read.
    #[must_use]
    pub fn of(staff: &StaffLabel, habits: Habits) -> Self {
        let scheme = scheme(staff, habits);
        let mut transposition = by_clef_and_scheme(staff, habits.clef, scheme);
        // The octave is shifted by the mark at the clef or by the instrument, never by both.
        let numbers = transposition.to_musicxml();
        let mark = i32::from(habits.clef.octave());
        if mark != 0 && mark.signum() == numbers.octave_change.signum() {
            let shared = mark.abs().min(numbers.octave_change.abs()) * mark.signum();
            transposition = Transposition(transposition.0 - Interval::octaves(shared));
        }
        let bass = bass_notation(staff, habits);
        let printed_to_written = match (habits.at_pitch, bass) {
            (true, _) => -transposition.0,
            (false, Some(BassNotation::Old)) => Interval::OCTAVE,
            _ => Interval::UNISON,
        };
        Self { printed_to_written, transposition, bass, scheme }
    }

    /// What the player reads.
    #[must_use]
    pub fn written(&self, printed: Printed) -> Written {
        Written(printed.0 + self.printed_to_written)
    }

    /// What stands on the paper for it.
    #[must_use]
    pub fn printed(&self, written: Written) -> Printed {
        Printed(written.0 + -self.printed_to_written)
    }

    /// What is heard.
    #[must_use]
    pub fn sounding(&self, written: Written) -> Sounding {
        self.transposition.to_sounding(written)
    }

    /// From the paper to the ear in one interval.
    #[must_use]
    pub fn printed_to_sounding(&self) -> Interval {
        self.printed_to_written + self.transposition.0
    }

    /// The same staff with the drums read at pitch where the printed letters ask for it.
    #[must_use]
    pub fn for_letters(self, staff: &StaffLabel, letters: impl IntoIterator<Item = Tonic>) -> Self {
        if staff.drums.is_empty() || drums_transpose(&staff.drums, letters) {
            self
        } else {
            Self { transposition: Transposition::NONE, ..self }
        }
    }
}

/// Whether drums are printed as C and G and sound the notes the label names: only where nothing but C and G is
/// printed and the label names others. A page that prints only notes the label names is at pitch. Common
/// practice; transposing drums were usual until about 1800.
#[must_use]
pub fn drums_transpose(drums: &[Tonic], letters: impl IntoIterator<Item = Tonic>) -> bool {
    let (mut any, mut unnamed) = (false, false);
    for letter in letters {
        if letter.alter != 0 || !matches!(letter.step, Step::C | Step::G) {
            return false;
        }
        any = true;
        unnamed |= !drums.contains(&letter);
    }
    any && unnamed
}

/// Old notation unless told otherwise, where the instrument has the habit and the clef is a plain F clef: an
/// octave mark at the clef has already undone it.
fn bass_notation(staff: &StaffLabel, habits: Habits) -> Option<BassNotation> {
    let open = staff.instrument.old_bass
        && habits.clef.sign == ClefSign::F
        && habits.clef.octave() == 0
        && !habits.at_pitch;
    open.then(|| habits.bass.unwrap_or(BassNotation::Old))
}

/// The system of notation: as told, else by the label's language and the clef.
fn scheme(staff: &StaffLabel, habits: Habits) -> Option<Scheme> {
    let choice = Scheme::of(staff.instrument);
    if let Some(told) = habits.scheme.filter(|told| choice.contains(told)) {
        return Some(told);
    }
    match staff.instrument.scheme {
        // A bass clef tells the German system; J. Alder 2020 lists the four.
        Some(Scheme::French) if habits.clef.sign == ClefSign::F => Some(Scheme::German),
        usual => usual,
    }
}

/// The transposition of the label, changed where clef or system say otherwise.
fn by_clef_and_scheme(staff: &StaffLabel, clef: Clef, scheme: Option<Scheme>) -> Transposition {
    let label = staff.transposition;
    if let (Some(systems), Some(scheme)) = (staff.instrument.systems, scheme) {
        return systems.transposition(staff.instrument, scheme, clef);
    }
    let bass_clef = clef.sign == ClefSign::F;
    match staff.instrument.other_clefs {
        // Their octave belongs to the treble clef: in the C clef of older scores and in the bass clef they stand at
        // pitch. Common practice.
        OtherClefs::AtPitchOutsideG if clef.sign != ClefSign::G => Transposition::NONE,
        OtherClefs::AtPitchInF if bass_clef => Transposition::NONE,
        OtherClefs::OctaveHigherInF if bass_clef => Transposition(label.0 + Interval::OCTAVE),
        _ => label,
    }
}

/// The pitch that a place on the staff prints under a clef and a signature.
#[must_use]
pub fn printed_at(
    clef: Clef,
    place: crate::clef::StaffPosition,
    signature: crate::key::Signature,
) -> Printed {
    let natural = clef.pitch_at(place);
    Printed(Pitch { alter: signature.alteration(natural.step), ..natural })
}
