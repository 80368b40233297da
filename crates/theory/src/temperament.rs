//! Temperaments on the twelve keys, and the frequency a key has in one.

use crate::pitch::{Pitch, Step, Tonic};
use crate::tables::TEMPERAMENTS;

/// A temperament of twelve keys. Meantone and the like are taken by keys of a keyboard, not by spelling.
#[derive(Debug)]
pub struct Temperament {
    /// The name in links and in the JavaScript package: one of a closed list.
    pub id: &'static str,
    /// What defines it.
    pub definition: &'static str,
    /// Cents of the twelve keys above its root, from the root upwards.
    pub(crate) cents: [f64; 12],
}

impl Temperament {
    /// Equal temperament.
    #[must_use]
    pub fn equal() -> &'static Self {
        &TEMPERAMENTS[0]
    }

    /// The temperament with that id.
    #[must_use]
    pub fn by_id(id: &str) -> Option<&'static Self> {
        TEMPERAMENTS.iter().find(|temperament| temperament.id == id)
    }

    /// Its short name on the screen.
    #[must_use]
    pub fn name(&self) -> &'static str {
        match self.id {
            "equal" => "Equal temperament",
            "pythagorean" => "Pythagorean",
            "meantone-quarter" => "Quarter-comma meantone",
            "meantone-sixth" => "Sixth-comma meantone",
            "werckmeister-3" => "Werckmeister III",
            "kirnberger-3" => "Kirnberger III",
            "vallotti" => "Vallotti",
            "young" => "Young (six narrowed fifths)",
            "just" => "Just intonation",
            other => other,
        }
    }

    /// Cents of the twelve keys above the root, from the root upwards.
    #[must_use]
    pub const fn cents(&self) -> &[f64; 12] {
        &self.cents
    }
}

impl PartialEq for Temperament {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

impl Eq for Temperament {}

/// A temperament laid on a keyboard: from which key it is tuned and how high.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tuning {
    /// The temperament.
    pub temperament: &'static Temperament,
    /// The key it starts from; the tables are built on C.
    pub root: Tonic,
    /// Frequency of A4 in Hz, kept within [`Tuning::A4_RANGE`].
    pub a4: f64,
}

impl Default for Tuning {
    fn default() -> Self {
        Self { temperament: Temperament::equal(), root: Tonic::new(Step::C, 0), a4: 440.0 }
    }
}

impl Tuning {
    /// Lowest and highest reference pitch in Hz: Ellis's surveys run from 370 to 567.
    pub const A4_RANGE: (f64, f64) = (370.0, 570.0);

    /// Cents above C0 of a pitch on the twelve keys, octaves included. The key C of octave 0 counts from the
    /// root's own place, so only differences mean something.
    #[must_use]
    pub fn cents(&self, pitch: Pitch) -> f64 {
        let from_root = pitch.semitones().saturating_sub(self.root.pitch_class());
        let within = self.temperament.cents.get(from_root.rem_euclid(12) as usize).copied().unwrap_or(0.0);
        f64::from(from_root.div_euclid(12)) * 1200.0 + within
    }

    /// Frequency in Hz.
    ///
    /// ```
    /// # use crookwise_theory::Tuning;
    /// let c4 = Tuning::default().frequency("C4".parse().unwrap());
    /// assert!((c4 - 261.625_565).abs() < 1e-6);
    /// ```
    #[must_use]
    pub fn frequency(&self, pitch: Pitch) -> f64 {
        let above = self.cents(pitch) - self.cents(Pitch::natural(Step::A, 4));
        self.a4 * ratio(above)
    }
}

/// The frequency ratio of so many cents.
#[must_use]
pub fn ratio(cents: f64) -> f64 {
    // Not `exp2`, whose table is four kilobytes of the app.
    libm::exp(cents * (core::f64::consts::LN_2 / 1200.0))
}

/// The cents of a frequency ratio.
#[must_use]
pub fn cents(ratio: f64) -> f64 {
    1200.0 * libm::log2(ratio)
}
