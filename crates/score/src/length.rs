//! How long a column lasts, in quarter notes.

/// The length of a column in quarter notes, as a fraction in lowest terms.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Length {
    /// Above the line, at least 1.
    numerator: u32,
    /// Below the line, at least 1.
    denominator: u32,
}

impl Length {
    /// So many quarter notes; `None` for a zero above or below the line.
    #[must_use]
    pub fn new(numerator: u32, denominator: u32) -> Option<Self> {
        let divisor = gcd(numerator, denominator);
        if numerator == 0 || denominator == 0 {
            return None;
        }
        Some(Self { numerator: numerator / divisor, denominator: denominator / divisor })
    }

    /// Numerator and denominator in quarter notes.
    #[must_use]
    pub const fn quarters(self) -> (u32, u32) {
        (self.numerator, self.denominator)
    }
}

fn gcd(a: u32, b: u32) -> u32 {
    if b == 0 { a.max(1) } else { gcd(b, a % b) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_in_lowest_terms() {
        assert_eq!(Length::new(6, 4).unwrap().quarters(), (3, 2));
        assert_eq!(Length::new(0, 4), None);
        assert_eq!(Length::new(1, 0), None);
    }
}
