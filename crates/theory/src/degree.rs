//! Degrees of a scale: where a note stands in a key.

use crate::key::{Key, Mode};
use crate::pitch::{Pitch, Step, Tonic};
use core::fmt;

/// A degree with its alteration: 3, #4, b7. In minor counted from the natural minor scale, so the leading note
/// is #7.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Degree {
    /// 1 to 7.
    pub number: u8,
    /// Semitones from the scale's own note, positive is raised.
    pub alter: i32,
}

impl Degree {
    /// Where a sounding pitch stands in a key. A spelling far from the key is respelled first: F-sharp in G-flat
    /// major is the first degree.
    ///
    /// ```
    /// # use crookwise_theory::Degree;
    /// let degree = Degree::of("A4".parse().unwrap(), "Eb major".parse().unwrap());
    /// assert_eq!(degree.to_string(), "#4");
    /// ```
    #[must_use]
    pub fn of(pitch: Pitch, key: Key) -> Self {
        let home = key.tonic.fifths();
        let mut fifths = pitch.tonic().fifths();
        // Twelve places on the line of fifths are the same key of the keyboard; -8 (b4) to +10 (#6) is in use.
        if !(-8..=10).contains(&fifths.saturating_sub(home)) {
            fifths = home.saturating_add((fifths.saturating_sub(home).saturating_add(5)).rem_euclid(12) - 5);
        }
        Self::in_scale(Tonic::from_fifths(fifths), key)
    }

    /// Where a written note stands above the crook's own C.
    #[must_use]
    pub fn above_crook(written: Pitch) -> Self {
        Self::in_scale(written.tonic(), Key::new(Tonic::new(Step::C, 0), Mode::Major))
    }

    fn in_scale(tonic: Tonic, key: Key) -> Self {
        let letters = (tonic.step.index() - key.tonic.step.index()).rem_euclid(7);
        Self {
            number: u8::try_from(letters + 1).unwrap_or(1),
            alter: tonic.alter.saturating_sub(key.signature().alteration(tonic.step)),
        }
    }
}

impl fmt::Display for Degree {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.alter < 0 { "b" } else { "#" };
        write!(f, "{}{}", sign.repeat(self.alter.unsigned_abs().min(99) as usize), self.number)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn degrees_of_major_and_minor() {
        let cases = [
            ("G4", "Eb major", "3"),
            ("Db4", "Eb major", "b7"),
            ("B4", "C minor", "#7"),
            ("Eb4", "C minor", "3"),
            ("A4", "C minor", "#6"),
            ("E4", "C minor", "#3"),
            ("F#4", "Gb major", "1"),
            ("C##4", "E major", "#6"),
            ("Cb4", "B major", "1"),
        ];
        for (pitch, key, expected) in cases {
            let degree = Degree::of(pitch.parse().unwrap(), key.parse().unwrap());
            assert_eq!(degree.to_string(), expected, "{pitch} in {key}");
        }
        assert_eq!(Degree::above_crook("F#5".parse().unwrap()).to_string(), "#4");
    }
}
