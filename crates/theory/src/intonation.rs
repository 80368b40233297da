//! How far a partial stands from the tuning around it: drift, bending, warmth of the air.

use crate::pitch::{Pitch, Step};
use crate::series::Partial;
use crate::temperament::{Tuning, cents, ratio};
use crate::transposition::{Transposition, Written};

/// The written note on which the brass tunes with the others.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TunedOn {
    /// The crook's own C, partials 4, 8 and so on.
    #[default]
    C,
    /// The crook's G, partials 6, 12 and so on.
    G,
}

/// Degrees Celsius in the air column when the brass tuned and now. Strings and keyboards do not follow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Warmth {
    /// When it tuned, in °C.
    pub tuned_at: f64,
    /// Now, in °C.
    pub playing_at: f64,
}

impl Warmth {
    /// Cents by which every partial has moved: 600·log₂(T₂/T₁) in kelvin. Source: the speed of sound goes with
    /// the square root of the absolute temperature.
    ///
    /// ```
    /// # use crookwise_theory::Warmth;
    /// let warmer = Warmth { tuned_at: 15.0, playing_at: 25.0 };
    /// assert!((warmer.cents() - 29.5).abs() < 0.05);
    /// ```
    #[must_use]
    pub fn cents(self) -> f64 {
        let kelvin = |celsius: f64| (celsius + 273.15).max(1.0);
        cents(kelvin(self.playing_at) / kelvin(self.tuned_at)) / 2.0
    }
}

/// The tuning of the room and how the natural brass stands in it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Intonation {
    /// The tuning of everybody else.
    pub tuning: Tuning,
    /// Where the brass tunes with it.
    pub tuned_on: TunedOn,
    /// Warmth of the air, where it counts.
    pub warmth: Option<Warmth>,
}

impl Intonation {
    /// The written note in tune and the partial it is.
    fn reference(&self) -> (Written, f64) {
        match self.tuned_on {
            TunedOn::C => (Written(Pitch::natural(Step::C, 4)), 4.0),
            TunedOn::G => (Written(Pitch::natural(Step::G, 4)), 6.0),
        }
    }

    /// Cents from a partial to a written note in the tuning: what must be bent, positive upwards.
    #[must_use]
    pub fn bend(&self, from: Partial, written: Written, transposition: Transposition) -> f64 {
        let (reference, number) = self.reference();
        let target = self.tuning.cents(transposition.to_sounding(written).0)
            - self.tuning.cents(transposition.to_sounding(reference).0);
        let natural = cents(f64::from(from.number()) / number) + self.warmth.map_or(0.0, Warmth::cents);
        target - natural
    }

    /// Drift of a partial from its written note, in cents, negative is flat.
    ///
    /// ```
    /// # use crookwise_theory::{Intonation, Partial, Transposition, Written};
    /// let drift = Intonation::default().drift(
    ///     Partial::new(5).unwrap(), Written("E4".parse().unwrap()), Transposition::new(-5, -9));
    /// assert!((drift + 13.686).abs() < 1e-3);
    /// ```
    #[must_use]
    pub fn drift(&self, partial: Partial, written: Written, transposition: Transposition) -> f64 {
        -self.bend(partial, written, transposition)
    }

    /// Frequency of a partial in Hz, as the tube gives it.
    #[must_use]
    pub fn natural_hz(&self, partial: Partial, transposition: Transposition) -> f64 {
        let (reference, number) = self.reference();
        let tuned = self.tuning.frequency(transposition.to_sounding(reference).0);
        tuned * f64::from(partial.number()) / number * ratio(self.warmth.map_or(0.0, Warmth::cents))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::crook::CrookFamily;
    use crate::pitch::Tonic;
    use crate::temperament::Temperament;

    fn drift_of_five(temperament: &str, tonic: Tonic) -> f64 {
        let tuning = Tuning { temperament: Temperament::by_id(temperament).unwrap(), ..Tuning::default() };
        let intonation = Intonation { tuning, ..Intonation::default() };
        let crook = CrookFamily::Horn.in_key(tonic)[0];
        intonation.drift(Partial::new(5).unwrap(), Written("E4".parse().unwrap()), crook.transposition)
    }

    #[test]
    fn the_third_of_the_crook_in_unequal_temperaments() {
        let cases = [
            ("vallotti", Step::C, 0, -5.9),
            ("vallotti", Step::E, -1, -13.7),
            ("vallotti", Step::E, 0, -17.6),
            ("vallotti", Step::B, 0, -21.5),
            ("meantone-quarter", Step::A, -1, -41.1),
        ];
        for (temperament, step, alter, expected) in cases {
            let drift = drift_of_five(temperament, Tonic::new(step, alter));
            assert!((drift - expected).abs() < 0.05, "{temperament} {step:?}: {drift}");
        }
    }

    #[test]
    fn frequency_and_drift_say_the_same() {
        let transposition = Transposition::new(-5, -9);
        let warmth = Some(Warmth { tuned_at: 15.0, playing_at: 22.0 });
        for tuned_on in [TunedOn::C, TunedOn::G] {
            let tuning =
                Tuning { temperament: Temperament::by_id("young").unwrap(), a4: 430.0, ..Tuning::default() };
            let intonation = Intonation { tuning, tuned_on, warmth };
            for (number, note) in [(3, "G3"), (5, "E4"), (7, "Bb4"), (11, "F#5")] {
                let partial = Partial::new(number).unwrap();
                let written = Written(note.parse().unwrap());
                let target = tuning.frequency(transposition.to_sounding(written).0);
                let drift = cents(intonation.natural_hz(partial, transposition) / target);
                assert!((drift - intonation.drift(partial, written, transposition)).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn tuned_on_g_puts_the_fifth_in_tune() {
        let intonation = Intonation { tuned_on: TunedOn::G, ..Intonation::default() };
        let horn = Transposition::new(-5, -9);
        let drift = |number, note: &str| {
            intonation.drift(Partial::new(number).unwrap(), Written(note.parse().unwrap()), horn)
        };
        assert!(drift(6, "G4").abs() < 1e-9);
        assert!((drift(8, "C5") + 1.955).abs() < 1e-3);
    }
}
