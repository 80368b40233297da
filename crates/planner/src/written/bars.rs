//! The bars in which a plan is written.

use crate::key_plan::KeyStretch;
use crate::ticks::Ticks;
use core::ops::Range;
use crookwise_score::Score;
use crookwise_score::score::TimeSignature;
use crookwise_theory::Key;

/// A bar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BarLaid {
    /// As it is numbered in print.
    pub number: String,
    /// How long it is, above nothing.
    pub length: Ticks,
    /// The time signature, where one is printed.
    pub time: Option<TimeSignature>,
}

/// Bars, and the keys of the movement in their course.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Layout {
    /// The bars from the beginning.
    pub bars: Vec<BarLaid>,
    /// From when each key holds.
    pub keys: Vec<(Ticks, Key)>,
}

/// What of a note or rest stands in one bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BarShare {
    /// When it begins.
    pub from: Ticks,
    /// When it ends.
    pub to: Ticks,
    /// Its bar, from 0.
    pub bar: u32,
    /// Whether it goes on from the bar before.
    pub goes_on: bool,
}

impl Layout {
    /// Bars that are all alike, as many as reach to a moment; one at least.
    #[must_use]
    pub fn alike(time: TimeSignature, end: Ticks) -> Self {
        let length = Ticks::of_fraction(i64::from(time.beats) * 4, i64::from(time.value)).unwrap_or_default();
        let first = BarLaid { number: "1".to_owned(), length, time: Some(time) };
        Self { bars: vec![first], keys: Vec::new() }.reaching(end)
    }

    /// The bars of a plan of keys ([`crate::key_plan::wanted`] with no rest between them).
    #[must_use]
    pub fn of_keys(stretches: &[KeyStretch]) -> Self {
        let mut layout = Self::alike(TimeSignature { beats: 4, value: 4 }, Ticks::default());
        let mut bar = 0_i64;
        for stretch in stretches {
            let from = Ticks::of_fraction(bar * 4, 1).unwrap_or_default();
            layout.change_key(from, stretch.key);
            bar += i64::from(stretch.bars);
        }
        layout.reaching(Ticks::of_fraction(bar * 4, 1).unwrap_or_default())
    }

    /// The movement has this key from a moment on, behind all others.
    pub(crate) fn change_key(&mut self, from: Ticks, key: Key) {
        self.keys.retain(|(at, _)| *at < from);
        if self.keys.last().is_none_or(|(_, before)| *before != key) {
            self.keys.push((from, key));
        }
    }

    /// The bars of a score; `None` where a time of it is beyond what is planned.
    #[must_use]
    pub fn of_score(score: &Score) -> Option<Self> {
        let ticks = |(above, below): (i64, i64)| Ticks::of_fraction(above, below);
        let bars = score.bars().iter().map(|bar| {
            let length = ticks(bar.length.fraction()).filter(|length| length.0 > 0)?;
            Some(BarLaid { number: bar.number.to_string(), length, time: bar.time })
        });
        let mut layout = Self { bars: bars.collect::<Option<_>>()?, keys: Vec::new() };
        for (from, key) in score.keys() {
            layout.change_key(ticks(from.fraction())?, key);
        }
        Some(layout)
    }

    /// When some of its bars begin and end, counted from 0.
    #[must_use]
    pub fn time_of(&self, bars: &Range<usize>) -> (Ticks, Ticks) {
        let before =
            |end: usize| self.bars.iter().take(end).fold(Ticks::default(), |all, bar| all + bar.length);
        (before(bars.start), before(bars.end))
    }

    /// Some of its bars alone, counted from 0, with the time signature and the key that hold where they begin.
    #[must_use]
    pub fn only(&self, bars: Range<usize>) -> Self {
        let (from, to) = self.time_of(&bars);
        let time = self.bars.iter().take(bars.start + 1).rev().find_map(|bar| bar.time);
        let mut own: Vec<BarLaid> = self.bars.iter().take(bars.end).skip(bars.start).cloned().collect();
        if let Some(first) = own.first_mut() {
            first.time = time;
        }
        let before = self.keys.iter().rfind(|(at, _)| *at <= from).map(|(_, key)| (Ticks::default(), *key));
        let later = self.keys.iter().filter(|(at, _)| *at > from && *at < to);
        let keys = before.into_iter().chain(later.map(|(at, key)| (*at - from, *key))).collect();
        Self { bars: own, keys }
    }

    /// When its last bar ends.
    #[must_use]
    pub fn end(&self) -> Ticks {
        self.bars.iter().fold(Ticks::default(), |end, bar| end + bar.length)
    }

    /// The same with as many bars more, like the last, as reach to a moment; where there is none, bars of four quarters.
    #[must_use]
    pub fn reaching(&self, moment: Ticks) -> Self {
        let mut all = self.clone();
        let usual = TimeSignature { beats: 4, value: 4 };
        let (length, before) = match all.bars.last() {
            Some(last) => (last.length, last.number.parse::<u64>().unwrap_or(all.bars.len() as u64)),
            None => (Ticks::of_fraction(4, 1).unwrap_or_default(), 0),
        };
        let mut end = all.end();
        let mut number = before;
        while end < moment && length.0 > 0 {
            number += 1;
            let time = all.bars.is_empty().then_some(usual);
            all.bars.push(BarLaid { number: number.to_string(), length, time });
            end = end + length;
        }
        all
    }
}

/// When each bar begins and ends.
#[derive(Clone, Debug)]
pub struct Grid(Vec<(Ticks, Ticks)>);

impl Grid {
    /// Of a layout.
    #[must_use]
    pub fn of(layout: &Layout) -> Self {
        let begins = layout.bars.iter().scan(Ticks::default(), |end, bar| {
            let from = *end;
            *end = from + bar.length;
            Some((from, *end))
        });
        Self(begins.collect())
    }

    /// When the last bar ends.
    #[must_use]
    pub fn end(&self) -> Ticks {
        self.0.last().map_or(Ticks::default(), |(_, end)| *end)
    }

    /// When the bar begins that holds a moment; the last one for moments beyond.
    #[must_use]
    pub fn bar_from(&self, moment: Ticks) -> Ticks {
        let after = self.0.partition_point(|(from, _)| *from <= moment);
        after.checked_sub(1).and_then(|at| self.0.get(at)).map_or(Ticks::default(), |(from, _)| *from)
    }

    /// The bars in which a time of sound begins and ends, from 1.
    #[must_use]
    pub fn bars_of(&self, (from, to): (Ticks, Ticks)) -> (u32, u32) {
        let number = |at: usize| u32::try_from(at).unwrap_or(u32::MAX);
        let first = number(self.0.partition_point(|(_, ends)| *ends <= from)).saturating_add(1);
        let last = number(self.0.partition_point(|(begins, _)| *begins < to));
        (first, last.max(first))
    }

    /// A time of sound or silence, bar by bar.
    pub fn pieces(&self, from: Ticks, to: Ticks) -> impl Iterator<Item = BarShare> {
        let first = self.0.partition_point(|(_, ends)| *ends <= from);
        let bars = self.0.iter().enumerate().skip(first).take_while(move |(_, (begins, _))| *begins < to);
        bars.map(move |(at, (begins, ends))| BarShare {
            from: from.max(*begins),
            to: to.min(*ends),
            // Far fewer bars than a 32-bit number counts.
            bar: at as u32,
            goes_on: from < *begins,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn quarters(many: i64) -> Ticks {
        Ticks::of_fraction(many, 1).unwrap()
    }

    /// An upbeat, three bars of three quarters, then bars of two; keys at the beginning and with the twos.
    fn layout() -> Layout {
        let bar = |number: &str, length, time: Option<(u16, u16)>| BarLaid {
            number: number.to_owned(),
            length: quarters(length),
            time: time.map(|(beats, value)| TimeSignature { beats, value }),
        };
        let three = Some((3, 4));
        let bars = vec![
            bar("0", 1, three),
            bar("1", 3, None),
            bar("2", 3, None),
            bar("3", 3, None),
            bar("4", 2, Some((2, 4))),
            bar("5", 2, None),
        ];
        let key = |name: &str| name.parse::<Key>().unwrap();
        Layout { bars, keys: vec![(quarters(0), key("Eb major")), (quarters(10), key("C minor"))] }
    }

    #[test]
    fn some_bars_keep_the_time_and_the_key_that_hold() {
        let some = layout().only(2..5);
        let told: Vec<_> =
            some.bars.iter().map(|bar| (bar.number.as_str(), bar.time.map(|time| time.beats))).collect();
        assert_eq!(told, [("2", Some(3)), ("3", None), ("4", Some(2))]);
        let keys: Vec<_> = some.keys.iter().map(|(at, key)| (at.quarters(), key.to_string())).collect();
        assert_eq!(keys, [(0.0, "Eb major".to_owned()), (6.0, "C minor".to_owned())]);
        assert_eq!(layout().time_of(&(2..5)), (quarters(4), quarters(12)));
        assert_eq!(layout().only(0..99), layout());
        assert_eq!(layout().only(7..9).bars, []);
    }

    #[test]
    fn a_time_lies_in_its_bars() {
        let grid = Grid::of(&layout());
        let bars = |from, to| grid.bars_of((quarters(from), quarters(to)));
        assert_eq!(
            [bars(0, 1), bars(1, 4), bars(0, 2), bars(9, 11), bars(12, 14)],
            [(1, 1), (2, 2), (1, 2), (4, 5), (6, 6)]
        );
        // Beyond the last.
        assert_eq!(bars(20, 21), (7, 7));
    }
}
