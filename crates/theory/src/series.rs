//! The natural series as horn and trumpet write it: which partial a written note is.

use crate::crook::CrookFamily;
use crate::pitch::Pitch;
use crate::temperament::cents;

/// A partial of the natural series, 1 to 32; the second is written C3 on horn and trumpet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Partial(u8);

/// The lowest partial that a note is ever read as: the first is not to be had on horn and trumpet.
const LOWEST: u8 = 2;

/// MIDI number of written C2, the first partial.
const FIRST: i32 = 36;

/// Semitones above the first partial at which each partial is written, from the first to the 32nd.
/// Partials 11 and 13 are written two ways. Source: Grove 1879, vol. 1, pp. 749–750; above 16 common practice.
const WRITTEN: [&[i32]; 32] = [
    &[0],
    &[12],
    &[19],
    &[24],
    &[28],
    &[31],
    &[34],
    &[36],
    &[38],
    &[40],
    &[41, 42],
    &[43],
    &[45, 44],
    &[46],
    &[47],
    &[48],
    &[49],
    &[50],
    &[51],
    &[52],
    &[53],
    &[54],
    &[54],
    &[55],
    &[56],
    &[57],
    &[57],
    &[58],
    &[58],
    &[59],
    &[59],
    &[60],
];

impl Partial {
    /// A partial by its number, 1 to 32.
    #[must_use]
    pub const fn new(number: u8) -> Option<Self> {
        if number >= 1 && number <= 32 { Some(Self(number)) } else { None }
    }

    /// Its number, 1 to 32.
    #[must_use]
    pub const fn number(self) -> u8 {
        self.0
    }

    /// Cents above the first partial: 1200·log₂ n.
    #[must_use]
    pub fn cents(self) -> f64 {
        cents(f64::from(self.0))
    }

    /// MIDI numbers of the notes it is written as; the first is the usual one.
    #[must_use]
    pub fn written_midi(self) -> Vec<i32> {
        let above = WRITTEN.get(usize::from(self.0) - 1).copied().unwrap_or(&[]);
        above.iter().map(|semitones| FIRST + semitones).collect()
    }

    /// Cents between the partial and the equal-tempered key nearest to it, negative is flat.
    ///
    /// ```
    /// # use crookwise_theory::Partial;
    /// assert!((Partial::new(5).unwrap().deviation() + 13.686).abs() < 1e-3);
    /// ```
    #[must_use]
    pub fn deviation(self) -> f64 {
        let above = self.cents();
        above - libm::round(above / 100.0) * 100.0
    }

    /// The partials a player of the family uses: horn 2 to 16, trumpet 3 to 18 (beyond 12 as a clarino player).
    /// Sources: *Encyclopædia Britannica* 1911 "Horn"; Koechlin 1948.
    #[must_use]
    pub const fn range(family: CrookFamily) -> (u8, u8) {
        match family {
            CrookFamily::Horn => (2, 16),
            CrookFamily::Trumpet => (3, 18),
        }
    }

    /// The classical stock: horn 2 to 12, trumpet 3 to 12.
    #[must_use]
    pub const fn classical(family: CrookFamily) -> (u8, u8) {
        match family {
            CrookFamily::Horn => (2, 12),
            CrookFamily::Trumpet => (3, 12),
        }
    }

    /// The partial a written note is, by its key on a keyboard: F5 and F-sharp 5 are both 11, A5 is 13 and so is
    /// A-flat 5. `None` off the series, above the family's range and below partial 2.
    ///
    /// ```
    /// # use crookwise_theory::{CrookFamily, Partial};
    /// let of = |note: &str| Partial::of(CrookFamily::Horn, note.parse().unwrap()).map(Partial::number);
    /// assert_eq!((of("E5"), of("F5"), of("F#5"), of("A4")), (Some(10), Some(11), Some(11), None));
    /// ```
    #[must_use]
    pub fn of(family: CrookFamily, written: Pitch) -> Option<Self> {
        let (_, high) = Self::range(family);
        let above = written.midi().saturating_sub(FIRST);
        (LOWEST..=high).map(Self).find(|partial| {
            WRITTEN.get(usize::from(partial.0) - 1).is_some_and(|written| written.contains(&above))
        })
    }

    /// Whether the partial lies below the family's range: written C3 is the trumpet's second partial, which is not
    /// played as a rule. Source: common practice; the range is Koechlin's (1948).
    #[must_use]
    pub const fn is_below_range(self, family: CrookFamily) -> bool {
        self.0 < Self::range(family).0
    }

    /// Whether a written note of the horn is factitious: below the series, by lip alone, for a low horn with
    /// time to find it. G2 after Grove 1879, vol. 1, p. 751; the others from memory.
    #[must_use]
    pub fn is_factitious(family: CrookFamily, written: Pitch) -> bool {
        family == CrookFamily::Horn && matches!(written.midi(), 43..=47 | 49..=53)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_classical_stock_and_its_edges() {
        let of = |family, note: &str| Partial::of(family, note.parse().unwrap()).map(Partial::number);
        assert_eq!(of(CrookFamily::Horn, "C3"), Some(2));
        // Not played as a rule, but no other partial.
        assert_eq!(of(CrookFamily::Trumpet, "C3"), Some(2));
        assert!(
            Partial(2).is_below_range(CrookFamily::Trumpet) && !Partial(2).is_below_range(CrookFamily::Horn)
        );
        assert_eq!(of(CrookFamily::Horn, "C6"), Some(16));
        assert_eq!(of(CrookFamily::Horn, "D6"), None);
        assert_eq!(of(CrookFamily::Trumpet, "D6"), Some(18));
        assert_eq!(of(CrookFamily::Horn, "Ab5"), Some(13));
        assert_eq!(of(CrookFamily::Horn, "C2"), None);
        assert!(Partial::is_factitious(CrookFamily::Horn, "G2".parse().unwrap()));
        assert!(!Partial::is_factitious(CrookFamily::Horn, "G3".parse().unwrap()));
    }

    #[test]
    fn a_partial_is_written_where_it_sounds() {
        for number in 1..=32 {
            let partial = Partial::new(number).unwrap();
            for midi in partial.written_midi() {
                let off = partial.cents() - f64::from((midi - FIRST) * 100);
                assert!(off.abs() < 60.0, "partial {number} at {midi}: {off}");
            }
        }
        assert!(Partial::new(0).is_none() && Partial::new(33).is_none());
    }
}
