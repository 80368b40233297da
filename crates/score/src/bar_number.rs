//! What a score prints at the beginning of a bar.

use core::fmt;

/// Letters and digits that a number has at most.
const LONGEST: usize = 8;

/// The number of a bar as it is printed: `66`, `12a`, or nothing.
///
/// ```
/// # use crookwise_score::BarNumber;
/// let number = BarNumber::new("66").unwrap();
/// assert_eq!(number.next().as_str(), "67");
/// assert_eq!(BarNumber::new("66 bis"), None);
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct BarNumber {
    /// Letters of ASCII, then zeros.
    letters: [u8; LONGEST],
}

impl BarNumber {
    /// A bar without a number.
    pub const NONE: Self = Self { letters: [0; LONGEST] };

    /// A number of at most eight letters and digits; `None` where it is something else.
    #[must_use]
    pub fn new(text: &str) -> Option<Self> {
        let mut number = Self::NONE;
        let room = number.letters.get_mut(..text.len())?;
        room.copy_from_slice(text.as_bytes());
        text.bytes().all(|letter| letter.is_ascii_alphanumeric()).then_some(number)
    }

    /// As it is printed.
    #[must_use]
    pub fn as_str(&self) -> &str {
        core::str::from_utf8(&self.letters).unwrap_or_default().trim_end_matches('\0')
    }

    /// What the bar after it is numbered, where nothing else is said: the next number, or none.
    #[must_use]
    pub fn next(self) -> Self {
        let next = self.as_str().parse::<u32>().ok().and_then(|number| number.checked_add(1));
        next.and_then(|number| Self::new(&number.to_string())).unwrap_or(Self::NONE)
    }
}

impl fmt::Display for BarNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short_and_plain() {
        for text in ["", "1", "66", "12a", "X1", "12345678"] {
            assert_eq!(BarNumber::new(text).unwrap().as_str(), text);
        }
        for text in ["123456789", "12 a", "é", "1.2", "1_2", "\u{0}"] {
            assert_eq!(BarNumber::new(text), None, "{text:?}");
        }
        assert_eq!(BarNumber::new(""), Some(BarNumber::NONE));
    }

    #[test]
    fn the_next_is_one_more() {
        let next = |text: &str| BarNumber::new(text).unwrap().next().to_string();
        assert_eq!([next("9"), next("99"), next("0")], ["10", "100", "1"]);
        assert_eq!([next("12a"), next(""), next("99999999")], ["", "", ""]);
    }
}
