//! A part of the movement for paper: which, at which pitch, which bars; and its systems on pages.

use super::ComesFrom;
use super::link::{self, LinkedPlace};
use crate::state::kept::{Derived, Watched};
use crate::state::movement::music::RowsShown;
use crate::state::practise::paper::PaperSize;
use core::ops::Range;
use crookwise_opened::{PartRows, PartSystemRow, RowWanted, Summary};
use crookwise_score::printed::pair_label;
use leptos::prelude::use_context;

/// What is chosen for the paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PartWishes {
    /// The staff, or the two of a pair.
    pub staves: Vec<u32>,
    /// At which pitch.
    pub shown: RowsShown,
    /// Only the chosen bars.
    pub only_chosen: bool,
    /// The paper.
    pub size: PaperSize,
}

/// A part that can be printed: its staves and its name.
pub type OfferedPart = (Vec<u32>, String);

/// Handles on the part for paper; copy it where it is needed.
#[derive(Clone, Copy, Debug)]
pub struct PartPaper {
    /// What the address says of Score, and so of the paper.
    pairs: Watched<String>,
    /// What is chosen; nothing while no part is on paper.
    pub wishes: Derived<Option<PartWishes>>,
    /// The part as it is laid out; nothing while that is made.
    pub rows: Watched<Option<PartRows>>,
    /// The signs that it is drawn with; empty until they are here.
    pub signs: Watched<String>,
    /// Why it cannot be.
    pub problem: Watched<Option<String>>,
    /// Whether it was shown last, so that who comes to the movement comes back from it.
    pub was_shown: Watched<bool>,
}

/// A page with some of the systems.
#[derive(Clone, Debug, PartialEq)]
pub struct PartPage {
    /// Which.
    pub systems: Range<usize>,
    /// Pixels between two of them.
    pub between: f64,
}

/// Pixels of a staff space: staves of seven millimetres, and smaller ones where two rows belong together.
const SPACE: f64 = 6.6;
const SPACE_OF_TWO: f64 = 6.0;
/// Letters are never smaller than so many pixels: eight points.
const LETTERS: f64 = 10.7;
/// Pixels of the head of the first page, and of what stands over each further one. The style sheet has them so.
const HEAD: f64 = 112.0;
const HEAD_AGAIN: f64 = 36.0;
/// Pixels between systems: at least, at most on a page that is filled, and on the last page.
const BETWEEN: (f64, f64) = (8.0, 44.0);
const BETWEEN_ON_LAST: f64 = 18.0;
/// So much of a page is filled though a rest to turn it in comes before its end.
const FILLED: f64 = 0.72;

impl PartPaper {
    /// As the address says, which is these pairs.
    #[must_use]
    pub fn new(pairs: Watched<String>) -> Self {
        let wishes = Derived::new(move || pairs.with(|pairs| linked(pairs)?.1.paper));
        let (rows, signs, problem) = (Watched::new(None), Watched::new(String::new()), Watched::new(None));
        Self { pairs, wishes, rows, signs, problem, was_shown: Watched::new(false) }
    }

    /// The part for paper of Score.
    ///
    /// # Panics
    /// Never in Score, which provides it before anything else is made.
    #[must_use]
    pub fn get() -> Self {
        use_context::<Self>().expect("Score provides its part for paper")
    }

    /// Puts on paper what is chosen first of the parts, as it is written and whole.
    pub fn open(self, source: &ComesFrom, summary: &Summary, chosen: &[u32]) {
        let offered = offered(summary);
        let is_first =
            |(staves, _): &&OfferedPart| chosen.first().is_some_and(|first| staves.contains(first));
        let Some((staves, _)) = offered.iter().find(is_first).or(offered.first()) else { return };
        let wishes = PartWishes::of(staves.clone());
        self.pairs
            .set(link::pairs_to(source, &LinkedPlace { paper: Some(wishes), ..LinkedPlace::default() }));
    }

    /// Chooses otherwise; `bars` are those that are chosen in the movement, as they would be typed.
    pub fn choose(self, bars: (String, String), change: impl FnOnce(&mut PartWishes)) {
        let Some((source, mut place)) = self.pairs.with_untracked(|pairs| linked(pairs)) else { return };
        let Some(wishes) = &mut place.paper else { return };
        change(wishes);
        // Whoever opens the link has chosen no bars.
        place.bars = wishes.only_chosen.then_some(bars);
        self.pairs.set(link::pairs_to(&source, &place));
    }

    /// Back to the movement.
    pub fn leave(self) {
        let Some((source, _)) = self.pairs.with_untracked(|pairs| linked(pairs)) else { return };
        self.pairs.set(link::pairs(Some(&source)));
    }
}

fn linked(pairs: &str) -> Option<(ComesFrom, LinkedPlace)> {
    link::read(pairs).ok().flatten()
}

impl PartWishes {
    /// These staves, as the paper begins: as written, whole, on A4.
    #[must_use]
    pub const fn of(staves: Vec<u32>) -> Self {
        Self { staves, shown: RowsShown::Written, only_chosen: false, size: PaperSize::A4 }
    }

    /// The row to be engraved.
    #[must_use]
    pub fn row(&self) -> RowWanted {
        RowWanted {
            staves: self.staves.clone(),
            written: self.shown != RowsShown::Sounding,
            sounding: self.shown != RowsShown::Written,
            made: self.shown == RowsShown::Both,
        }
    }

    /// Pixels of a staff space.
    #[must_use]
    pub fn scale(&self) -> f64 {
        if self.shown == RowsShown::Both { SPACE_OF_TWO } else { SPACE }
    }

    /// The width of a system and the least size of letters, in hundredths of a staff space.
    #[must_use]
    pub fn measures(&self) -> (u32, u32) {
        let hundredths = |pixels: f64| (pixels / self.scale() * 100.0) as u32;
        (hundredths(self.size.width()), hundredths(LETTERS))
    }

    /// The height of a system in whole pixels: its width decides how large it is.
    #[must_use]
    pub fn height(&self, system: &PartSystemRow) -> f64 {
        (f64::from(system.size.1) / 100.0 * self.scale()).ceil()
    }

    /// Pages on which no system is cut; where a rest at the end of a system gives time to turn, a page ends there rather than
    /// quite at its foot.
    #[must_use]
    pub fn pages(&self, rows: &PartRows) -> Vec<PartPage> {
        let systems: Vec<(f64, bool)> =
            rows.systems.iter().map(|system| (self.height(system), system.rests)).collect();
        let mut pages = Vec::new();
        let mut first = 0;
        while first < systems.len() {
            let room = self.size.height() - if first == 0 { HEAD } else { HEAD_AGAIN };
            let rest = systems.get(first..).unwrap_or_default();
            let count = filling(rest, room);
            let used: f64 = rest.iter().take(count).map(|(height, _)| height).sum();
            let gaps = count.saturating_sub(1).max(1) as f64;
            let most = if count == rest.len() { BETWEEN_ON_LAST } else { BETWEEN.1 };
            let between = ((room - used) / gaps).clamp(0.0, most);
            pages.push(PartPage { systems: first..first + count, between });
            first += count;
        }
        pages
    }
}

/// How many of the systems stand on a page with so much room: at least one.
fn filling(systems: &[(f64, bool)], room: f64) -> usize {
    let mut taken = 0.0;
    let mut count = 0;
    let mut turning = None;
    for (number, (height, rests)) in (1..).zip(systems) {
        let with = taken + height + if count == 0 { 0.0 } else { BETWEEN.0 };
        if with > room && count > 0 {
            return turning.unwrap_or(count);
        }
        (taken, count) = (with, number);
        if *rests && taken >= room * FILLED {
            turning = Some(number);
        }
    }
    count
}

/// All that can be printed: pairs joined as print has them, and each staff by itself.
#[must_use]
pub fn offered(summary: &Summary) -> Vec<OfferedPart> {
    let named: Vec<(u32, String)> = summary
        .parts
        .iter()
        .flat_map(|part| part.staves.iter().map(|staff| (staff.staff, named(&staff.label, &part.name))))
        .collect();
    let name_of =
        |staff: u32| named.iter().find(|(number, _)| *number == staff).map(|(_, name)| name.as_str());
    let mut offered = Vec::new();
    for (staff, name) in &named {
        let pair = summary.pairs.iter().find(|(upper, _)| upper == staff);
        if let Some((upper, lower)) = pair
            && let Some(other) = name_of(*lower)
        {
            offered.push((vec![*upper, *lower], pair_label(name, other)));
        }
        offered.push((vec![*staff], name.clone()));
    }
    offered
}

fn named(label: &str, part: &str) -> String {
    if label.is_empty() { part } else { label }.to_owned()
}

/// A part as a text in a list's values.
#[must_use]
pub fn value_of(staves: &[u32]) -> String {
    staves.iter().map(ToString::to_string).collect::<Vec<_>>().join(".")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_opened::{PartRow, StaffRow};

    fn summary() -> Summary {
        let part = |number: u32, label: &str| PartRow {
            name: format!("Part {number}"),
            staves: vec![StaffRow { staff: number, label: label.to_owned(), ..StaffRow::default() }],
            ..PartRow::default()
        };
        Summary {
            parts: vec![part(0, "Oboe"), part(1, "Corno I in D"), part(2, "Corno II in D"), part(3, "")],
            pairs: vec![(1, 2)],
            ..Summary::default()
        }
    }

    /// Systems so many pixels high, each with whether it ends in a rest.
    fn rows(systems: &[(i32, bool)]) -> PartRows {
        let row = |&(pixels, rests): &(i32, bool)| PartSystemRow {
            size: (10_000, (f64::from(pixels) * 100.0 / SPACE) as i32),
            rests,
            ..PartSystemRow::default()
        };
        PartRows { crook: None, systems: systems.iter().map(row).collect() }
    }

    #[test]
    fn pairs_are_offered_joined_and_alone() {
        let offered = offered(&summary());
        let named: Vec<(String, &str)> =
            offered.iter().map(|(staves, name)| (value_of(staves), name.as_str())).collect();
        let wanted = [
            ("0", "Oboe"),
            ("1.2", "Corno I, II in D"),
            ("1", "Corno I in D"),
            ("2", "Corno II in D"),
            ("3", "Part 3"),
        ];
        assert_eq!(named, wanted.map(|(value, name)| (value.to_owned(), name)));
    }

    #[test]
    fn what_is_chosen_first_is_on_paper() {
        let owner = leptos::prelude::Owner::new();
        owner.set();
        let pairs = Watched::new("demo=1".to_owned());
        let paper = PartPaper::new(pairs);
        let staves = || paper.wishes.map(|wishes| wishes.staves.clone());
        paper.open(&ComesFrom::Demo, &summary(), &[2, 3]);
        assert_eq!(staves(), Some(vec![1, 2]));
        paper.open(&ComesFrom::Demo, &summary(), &[]);
        assert_eq!(staves(), Some(vec![0]));
        let bars = || ("24".to_owned(), "C".to_owned());
        paper.choose(bars(), |wishes| wishes.shown = RowsShown::Both);
        let row = paper.wishes.map(PartWishes::row).unwrap();
        assert!(row.written && row.sounding && row.made);
        // The bars go with the link only where they are wanted.
        assert_eq!(pairs.get_untracked(), "demo=1&paper=1&pitch=both&sheet=a4");
        paper.choose(bars(), |wishes| wishes.only_chosen = true);
        assert_eq!(pairs.get_untracked(), "demo=1&bars=24-C&paper=1&pitch=both&sheet=a4&only=bars");
        paper.leave();
        assert_eq!((staves(), pairs.get_untracked().as_str()), (None, "demo=1"));
        paper.choose(bars(), |wishes| wishes.only_chosen = true);
        paper.open(&ComesFrom::Demo, &Summary::default(), &[]);
        assert_eq!(staves(), None, "a score without parts");
    }

    #[test]
    fn every_system_stands_on_one_page_and_none_is_too_full() {
        for heights in [vec![70; 40], vec![300; 9], vec![1_200; 3], vec![100, 500, 90, 90, 700, 60], vec![]] {
            let systems: Vec<(i32, bool)> = heights.iter().map(|height| (*height, false)).collect();
            let pages = PartWishes::of(vec![1]).pages(&rows(&systems));
            let all: Vec<usize> = pages.iter().flat_map(|page| page.systems.clone()).collect();
            assert_eq!(all, (0..heights.len()).collect::<Vec<_>>());
            for page in &pages {
                let count = page.systems.len();
                let high: i32 = heights[page.systems.clone()].iter().sum();
                let head = if page.systems.start == 0 { HEAD } else { HEAD_AGAIN };
                let all = f64::from(high) + page.between * (count as f64 - 1.0) + head;
                assert!(count == 1 || all <= PaperSize::A4.height() + 0.1, "{heights:?}: {all}");
            }
        }
    }

    #[test]
    fn a_page_ends_in_a_rest_where_one_is_near_its_foot() {
        // Ten of 78 pixels fill a first page; the ninth ends in a rest, or only the fourth.
        let page = |rest: usize| {
            let systems: Vec<(i32, bool)> = (0..14).map(|number| (78, number == rest)).collect();
            PartWishes::of(vec![1]).pages(&rows(&systems))[0].systems.end
        };
        let filled = page(20);
        assert!((8..=10).contains(&filled), "{filled}");
        assert_eq!(page(filled - 2), filled - 1);
        assert_eq!(page(3), filled);
    }
}
