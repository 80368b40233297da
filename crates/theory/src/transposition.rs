//! From what is written to what sounds: the three senses of a pitch and the one thing that converts two of them.

use crate::interval::Interval;
use crate::pitch::Pitch;
use core::fmt;

/// What stands on the paper under its clef, before any habit of notation is undone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Printed<T = Pitch>(pub T);

/// What the player reads: printed, with old bass-clef notation undone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Written<T = Pitch>(pub T);

/// What is heard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Sounding<T = Pitch>(pub T);

impl<T: fmt::Display> fmt::Display for Printed<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}
impl<T: fmt::Display> fmt::Display for Written<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}
impl<T: fmt::Display> fmt::Display for Sounding<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// The interval from written to sounding, octaves included.
///
/// ```
/// # use crookwise_theory::{Transposition, Written};
/// let horn_in_e_flat = Transposition::new(-5, -9);
/// let sounding = horn_in_e_flat.to_sounding(Written("F#5".parse().unwrap()));
/// assert_eq!(sounding.to_string(), "A4");
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Transposition(pub Interval);

/// The three numbers of the MusicXML element `<transpose>`, added to the written pitch
/// (MusicXML 4.0, `transpose`): `octave_change` is counted apart from the other two.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct MusicXmlTranspose {
    /// Letters, octaves of `octave_change` excluded.
    pub diatonic: i32,
    /// Semitones, octaves of `octave_change` excluded.
    pub chromatic: i32,
    /// Octaves on top of the other two.
    pub octave_change: i32,
}

impl Transposition {
    /// Sounds as written.
    pub const NONE: Self = Self(Interval::UNISON);

    /// So many letters and semitones from written to sounding, octaves included.
    #[must_use]
    pub const fn new(steps: i32, semitones: i32) -> Self {
        Self(Interval::new(steps, semitones))
    }

    /// What a written pitch sounds.
    #[must_use]
    pub fn to_sounding(self, written: Written) -> Sounding {
        Sounding(written.0 + self.0)
    }

    /// What must be written for a pitch to sound, in the strict spelling.
    #[must_use]
    pub fn to_written(self, sounding: Sounding) -> Written {
        Written(sounding.0 + -self.0)
    }

    /// As MusicXML has it: whole octaves in `octave_change`, the rest within seven letters.
    #[must_use]
    pub fn to_musicxml(self) -> MusicXmlTranspose {
        let octave_change = self.0.steps / 7;
        MusicXmlTranspose {
            diatonic: self.0.steps % 7,
            chromatic: self.0.semitones.saturating_sub(octave_change.saturating_mul(12)),
            octave_change,
        }
    }

    /// From the three numbers of MusicXML, in whichever way they share out the octaves.
    #[must_use]
    pub fn from_musicxml(numbers: MusicXmlTranspose) -> Self {
        let shift = Interval::octaves(numbers.octave_change);
        Self(Interval::new(numbers.diatonic, numbers.chromatic) + shift)
    }

    /// From a MusicXML transposition that says nothing of letters: the steps of `label` where its semitones
    /// agree, else the usual interval of that many semitones.
    #[must_use]
    pub fn from_chromatic(chromatic: i32, octave_change: i32, label: Option<Self>) -> Self {
        let semitones = chromatic.saturating_add(octave_change.saturating_mul(12));
        match label {
            Some(label) if label.0.semitones == semitones => label,
            _ => Self(Interval::usual(semitones)),
        }
    }

    /// What it adds to a written key on the line of fifths to give the sounding key.
    #[must_use]
    pub fn fifths(self) -> i32 {
        self.0.fifths()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn octaves_stand_apart_in_musicxml() {
        let cases = [
            ((-7, -12), (0, 0, -1)),
            ((-8, -14), (-1, -2, -1)),
            ((6, 10), (6, 10, 0)),
            ((14, 24), (0, 0, 2)),
        ];
        for ((steps, semitones), (diatonic, chromatic, octave_change)) in cases {
            let transposition = Transposition::new(steps, semitones);
            let numbers = MusicXmlTranspose { diatonic, chromatic, octave_change };
            assert_eq!(transposition.to_musicxml(), numbers);
            assert_eq!(Transposition::from_musicxml(numbers), transposition);
        }
        // A horn in E-flat told as "up a third, down an octave" is the same horn.
        let other = MusicXmlTranspose { diatonic: 2, chromatic: 3, octave_change: -1 };
        assert_eq!(Transposition::from_musicxml(other), Transposition::new(-5, -9));
    }

    #[test]
    fn letters_come_from_the_label_where_musicxml_has_none() {
        let f_sharp = Transposition::new(-4, -6);
        let g_flat = Transposition::new(-3, -6);
        assert_eq!(Transposition::from_chromatic(-6, 0, Some(g_flat)), g_flat);
        assert_eq!(Transposition::from_chromatic(-6, 0, None), f_sharp);
        assert_eq!(Transposition::from_chromatic(-9, 0, Some(g_flat)), Transposition::new(-5, -9));
        assert_eq!(Transposition::from_chromatic(0, -1, None), Transposition::new(-7, -12));
    }
}
