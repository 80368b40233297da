//! The endings of repeats: which bars they have, which passes play them, which belong together.

use super::fault::{RoadFault, RoadFaultKind};
use super::walk::MOST_PASSES;
use crate::score::Bar;

/// An ending.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Ending {
    /// Its first and its last bar.
    pub bars: (usize, usize),
    /// The passes that play it, a bit for each.
    passes: u64,
    /// Whether a repeat sign stands at its end.
    pub repeats: bool,
    /// Whether another of the same repeat follows it.
    pub goes_on: bool,
    /// How often the repeat is played in all.
    pub total: u16,
}

impl Ending {
    /// Whether it is played in a pass.
    pub const fn has(&self, pass: u16) -> bool {
        self.passes >> pass & 1 == 1
    }
}

/// Every ending, by where it begins.
pub(super) fn find(bars: &[Bar], faults: &mut Vec<RoadFault>) -> Vec<Ending> {
    let mut all: Vec<Ending> = Vec::new();
    // Where the endings of the repeat at hand begin in the list.
    let mut group = 0;
    for (at, bar) in bars.iter().enumerate() {
        let Some(text) = &bar.signs.ending else { continue };
        let follows = all.last().is_some_and(|last| last.bars.1 + 1 == at);
        let before = all.get(group..).unwrap_or_default().iter().fold(0, |sum, ending| sum | ending.passes);
        let read = passes(text);
        let joins = follows && read & before == 0;
        if !joins {
            close(all.get_mut(group..).unwrap_or_default(), faults);
            group = all.len();
        }
        let passes = if read == 0 {
            faults.push(RoadFault { bar: at, kind: RoadFaultKind::Unreadable });
            let highest = if joins { highest(before) } else { 0 };
            1 << (highest + 1).min(MOST_PASSES)
        } else {
            read
        };
        let end = end(bars, at, joins);
        let repeats = bars.get(end).is_some_and(|bar| bar.signs.repeat_to.is_some());
        all.push(Ending { bars: (at, end), passes, repeats, goes_on: false, total: 0 });
    }
    close(all.get_mut(group..).unwrap_or_default(), faults);
    all
}

/// The ending that holds a bar; they follow one another.
pub(super) fn at(endings: &[Ending], bar: usize) -> Option<&Ending> {
    let after = endings.partition_point(|ending| ending.bars.0 <= bar);
    endings.get(after.checked_sub(1)?).filter(|ending| bar <= ending.bars.1)
}

/// Reckons how often a repeat with these endings is played.
fn close(group: &mut [Ending], faults: &mut Vec<RoadFault>) {
    let played = group.iter().fold(0, |sum, ending| sum | ending.passes);
    // One ending alone is passed over the last time.
    let total = match group {
        [one] => highest(played) + u16::from(one.repeats),
        _ => highest(played).max(2),
    };
    let last = group.len().saturating_sub(1);
    for (at, ending) in group.iter_mut().enumerate() {
        ending.total = total;
        ending.goes_on = at < last;
        if ending.goes_on && !ending.repeats {
            faults.push(RoadFault { bar: ending.bars.0, kind: RoadFaultKind::NoRepeat });
        }
    }
    let gap = (1..total).any(|pass| played >> pass & 1 == 0);
    if let Some(first) = group.first().filter(|_| gap && last > 0) {
        faults.push(RoadFault { bar: first.bars.0, kind: RoadFaultKind::NoEnding });
    }
}

/// The last bar of an ending: the one at which it is marked to end or, where it is the first of its repeat, to be repeated; one that
/// is open lasts to the next ending, or has a bar.
fn end(bars: &[Bar], from: usize, is_later: bool) -> usize {
    for (at, bar) in bars.iter().enumerate().skip(from) {
        if at > from && bar.signs.ending.is_some() {
            return at - 1;
        }
        if at > from && bar.signs.repeat_from {
            return from;
        }
        let repeats = bar.signs.repeat_to.is_some();
        if bar.signs.ending_ends || (repeats && (!is_later || at == from)) {
            return at;
        }
        if repeats {
            return from;
        }
    }
    from
}

/// The passes that a number in print names, a bit for each: "1", "1, 2", "1.–3."; none where it names none.
fn passes(text: &str) -> u64 {
    let mut found = 0;
    let mut last: Option<u16> = None;
    let mut through = false;
    let mut number: Option<u16> = None;
    for letter in text.chars().chain([' ']) {
        if let Some(digit) = letter.to_digit(10).and_then(|digit| u16::try_from(digit).ok()) {
            number = Some(number.unwrap_or(0).saturating_mul(10).saturating_add(digit));
            continue;
        }
        if let Some(pass) = number.take().filter(|pass| (1..=MOST_PASSES).contains(pass)) {
            let from = last.filter(|last| through && *last < pass).unwrap_or(pass);
            for each in from..=pass {
                found |= 1 << each;
            }
            last = Some(pass);
            through = false;
        }
        match letter {
            '-' | '\u{2013}' | '\u{2014}' => through = true,
            ',' => through = false,
            _ => {}
        }
    }
    found
}

fn highest(passes: u64) -> u16 {
    u16::try_from(passes.checked_ilog2().unwrap_or(0)).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::passes;

    fn listed(text: &str) -> Vec<u16> {
        (0..64).filter(|pass| passes(text) >> pass & 1 == 1).collect()
    }

    #[test]
    fn numbers_of_endings_are_read_as_they_are_printed() {
        for (text, expected) in [
            ("1", &[1][..]),
            ("1.", &[1]),
            ("1, 2", &[1, 2]),
            ("1,2", &[1, 2]),
            ("1.2.", &[1, 2]),
            ("1.-3.", &[1, 2, 3]),
            ("1. \u{2013} 3., 5.", &[1, 2, 3, 5]),
            ("2a volta", &[2]),
            ("", &[]),
            ("prima volta", &[]),
            ("0", &[]),
            ("4000000000", &[]),
            ("3-1", &[1, 3]),
        ] {
            assert_eq!(listed(text), expected, "{text}");
        }
    }
}
