//! What is to be heard, as data: tones, and a mix of them that is known to be playable.

use core::fmt;
use crookwise_theory::order::in_order;
use crookwise_theory::{Blown, Family, Instrument, PitchKind};

/// The character of a tone, one for a family of instruments. What each is made of stands in `spectrum.rs`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Colour {
    /// Warm, brighter the louder it is, as brass is.
    #[default]
    Brass,
    /// Few partials and no change with loudness: for a reference beside the brass, and for keyboards and harps.
    Plain,
    /// Air against an edge: hardly more than the first partials.
    Flute,
    /// A reed on a cylinder: the odd partials.
    Clarinet,
    /// A reed on a cone: strongest about one height, the formant.
    Reed,
    /// A bowed string: every partial.
    String,
    /// A voice on an open vowel.
    Voice,
    /// A drum that is tuned: its partials are no whole multiples, and it dies away.
    Drum,
    /// A bar or a bell: the same, with its partials far apart.
    Bar,
}

impl Colour {
    /// All of them.
    pub const ALL: [Self; 9] = [
        Self::Brass,
        Self::Plain,
        Self::Flute,
        Self::Clarinet,
        Self::Reed,
        Self::String,
        Self::Voice,
        Self::Drum,
        Self::Bar,
    ];

    /// That of an instrument.
    ///
    /// ```
    /// use crookwise_sound::Colour;
    /// use crookwise_theory::Instrument;
    /// assert_eq!(Colour::of(Instrument::by_id("cl_a").unwrap()), Colour::Clarinet);
    /// ```
    #[must_use]
    pub const fn of(instrument: &Instrument) -> Self {
        match (instrument.family, instrument.blown) {
            (_, Some(Blown::Edge)) => Self::Flute,
            (_, Some(Blown::Cylinder)) => Self::Clarinet,
            (_, Some(Blown::Cone)) => Self::Reed,
            (Family::Strings, _) => Self::String,
            (Family::Voices, _) => Self::Voice,
            (Family::Percussion, _) if matches!(instrument.pitch, PitchKind::NamedDrums) => Self::Drum,
            (Family::Percussion, _) => Self::Bar,
            (Family::PluckedAndKeyboard, _) => Self::Plain,
            _ => Self::Brass,
        }
    }
}

/// One tone at one steady pitch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tone {
    /// Frequency of its fundamental in Hz, within [`HZ`].
    pub hz: f64,
    /// When it begins, in seconds from the beginning of the mix, not negative.
    pub start: f64,
    /// How long it is heard in seconds, soft start and soft end included; more than 0.
    pub length: f64,
    /// Loudness as amplitude, 0 to 1; 1 is one player as loud as can be.
    pub level: f64,
    /// How many times as loud it ends as it begins, on a straight way between; 1 for a tone that stays. What it comes to lies
    /// within the same range.
    pub swell: f64,
    /// Its character.
    pub colour: Colour,
}

impl Tone {
    /// When it has ended, in seconds from the beginning of the mix.
    #[must_use]
    pub fn end(&self) -> f64 {
        self.start + self.length
    }

    /// Whether it lies within the ranges.
    pub(crate) fn is_playable(&self) -> bool {
        // A number that is not one compares false and fails.
        self.hz >= HZ.0
            && self.hz <= HZ.1
            && self.start >= 0.0
            && self.length > 0.0
            && self.length.is_finite()
            && (0.0..=1.0).contains(&self.level)
            && self.swell >= 0.0
            && (0.0..=1.0).contains(&(self.level * self.swell))
    }
}

/// Lowest and highest fundamental in Hz: what a human ear takes for a tone.
pub const HZ: (f64, f64) = (15.0, 20_000.0);
/// Seconds of the longest mix.
pub const LONGEST: f64 = 900.0;
/// Tones of the fullest mix: sixteen staves of four players through 64 columns.
pub const MOST_TONES: usize = 16 * 4 * 64;

/// Tones that are all playable, in the order in which they begin.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Mix {
    tones: Vec<Tone>,
}

impl Mix {
    /// A mix of these tones, in any order.
    ///
    /// # Errors
    /// A tone outside the ranges of [`Tone`], more than [`MOST_TONES`] tones, an end after [`LONGEST`].
    pub fn new(tones: Vec<Tone>) -> Result<Self, SoundError> {
        if tones.len() > MOST_TONES {
            return Err(SoundError::TooManyTones(tones.len()));
        }
        if let Some(tone) = tones.iter().position(|tone| !tone.is_playable()) {
            return Err(SoundError::Unplayable(tone));
        }
        if tones.iter().any(|tone| tone.end() > LONGEST) {
            return Err(SoundError::TooLong);
        }
        // Stable, so that the sum of the same tones is always taken in the same order.
        Ok(Self { tones: in_order(tones, |tone| tone.start) })
    }

    /// The tones, the earliest first.
    #[must_use]
    pub fn tones(&self) -> &[Tone] {
        &self.tones
    }

    /// When the last tone has ended, in seconds; 0 of no tones.
    #[must_use]
    pub fn seconds(&self) -> f64 {
        self.tones.iter().map(Tone::end).fold(0.0, f64::max)
    }
}

/// Why something cannot be made to sound.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SoundError {
    /// More tones than [`MOST_TONES`]; how many there were.
    TooManyTones(usize),
    /// A tone whose pitch, time or loudness is out of range; its place in the list, from 0.
    Unplayable(usize),
    /// The mix ends after [`LONGEST`].
    TooLong,
    /// A sample rate outside [`crate::SAMPLE_RATES`], in Hz.
    SampleRate(u32),
}

impl fmt::Display for SoundError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooManyTones(count) => {
                write!(
                    f,
                    "These are {count} tones, and at most {MOST_TONES} can be heard at once and in a row."
                )
            }
            Self::Unplayable(place) => {
                write!(f, "Tone {} lies outside what can be heard.", place.saturating_add(1))
            }
            Self::TooLong => f.write_str("This would sound for more than a quarter of an hour."),
            Self::SampleRate(rate) => write!(f, "Sound at {rate} samples a second cannot be made here."),
        }
    }
}

impl core::error::Error for SoundError {}
