//! Reading by an imagined clef: the note stays where it is, the clef and the signature change.
//!
//! Sources: A. Savard, *Principes de la musique et méthode de transposition*, §§ 181–192; A. Elwart,
//! *Petit manuel d'harmonie*.

use crate::clef::Clef;
use crate::interval::Interval;
use crate::key::Signature;
use crate::pitch::{Pitch, Step};

/// Which clef to imagine, and what to do besides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ClefReading {
    /// The clef to imagine.
    pub clef: Clef,
    /// Octaves to add to what is read there, negative is lower.
    pub octaves: i32,
    /// Sharps (positive) or flats (negative) to add to the signature.
    pub fifths: i32,
    /// The signature to imagine.
    pub signature: Signature,
}

/// A printed accidental, read as another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ReadSign {
    /// The accidental as it must be read, semitones from the natural letter; `None` where none is printed.
    pub alter: Option<i32>,
    /// Whether it differs from the printed one.
    pub changed: bool,
}

impl ClefReading {
    /// The clef to imagine on a staff whose printed notes sound `interval` away.
    ///
    /// ```
    /// # use crookwise_theory::{Clef, ClefReading, Interval, Signature};
    /// let reading = ClefReading::of(Clef::TREBLE, Signature::NONE, Interval::new(-5, -9));
    /// assert_eq!((reading.clef, reading.octaves, reading.fifths), (Clef::BASS, 1, -3));
    /// ```
    #[must_use]
    pub fn of(printed: Clef, signature: Signature, interval: Interval) -> Self {
        let bottom = printed.bottom_line();
        let sounding_bottom = Pitch::from_diatonic(bottom.diatonic().saturating_add(interval.steps), 0);
        let clef = if sounding_bottom.step == bottom.step {
            printed
        } else {
            match sounding_bottom.step {
                Step::E => Clef::TREBLE,
                Step::C => Clef::SOPRANO,
                Step::A => Clef::MEZZO_SOPRANO,
                Step::F => Clef::ALTO,
                Step::D => Clef::TENOR,
                Step::B => Clef::BARITONE,
                Step::G => Clef::BASS,
            }
        };
        let octaves = sounding_bottom.diatonic().saturating_sub(clef.bottom_line().diatonic()) / 7;
        Self { clef, octaves, fifths: interval.fifths(), signature: signature.transposed(interval) }
    }

    /// How a printed accidental must be read there (Savard §§ 188–192): of the signs added to the signature,
    /// sharps raise and flats lower the accidentals before the letters they stand on.
    #[must_use]
    pub fn sign(self, printed: Pitch, printed_signature: Signature, interval: Interval) -> ReadSign {
        if printed.alter == printed_signature.alteration(printed.step) {
            return ReadSign { alter: None, changed: false };
        }
        let letter = Step::from_index(printed.step.index().saturating_add(interval.steps.rem_euclid(7)));
        let shift = Signature(self.fifths).alteration(letter);
        ReadSign { alter: Some(printed.alter.saturating_add(shift)), changed: shift != 0 }
    }
}
