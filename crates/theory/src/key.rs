//! Keys of a movement and key signatures of a staff, both counted on the line of fifths.

use crate::interval::Interval;
use crate::pitch::{PitchError, Step, Tonic};
use core::fmt;
use core::str::FromStr;

/// A key signature: sharps are positive, flats negative. Beyond seven the letters are altered twice.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Signature(pub i32);

/// The order in which sharps enter a signature.
pub const SHARP_ORDER: [Step; 7] = [Step::F, Step::C, Step::G, Step::D, Step::A, Step::E, Step::B];
/// The order in which flats enter a signature.
pub const FLAT_ORDER: [Step; 7] = [Step::B, Step::E, Step::A, Step::D, Step::G, Step::C, Step::F];

impl Signature {
    /// No sharps and no flats.
    pub const NONE: Self = Self(0);

    /// Semitones by which the signature alters a letter.
    ///
    /// ```
    /// # use crookwise_theory::{Signature, Step};
    /// assert_eq!(Signature(-3).alteration(Step::E), -1);
    /// assert_eq!(Signature(8).alteration(Step::F), 2);
    /// ```
    #[must_use]
    pub fn alteration(self, step: Step) -> i32 {
        let place = SHARP_ORDER.iter().position(|&sharp| sharp == step).unwrap_or(0) as i32;
        self.0.saturating_add(6 - place).div_euclid(7)
    }

    /// The signature of what sounds where this one is written.
    #[must_use]
    pub fn transposed(self, by: Interval) -> Self {
        Self(self.0.saturating_add(by.fifths()))
    }

    /// The same signature where it has at most seven signs, else the one with the same keys of a keyboard.
    #[must_use]
    pub fn practical(self) -> Self {
        match self.0 {
            -7..=7 => self,
            far => Self((far.saturating_add(5)).rem_euclid(12) - 5),
        }
    }

    /// In words: "no sharps or flats", "3 flats", "1 sharp".
    #[must_use]
    pub fn words(self) -> String {
        let signs = self.0.unsigned_abs();
        let plural = if signs == 1 { "" } else { "s" };
        match self.0 {
            0 => "no sharps or flats".into(),
            1.. => format!("{signs} sharp{plural}"),
            _ => format!("{signs} flat{plural}"),
        }
    }
}

/// Major or minor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mode {
    /// Major.
    Major,
    /// Minor, its degrees counted from the natural minor scale.
    Minor,
}

/// The key of a movement.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Key {
    /// The keynote.
    pub tonic: Tonic,
    /// Major or minor.
    pub mode: Mode,
}

impl Key {
    /// A key by its keynote and mode.
    #[must_use]
    pub const fn new(tonic: Tonic, mode: Mode) -> Self {
        Self { tonic, mode }
    }

    /// Its signature.
    #[must_use]
    pub fn signature(self) -> Signature {
        let fifths = self.tonic.fifths();
        Signature(match self.mode {
            Mode::Major => fifths,
            Mode::Minor => fifths.saturating_sub(3),
        })
    }

    /// The key moved by an interval.
    #[must_use]
    pub fn transposed(self, by: Interval) -> Self {
        Self { tonic: Tonic::from_fifths(self.tonic.fifths().saturating_add(by.fifths())), ..self }
    }

    /// The thirty keys with at most seven signs, round the fifths from seven flats to seven sharps.
    #[must_use]
    pub fn common(mode: Mode) -> [Self; 15] {
        let shift = if mode == Mode::Minor { 3 } else { 0 };
        core::array::from_fn(|at| Self { tonic: Tonic::from_fifths(at as i32 - 7 + shift), mode })
    }
}

/// "Eb major", "C minor".
impl fmt::Display for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mode = match self.mode {
            Mode::Major => "major",
            Mode::Minor => "minor",
        };
        write!(f, "{} {mode}", self.tonic)
    }
}

/// Why a text is no key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KeyError {
    /// The keynote is not a letter with flats or sharps.
    Tonic(PitchError),
    /// What follows the keynote is neither "major" nor "minor".
    Mode,
    /// The signature would need more than seven signs.
    TooFar,
}

impl fmt::Display for KeyError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Tonic(error) => write!(f, "the keynote is not understood: {error}"),
            Self::Mode => f.write_str("a key ends in \"major\" or \"minor\", as in \"Eb major\""),
            Self::TooFar => f.write_str("a key has at most seven sharps or flats"),
        }
    }
}

impl core::error::Error for KeyError {}

impl FromStr for Key {
    type Err = KeyError;

    fn from_str(text: &str) -> Result<Self, KeyError> {
        let (tonic, mode) = text.trim().split_once(' ').ok_or(KeyError::Mode)?;
        let mode = match mode.trim() {
            "major" => Mode::Major,
            "minor" => Mode::Minor,
            _ => return Err(KeyError::Mode),
        };
        let key = Self { tonic: tonic.parse().map_err(KeyError::Tonic)?, mode };
        if key.signature().0.abs() > 7 { Err(KeyError::TooFar) } else { Ok(key) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signatures_alter_letters_in_their_order() {
        assert!(Step::ALL.iter().all(|&step| Signature::NONE.alteration(step) == 0));
        for fifths in 1..=7_i32 {
            for place in 0..7 {
                let expected = i32::from((place as i32) < fifths);
                assert_eq!(Signature(fifths).alteration(SHARP_ORDER[place]), expected);
                assert_eq!(Signature(-fifths).alteration(FLAT_ORDER[place]), -expected);
            }
        }
        assert_eq!(Signature(-8).alteration(Step::B), -2);
    }

    #[test]
    fn keys_go_back_and_forth() {
        for mode in [Mode::Major, Mode::Minor] {
            for key in Key::common(mode) {
                assert_eq!(key.to_string().parse(), Ok(key));
            }
        }
        assert_eq!("c minor".parse::<Key>().unwrap().signature(), Signature(-3));
        assert_eq!("A# major".parse::<Key>(), Err(KeyError::TooFar));
        assert_eq!("Eb".parse::<Key>(), Err(KeyError::Mode));
        assert_eq!("H minor".parse::<Key>(), Err(KeyError::Tonic(PitchError::Letter)));
    }

    #[test]
    fn signatures_beyond_seven_have_a_practical_twin() {
        assert_eq!(Signature(-8).practical(), Signature(4));
        assert_eq!(Signature(9).practical(), Signature(-3));
        assert_eq!(Signature(-7).practical(), Signature(-7));
        assert_eq!(Signature(19).practical(), Signature(-5));
    }
}
