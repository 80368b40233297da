//! Numbers with at most two decimals as text. Frequencies and degrees need no more, and whole numbers of hundredths
//! keep the reading and writing of arbitrary floating-point numbers out of the app.

/// Writes a number rounded to hundredths: `430`, `421.6`, `-3.25`.
pub(crate) fn write(number: f64) -> String {
    let hundredths = (number * 100.0).round() as i64;
    let sign = if hundredths < 0 { "-" } else { "" };
    let (whole, rest) = (hundredths.unsigned_abs() / 100, hundredths.unsigned_abs() % 100);
    match (rest, rest % 10) {
        (0, _) => format!("{sign}{whole}"),
        (_, 0) => format!("{sign}{whole}.{}", rest / 10),
        _ => format!("{sign}{whole}.{rest:02}"),
    }
}

/// Reads a number with at most six digits before the point and two behind it.
pub(crate) fn read(text: &str) -> Option<f64> {
    let (negative, text) = text.strip_prefix('-').map_or((false, text), |rest| (true, rest));
    let (whole, rest) = text.split_once('.').unwrap_or((text, ""));
    let digits =
        |text: &str, most: usize| text.len() <= most && text.bytes().all(|byte| byte.is_ascii_digit());
    if whole.is_empty() || !digits(whole, 6) || !digits(rest, 2) || text.ends_with('.') {
        return None;
    }
    let whole: i32 = whole.parse().ok()?;
    let hundredths: i32 = format!("{rest:0<2}").parse().ok()?;
    let value = f64::from(whole * 100 + hundredths) / 100.0;
    Some(if negative { -value } else { value })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hundredths_go_back_and_forth() {
        for hundredths in -5_000..60_000_i32 {
            let number = f64::from(hundredths) / 100.0;
            assert_eq!(read(&write(number)), Some(number));
        }
    }

    #[test]
    fn what_is_no_such_number_is_refused() {
        for text in
            ["", "-", ".", "4.", ".5", "4.123", "1e9", "NaN", "inf", "+4", "1234567", "4 ", "٤", "--4"]
        {
            assert_eq!(read(text), None, "{text}");
        }
    }
}
