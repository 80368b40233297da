//! Numbers as files have them.

use crookwise_score::score::Quarters;

/// A number, whole or with a decimal point, as an exact fraction.
pub(super) fn fraction(text: &str) -> Option<(i64, i64)> {
    let text = text.trim();
    let (sign, digits) = match text.strip_prefix('-') {
        Some(digits) => (-1, digits),
        None => (1, text.strip_prefix('+').unwrap_or(text)),
    };
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let part = part.trim_end_matches('0');
    let are_digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    if (whole.is_empty() && part.is_empty()) || !are_digits(whole) || !are_digits(part) || part.len() > 9 {
        return None;
    }
    let parsed = |text: &str| if text.is_empty() { Some(0) } else { text.parse::<i64>().ok() };
    let scale = 10_i64.pow(u32::try_from(part.len()).ok()?);
    let numerator = parsed(whole)?.checked_mul(scale)?.checked_add(parsed(part)?)?;
    Some((sign * numerator, scale))
}

/// So many divisions, of which so many make a quarter note.
pub(super) fn divisions((numerator, denominator): (i64, i64), a_quarter: (i64, i64)) -> Option<Quarters> {
    Quarters::new(numerator.checked_mul(a_quarter.1)?, denominator.checked_mul(a_quarter.0)?)
}

/// A whole number.
pub(crate) fn whole<T: core::str::FromStr>(text: &str) -> Option<T> {
    text.trim().parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fractions_are_exact() {
        assert_eq!(fraction(" 12 "), Some((12, 1)));
        assert_eq!(fraction("0.5"), Some((5, 10)));
        assert_eq!(fraction("-1.250"), Some((-125, 100)));
        assert_eq!(fraction(".5"), Some((5, 10)));
        assert_eq!(fraction("+2."), Some((2, 1)));
        for odd in ["", "-", ".", "1e9", "1.2.3", "two", "0.1234567890123", "99999999999999999999"] {
            assert_eq!(fraction(odd), None, "{odd}");
        }
        assert_eq!(divisions((3, 1), (2, 1)).map(Quarters::fraction), Some((3, 2)));
        assert_eq!(divisions((3, 1), (0, 1)), None);
    }
}
