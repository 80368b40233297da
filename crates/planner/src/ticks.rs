//! Time in whole fractions of a quarter note, so that triplets and sevenths add up.

use core::ops::{Add, Sub};

/// Time in 720,720ths of a quarter note: every division of it by 2 to 16 is whole.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Ticks(pub i64);

/// So many ticks are a quarter note.
const QUARTER: i64 = 720_720;

/// Beyond so many quarter notes nothing is timed: some hundred thousand bars.
const MOST: f64 = 1e6;

impl Ticks {
    /// The time nearest to so many quarter notes; `None` where that is no number, or beyond a million of them.
    #[must_use]
    pub fn of_quarters(quarters: f64) -> Option<Self> {
        // A million quarters are far below what a whole number of 64 bits holds.
        (quarters.abs() <= MOST).then(|| Self((quarters * QUARTER as f64).round() as i64))
    }

    /// A fraction of a quarter note, rounded down to a whole tick; `None` for a zero below the line.
    #[must_use]
    pub const fn of_fraction(above: i64, below: i64) -> Option<Self> {
        if below == 0 {
            return None;
        }
        match above.checked_mul(QUARTER) {
            Some(above) => Some(Self(above.div_euclid(below))),
            None => None,
        }
    }

    /// As a fraction of a quarter note in lowest terms, the number below above zero.
    #[must_use]
    pub const fn fraction(self) -> (i64, i64) {
        let (mut a, mut b) = (self.0.unsigned_abs(), QUARTER.unsigned_abs());
        while b != 0 {
            (a, b) = (b, a % b);
        }
        // A divisor of the ticks of a quarter note.
        (self.0 / a as i64, QUARTER / a as i64)
    }

    /// In quarter notes.
    #[must_use]
    pub fn quarters(self) -> f64 {
        self.0 as f64 / QUARTER as f64
    }
}

impl Add for Ticks {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Ticks {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thirds_add_up() {
        let third = Ticks::of_quarters(1.0 / 3.0).unwrap();
        assert_eq!(third + third + third, Ticks::of_quarters(1.0).unwrap());
        assert_eq!(Ticks::of_fraction(1, 3), Some(third));
        assert_eq!((third.fraction(), Ticks(0).fraction()), ((1, 3), (0, 1)));
        assert_eq!(Ticks::of_quarters(f64::NAN), None);
        assert_eq!(Ticks::of_fraction(1, 0), None);
    }
}
