//! Time in quarter notes, exactly: no triplet is rounded.

use crate::length::Length;
use core::cmp::Ordering;
use core::fmt;

/// A time or a length in quarter notes, as a fraction in lowest terms with a denominator above zero.
///
/// ```
/// use crookwise_score::score::Quarters;
///
/// let third = Quarters::new(1, 3).unwrap();
/// assert_eq!(third.plus(third).and_then(|two| two.plus(third)), Some(Quarters::whole(1)));
/// assert!(third < Quarters::new(1, 2).unwrap());
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Quarters {
    numerator: i64,
    denominator: i64,
}

impl Default for Quarters {
    fn default() -> Self {
        Self::ZERO
    }
}

impl Quarters {
    /// Nothing.
    pub const ZERO: Self = Self { numerator: 0, denominator: 1 };

    /// So many quarter notes.
    #[must_use]
    pub const fn whole(quarters: i32) -> Self {
        Self { numerator: quarters as i64, denominator: 1 }
    }

    /// A fraction of a quarter note; `None` for a denominator of zero or numbers beyond what is exact.
    #[must_use]
    pub fn new(numerator: i64, denominator: i64) -> Option<Self> {
        if denominator > 0 {
            return Some(Self::reduced_small(numerator, denominator));
        }
        Self::reduced(numerator.into(), denominator.into())
    }

    /// In lowest terms, of a denominator above zero; without numbers of 128 bits, which WebAssembly has to make of smaller ones.
    fn reduced_small(numerator: i64, denominator: i64) -> Self {
        let (mut a, mut b) = (numerator.unsigned_abs(), denominator.unsigned_abs());
        while b != 0 {
            (a, b) = (b, a % b);
        }
        let divisor = i64::try_from(a).unwrap_or(1).max(1);
        Self { numerator: numerator / divisor, denominator: denominator / divisor }
    }

    /// Both as numbers so small that their products and sums fit; `None` where they are not.
    fn small(self, other: Self) -> Option<[i64; 4]> {
        const SMALL: i64 = 1 << 30;
        let numbers = [self.numerator, self.denominator, other.numerator, other.denominator];
        numbers.iter().all(|number| -SMALL < *number && *number < SMALL).then_some(numbers)
    }

    fn reduced(numerator: i128, denominator: i128) -> Option<Self> {
        let divisor = gcd(numerator.unsigned_abs(), denominator.unsigned_abs());
        let divisor = i128::try_from(divisor).ok()? * denominator.signum();
        Some(Self {
            numerator: numerator.checked_div(divisor)?.try_into().ok()?,
            denominator: denominator.checked_div(divisor)?.try_into().ok()?,
        })
    }

    /// Numerator and denominator; the denominator is at least 1.
    #[must_use]
    pub const fn fraction(self) -> (i64, i64) {
        (self.numerator, self.denominator)
    }

    /// The sum; `None` where it cannot be had exactly.
    #[must_use]
    pub fn plus(self, other: Self) -> Option<Self> {
        if let Some([a, b, c, d]) = self.small(other) {
            return Some(if b == d {
                Self::reduced_small(a + c, b)
            } else {
                Self::reduced_small(a * d + c * b, b * d)
            });
        }
        let (left, right) = self.crossed(other);
        Self::reduced(left + right, i128::from(self.denominator) * i128::from(other.denominator))
    }

    /// The difference; `None` where it cannot be had exactly.
    #[must_use]
    pub fn minus(self, other: Self) -> Option<Self> {
        if let Some([a, b, c, d]) = self.small(other) {
            return Some(Self::reduced_small(a * d - c * b, b * d));
        }
        let (left, right) = self.crossed(other);
        Self::reduced(left - right, i128::from(self.denominator) * i128::from(other.denominator))
    }

    /// So many times as much, as (above, below); `None` where it cannot be had exactly.
    #[must_use]
    pub fn scaled(self, (above, below): (i64, i64)) -> Option<Self> {
        let (above, below) = (i128::from(above), i128::from(below));
        Self::reduced(i128::from(self.numerator) * above, i128::from(self.denominator) * below)
    }

    /// As a decimal number, where exactness no longer matters: for weighing and for thresholds.
    #[must_use]
    pub fn decimal(self) -> f64 {
        self.numerator as f64 / self.denominator as f64
    }

    /// As the length of a column; `None` where it is not above zero or finer than a column can be.
    #[must_use]
    pub fn as_length(self) -> Option<Length> {
        Length::new(self.numerator.try_into().ok()?, self.denominator.try_into().ok()?)
    }

    /// Both numerators over the common denominator. Products of two 64-bit numbers always fit.
    fn crossed(self, other: Self) -> (i128, i128) {
        (
            i128::from(self.numerator) * i128::from(other.denominator),
            i128::from(other.numerator) * i128::from(self.denominator),
        )
    }
}

impl From<Length> for Quarters {
    fn from(length: Length) -> Self {
        let (numerator, denominator) = length.quarters();
        Self { numerator: numerator.into(), denominator: denominator.into() }
    }
}

impl Ord for Quarters {
    fn cmp(&self, other: &Self) -> Ordering {
        if self.denominator == other.denominator {
            return self.numerator.cmp(&other.numerator);
        }
        if let Some([a, b, c, d]) = self.small(*other) {
            return (a * d).cmp(&(c * b));
        }
        let (left, right) = self.crossed(*other);
        left.cmp(&right)
    }
}

impl PartialOrd for Quarters {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl fmt::Display for Quarters {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.denominator {
            1 => write!(f, "{}", self.numerator),
            denominator => write!(f, "{}/{denominator}", self.numerator),
        }
    }
}

const fn gcd(mut a: u128, mut b: u128) -> u128 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

/// A point in the course of a score: a time, and where it stands among the points at that time. What has a length begins
/// at the last of them; grace notes and notes that were laid without lengths come before it, in their order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Moment {
    /// Quarter notes from the beginning of the score.
    pub time: Quarters,
    /// The place among the points at that time, from 0; [`Moment::MEASURED`] for what has a length.
    pub order: u32,
}

impl Moment {
    /// The order of what has a length.
    pub const MEASURED: u32 = u32::MAX;

    /// The beginning of what has a length.
    #[must_use]
    pub const fn measured(time: Quarters) -> Self {
        Self { time, order: Self::MEASURED }
    }

    /// The place of a note without a length: the first one at a time is 0.
    #[must_use]
    pub const fn without_length(time: Quarters, order: u32) -> Self {
        Self { time, order }
    }

    /// Whether what begins here has a length.
    #[must_use]
    pub const fn is_measured(self) -> bool {
        self.order == Self::MEASURED
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn quarters(numerator: i64, denominator: i64) -> Quarters {
        Quarters::new(numerator, denominator).unwrap()
    }

    #[test]
    fn fractions_are_in_lowest_terms() {
        assert_eq!(quarters(6, 4).fraction(), (3, 2));
        assert_eq!(quarters(3, -2).fraction(), (-3, 2));
        assert_eq!(quarters(0, 5), Quarters::ZERO);
        assert_eq!(Quarters::new(1, 0), None);
        assert_eq!((quarters(3, 2).to_string(), quarters(4, 2).to_string()), ("3/2".into(), "2".into()));
    }

    #[test]
    fn what_cannot_be_exact_is_not_rounded() {
        let fine = quarters(1, i64::MAX);
        assert_eq!(fine.plus(quarters(1, i64::MAX - 1)), None);
        assert_eq!(Quarters::new(i64::MIN, -1), None);
        assert_eq!(quarters(i64::MAX, 1).plus(quarters(1, 1)), None);
        assert_eq!(fine.plus(quarters(-1, i64::MAX)), Some(Quarters::ZERO));
        assert!(quarters(i64::MAX, 1) > quarters(i64::MAX - 1, 1));
        assert_eq!(quarters(2, 3).scaled((3, 4)), Some(quarters(1, 2)));
        assert_eq!((fine.scaled((1, 2)), fine.scaled((1, 0))), (None, None));
    }

    #[test]
    fn small_numbers_and_large_ones_are_one_arithmetic() {
        let edge = 1 << 30;
        for (one, other) in
            [((edge - 1, edge - 1), (edge, edge + 1)), ((i64::MIN, 3), (i64::MIN, 2)), ((7, 8), (8, 9))]
        {
            let (one, other) = (quarters(one.0, one.1), quarters(other.0, other.1));
            let crossed =
                |left: Quarters, right: Quarters| i128::from(left.numerator) * i128::from(right.denominator);
            assert_eq!(one.cmp(&other), crossed(one, other).cmp(&crossed(other, one)));
        }
        assert_eq!(quarters(i64::MIN, 6).fraction(), (i64::MIN / 2, 3));
        assert_eq!(quarters(2, i64::MAX - 1).fraction(), (1, i64::MAX / 2));
    }

    #[test]
    fn grace_notes_come_before_what_they_grace() {
        let time = quarters(3, 2);
        assert!(Moment::without_length(time, 0) < Moment::without_length(time, 1));
        assert!(Moment::without_length(time, 1) < Moment::measured(time));
        assert!(Moment::measured(time) < Moment::without_length(quarters(2, 1), 0));
    }
}
