//! The bars in which a plan is written.

use crate::key_plan::KeyStretch;
use crate::ticks::Ticks;
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
            if layout.keys.last().is_none_or(|(_, key)| *key != stretch.key) {
                layout.keys.push((from, stretch.key));
            }
            bar += i64::from(stretch.bars);
        }
        layout.reaching(Ticks::of_fraction(bar * 4, 1).unwrap_or_default())
    }

    /// The bars of a score; `None` where a time of it is beyond what is planned.
    #[must_use]
    pub fn of_score(score: &Score) -> Option<Self> {
        let ticks = |(above, below): (i64, i64)| Ticks::of_fraction(above, below);
        let bars = score.bars().iter().map(|bar| {
            let length = ticks(bar.length.fraction()).filter(|length| length.0 > 0)?;
            Some(BarLaid { number: bar.number.to_string(), length, time: bar.time })
        });
        let keys = score.movement.map(|key| (Ticks::default(), key)).into_iter().collect();
        Some(Self { bars: bars.collect::<Option<_>>()?, keys })
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
    pub fn of(layout: &Layout) -> Self {
        let begins = layout.bars.iter().scan(Ticks::default(), |end, bar| {
            let from = *end;
            *end = from + bar.length;
            Some((from, *end))
        });
        Self(begins.collect())
    }

    /// When the last bar ends.
    pub fn end(&self) -> Ticks {
        self.0.last().map_or(Ticks::default(), |(_, end)| *end)
    }

    /// When the bar begins that holds a moment; the last one for moments beyond.
    pub fn bar_from(&self, moment: Ticks) -> Ticks {
        let after = self.0.partition_point(|(from, _)| *from <= moment);
        after.checked_sub(1).and_then(|at| self.0.get(at)).map_or(Ticks::default(), |(from, _)| *from)
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
