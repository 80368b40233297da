//! Bars by what is printed: a number, or a rehearsal letter.

use super::FIRST_BARS;
use crate::words;
use crookwise_opened::Summary;

/// The bar of a printed number or a rehearsal letter, counted from 0, the first from a bar on; from the beginning where none
/// follows.
#[must_use]
pub fn find(summary: &Summary, printed: &str, from: u32) -> Option<u32> {
    let wanted = printed.trim();
    let small = |at: usize| u32::try_from(at).ok();
    let same = |other: &str| other.trim().eq_ignore_ascii_case(wanted);
    let numbers =
        || (0..).zip(&summary.bars).filter(|(_, number)| same(number)).filter_map(|(at, _)| small(at));
    let letters = || summary.letters.iter().filter(|(letter, _)| same(letter)).map(|(_, bar)| *bar);
    let number = numbers().find(|bar| *bar >= from).or_else(|| numbers().next());
    number.or_else(|| letters().find(|bar| *bar >= from)).or_else(|| letters().next())
}

/// The first and the last bar of what was typed. A letter as the end means up to the bar before it.
///
/// # Errors
/// What is not in the movement, as a sentence.
pub fn chosen(summary: &Summary, from: &str, to: &str) -> Result<(u32, u32), String> {
    let first = find(summary, from, 0).ok_or_else(|| words::movement::no_such_bar(from))?;
    if to.trim().is_empty() {
        return Ok((first, first));
    }
    let last = find(summary, to, first).ok_or_else(|| words::movement::no_such_bar(to))?;
    let is_letter = !summary.bars.iter().any(|number| number.trim().eq_ignore_ascii_case(to.trim()));
    let last = if is_letter && last > first { last - 1 } else { last };
    if last < first { Err(words::movement::BARS_RUN_BACK.to_owned()) } else { Ok((first, last)) }
}

/// The bars that begin with a rehearsal letter, as they would be typed: to begin with so many as of the movement.
#[must_use]
pub fn from_letter(summary: &Summary, letter: &str, bar: u32) -> (String, String) {
    let printed = |bar: u32| {
        let at = usize::try_from(bar).unwrap_or(usize::MAX);
        summary.bars.get(at.min(summary.bars.len().saturating_sub(1))).cloned().unwrap_or_default()
    };
    let is_plain = find(summary, letter, 0) == Some(bar);
    let more = u32::try_from(FIRST_BARS).unwrap_or(1).saturating_sub(1);
    (if is_plain { letter.to_owned() } else { printed(bar) }, printed(bar.saturating_add(more)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn summary() -> Summary {
        // An upbeat, a minuet and its trio, which begins to count anew.
        let bars = ["0", "1", "2", "3", "4", "1", "2", "3"].map(str::to_owned).into();
        let letters = vec![("A".to_owned(), 2), ("B".to_owned(), 4)];
        Summary { bars, letters, ..Summary::default() }
    }

    #[test]
    fn bars_are_found_by_what_is_printed() {
        let summary = summary();
        assert_eq!(find(&summary, " 3", 0), Some(3));
        assert_eq!(find(&summary, "3", 4), Some(7));
        assert_eq!(find(&summary, "4", 5), Some(4));
        assert_eq!(find(&summary, "b", 0), Some(4));
        assert_eq!(find(&summary, "Z", 0), None);
    }

    #[test]
    fn a_letter_begins_bars() {
        let summary = summary();
        let (from, to) = from_letter(&summary, "A", 2);
        assert_eq!((from.as_str(), to.as_str()), ("A", "1"));
        assert_eq!(chosen(&summary, &from, &to), Ok((2, 5)));
        // Not beyond the end; and where a number says the same, the number of the bar.
        assert_eq!(from_letter(&summary, "B", 6).1, "3");
        assert_eq!(from_letter(&summary, "2", 4).0, "4");
    }

    #[test]
    fn a_stretch_is_two_bars_or_letters() {
        let summary = summary();
        assert_eq!(chosen(&summary, "1", "3"), Ok((1, 3)));
        assert_eq!(chosen(&summary, "4", "2"), Ok((4, 6)));
        assert_eq!(chosen(&summary, "A", "B"), Ok((2, 3)));
        assert_eq!(chosen(&summary, "2", ""), Ok((2, 2)));
        assert_eq!(chosen(&summary, "4", "0"), Err(words::movement::BARS_RUN_BACK.to_owned()));
        assert!(chosen(&summary, "12", "13").unwrap_err().contains("12"));
    }
}
