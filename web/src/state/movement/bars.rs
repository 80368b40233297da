//! Bars by what is printed: a number, or a rehearsal letter.

use super::{FIRST_BARS, Movement};
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

/// The bars that a movement begins with, as they would be typed.
#[must_use]
pub fn first(summary: &Summary) -> (String, String) {
    let printed = |at: usize| summary.bars.get(at).cloned().unwrap_or_default();
    (printed(0), printed(FIRST_BARS.min(summary.bars.len()).saturating_sub(1)))
}

impl Movement {
    /// The bars that the reader has chosen himself; none while they are those that were offered.
    #[must_use]
    pub fn own_bars(self) -> Option<(u32, u32)> {
        if self.are_offered() { None } else { self.bars().ok() }
    }

    fn are_offered(self) -> bool {
        self.offered.with(|offered| *offered == self.typed_bars())
    }

    /// The bars as they are left: nobody has chosen those that were offered.
    pub(super) fn bars_left(self) -> (String, String) {
        let first = || self.open.map(|open| first(&open.summary)).unwrap_or_default();
        if self.are_offered() { first() } else { (self.from.get(), self.to.get()) }
    }

    /// The bars that the reader has chosen, else so many as to begin with from a bar on.
    #[must_use]
    pub fn bars_from(self, bar: u32) -> Option<(u32, u32)> {
        let from = || self.typed_from(bar).map(|(bars, _)| bars);
        if self.are_offered() { from().or_else(|| self.bars().ok()) } else { self.bars().ok() }
    }

    /// Offers bars from a bar on, unless the reader has chosen some.
    pub fn offer_bars(self, from: u32) {
        let offered = if self.are_offered() { self.typed_from(from) } else { None };
        if let Some((_, typed)) = offered {
            self.from.set(typed.0.clone());
            self.to.set(typed.1.clone());
            self.offered.set(typed);
        }
    }

    /// So many bars as to begin with from a bar on, and as they are typed; none where numbers that stand twice mean others.
    fn typed_from(self, from: u32) -> Option<((u32, u32), (String, String))> {
        self.open.with(|open| {
            let summary = &open.as_ref()?.summary;
            let end = u32::try_from(summary.bars.len()).ok()?.checked_sub(1)?;
            let last = from.saturating_add(u32::try_from(FIRST_BARS).ok()?.saturating_sub(1)).min(end);
            let printed =
                |bar: u32| summary.bars.get(usize::try_from(bar).ok()?).map(|bar| bar.trim().to_owned());
            let typed = (printed(from)?, printed(last)?);
            (chosen(summary, &typed.0, &typed.1) == Ok((from, last))).then_some(((from, last), typed))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::movement::{ComesFrom, OpenMovement};

    fn summary() -> Summary {
        // An upbeat, a minuet and its trio, which begins to count anew.
        let bars = ["0", "1", "2", "3", "4", "1", "2", "3"].map(str::to_owned).into();
        let letters = vec![("A".to_owned(), 2), ("B".to_owned(), 4)];
        Summary { bars, letters, ..Summary::default() }
    }

    #[test]
    fn bars_are_offered_from_where_the_reader_is_until_he_chooses_some() {
        let owner = leptos::prelude::Owner::new();
        owner.set();
        let movement = Movement::new();
        let bars = (1..=20).map(|number: u32| number.to_string()).collect();
        let open = OpenMovement {
            source: ComesFrom::Demo,
            file: String::new(),
            summary: Summary { bars, ..Summary::default() },
        };
        movement.show(open, Vec::new(), None);
        assert_eq!((movement.bars(), movement.own_bars()), (Ok((0, 3)), None));
        assert_eq!(movement.bars_from(17), Some((17, 19)));
        movement.offer_bars(9);
        assert_eq!((movement.bars(), movement.own_bars()), (Ok((9, 12)), None));
        movement.offer_bars(11);
        assert_eq!(movement.bars(), Ok((11, 14)));
        assert_eq!(movement.bars_left(), ("1".to_owned(), "4".to_owned()));
        // What he has chosen stays.
        movement.to.set("13".to_owned());
        movement.offer_bars(2);
        assert_eq!((movement.own_bars(), movement.bars_from(2)), (Some((11, 12)), Some((11, 12))));
        assert_eq!(movement.bars_left(), ("12".to_owned(), "13".to_owned()));
        // A number that stands twice is left alone where it would mean another bar.
        let open = OpenMovement { summary: summary(), source: ComesFrom::Demo, file: String::new() };
        movement.show(open, Vec::new(), None);
        movement.offer_bars(5);
        assert_eq!(movement.bars(), Ok((0, 3)));
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
