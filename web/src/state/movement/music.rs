//! The movement as music on the screen: which rows are shown and how, where its systems stand, what was tapped.

use crate::state::glance::Glance;
use crate::state::kept::Watched;
use crate::state::movement::ScoreNow;
use crate::state::movement::drawn::MomentSpot;
use crate::state::movement::on_wall::{MOST_ROWS, OnTheWall};
use crate::words;
use core::ops::Range;
use crookwise_opened::{HarmonyRow, RowWanted, SystemRow};
use leptos::prelude::use_context;

/// How rows are shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum RowsShown {
    /// As the parts have them.
    Written,
    /// As they sound.
    Sounding,
    /// Both, one under the other, with the partials between.
    #[default]
    Both,
}

impl RowsShown {
    /// All, in the order in which they are offered.
    pub const ALL: [Self; 3] = [Self::Written, Self::Sounding, Self::Both];

    /// As it is offered.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Written => words::movement::ROWS_WRITTEN,
            Self::Sounding => words::movement::ROWS_SOUNDING,
            Self::Both => words::movement::ROWS_BOTH,
        }
    }
}

/// A note that was tapped.
#[derive(Clone, Debug, PartialEq)]
pub struct TappedNote {
    /// Its staff.
    pub staff: u32,
    /// Its number.
    pub note: u32,
    /// Its bar.
    pub bar: u32,
    /// What is said of it, once that is known.
    pub glance: Option<Glance>,
}

/// What a layout is made of: while it is the same, what stands need not be laid again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetAsked {
    /// Counts the openings of scores.
    pub opening: u32,
    /// The corrections that lie over the score.
    pub laid: String,
    /// The rows from the top.
    pub rows: Vec<RowWanted>,
    /// Whether the harmonies stand under them.
    pub together: bool,
    /// Whether it is on the wall.
    pub on_wall: bool,
    /// The width there is, in pixels.
    pub width: u32,
}

/// Systems laid out for a width.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LaidOut {
    /// Counts the layouts: what was drawn for another is not of this one.
    pub number: u32,
    /// The systems from the top.
    pub systems: Vec<SystemRow>,
    /// Pixels of a staff space.
    pub scale: f64,
    /// Pixels between two systems.
    pub between: f64,
}

impl SheetAsked {
    /// As the class sees it on the wall: as many parts as can be read from behind, what they sound in the place of what is
    /// written once it is revealed, and what it makes together under them.
    #[must_use]
    pub fn for_the_wall(mut self, wall: OnTheWall) -> Self {
        self.rows.truncate(MOST_ROWS);
        for row in &mut self.rows {
            (row.written, row.sounding, row.made) = (!wall.sounding, wall.sounding, !wall.sounding);
        }
        (self.together, self.on_wall) = (wall.chords, true);
        self
    }
}

/// Handles on the music of Score; copy it where it is needed.
#[derive(Clone, Copy, Debug)]
pub struct Music {
    /// How rows are shown.
    pub shown: Watched<RowsShown>,
    /// The width there is, in pixels.
    pub width: Watched<u32>,
    /// What the layout was asked for; nothing until one was.
    pub asked: Watched<Option<SheetAsked>>,
    /// Whether a layout is on its way: what stands under the music will move.
    pub is_moving: Watched<bool>,
    /// The systems.
    pub laid_out: Watched<LaidOut>,
    /// Which pixels of the music stand in the window, from its top.
    pub seen: Watched<(i32, i32)>,
    /// The note that was tapped last.
    pub tapped: Watched<Option<TappedNote>>,
    /// Whether the harmonies stand under the rows on a grand staff.
    pub together: Watched<bool>,
    /// What the harmonies are of, the opening and the corrections that lie over the score, once they were asked for.
    pub harmonies_of: Watched<Option<ScoreNow>>,
    /// The harmonies in their course, once they are known.
    pub harmonies: Watched<Vec<HarmonyRow>>,
    /// The moment that was tapped last.
    pub spot: Watched<Option<MomentSpot>>,
    /// What of it is on the wall; nothing elsewhere.
    pub wall: Watched<Option<OnTheWall>>,
    /// Whether bars were tapped, and where they go is asked.
    pub picked: Watched<bool>,
    /// The bars that are chosen by tapping: from the first tapped on.
    pub anchor: Watched<Option<u32>>,
    /// The bar that was gone to last.
    pub gone_to: Watched<Option<u32>>,
    /// The bar that a link led to, until its music is laid out.
    pub arrives_at: Watched<Option<u32>>,
}

impl Music {
    /// Nothing is laid out.
    #[must_use]
    pub fn new() -> Self {
        Self {
            shown: Watched::new(RowsShown::default()),
            width: Watched::new(0),
            asked: Watched::new(None),
            is_moving: Watched::new(false),
            laid_out: Watched::new(LaidOut::default()),
            seen: Watched::new((0, 0)),
            tapped: Watched::new(None),
            together: Watched::new(false),
            harmonies_of: Watched::new(None),
            harmonies: Watched::new(Vec::new()),
            spot: Watched::new(None),
            wall: Watched::new(None),
            picked: Watched::new(false),
            anchor: Watched::new(None),
            gone_to: Watched::new(None),
            arrives_at: Watched::new(None),
        }
    }

    /// Notes what a layout is to be made of, with the number that it gets; nothing where it was asked for already. What was
    /// seen of another score goes.
    pub fn wants(self, sheet: &SheetAsked) -> Option<u32> {
        if self.asked.with_untracked(|asked| asked.as_ref() == Some(sheet)) {
            return None;
        }
        let same_score = self
            .asked
            .with_untracked(|asked| asked.as_ref().is_some_and(|asked| asked.opening == sheet.opening));
        let number = self.laid_out.with_untracked(|laid| laid.number).wrapping_add(1);
        if same_score {
            self.laid_out.update(|laid| laid.number = number);
        } else {
            self.laid_out.set(LaidOut { number, ..LaidOut::default() });
            self.tapped.set(None);
            self.spot.set(None);
            self.picked.set(false);
            self.harmonies.set(Vec::new());
            self.anchor.set(None);
            self.gone_to.set(None);
        }
        self.asked.set(Some(sheet.clone()));
        self.is_moving.set(true);
        Some(number)
    }

    /// The music of Score.
    ///
    /// # Panics
    /// Never in Score, which provides it before anything else is made.
    #[must_use]
    pub fn get() -> Self {
        use_context::<Self>().expect("Score provides its music")
    }
}

impl Music {
    /// Looks at a moment, and at bars no more.
    pub fn look_at(self, spot: Option<MomentSpot>) {
        self.picked.set(false);
        self.spot.set(spot);
    }

    /// Looks at bars, and at a moment no more.
    pub fn pick(self) {
        self.spot.set(None);
        self.tapped.set(None);
        self.picked.set(true);
    }
}

impl Default for Music {
    fn default() -> Self {
        Self::new()
    }
}

/// The rows of the chosen staves in score order: pairs on one staff where both are chosen.
#[must_use]
pub fn rows(chosen: &[u32], pairs: &[(u32, u32)], shown: RowsShown) -> Vec<RowWanted> {
    let mut rows = Vec::new();
    let is_chosen = |staff: u32| chosen.contains(&staff);
    for staff in chosen {
        let lower_of = |(_, lower): &&(u32, u32)| lower == staff;
        if pairs.iter().find(lower_of).is_some_and(|(upper, _)| is_chosen(*upper)) {
            continue;
        }
        let upper_of = |(upper, _): &&(u32, u32)| upper == staff;
        let other = pairs.iter().find(upper_of).map(|(_, lower)| *lower).filter(|lower| is_chosen(*lower));
        rows.push(RowWanted {
            staves: [*staff].into_iter().chain(other).collect(),
            written: shown != RowsShown::Sounding,
            sounding: shown != RowsShown::Written,
            made: shown != RowsShown::Sounding,
        });
    }
    rows
}

/// Pixels of a staff space for a width: a line of some 150 spaces, on the wall of 120 for the back row, but never smaller
/// than can be read nor larger than the page needs.
#[must_use]
pub fn scale(width: u32, on_wall: bool) -> f64 {
    let (spaces, largest) = if on_wall { (120.0, 18.0) } else { (150.0, 11.0) };
    (f64::from(width) / spaces).clamp(6.0, largest)
}

/// So much of the window's height a system may take on the wall, beside the map and the bar.
const OF_THE_WALL: f64 = 0.6;

/// The scale at which the highest system stands whole on the wall, where that is a smaller one; never so small that it
/// cannot be read.
#[must_use]
pub fn scale_for_height(systems: &[SystemRow], scale: f64, window: f64) -> Option<f64> {
    let highest = systems.iter().map(|system| system.height).max()?;
    let fits = window * OF_THE_WALL / (f64::from(highest.max(1)) / 100.0);
    (fits < scale).then(|| fits.max(7.0)).filter(|fits| *fits < scale)
}

impl LaidOut {
    /// The height of a system in pixels.
    #[must_use]
    pub fn height(&self, system: usize) -> f64 {
        self.systems.get(system).map_or(0.0, |own| f64::from(own.height) / 100.0 * self.scale)
    }

    /// Where each system begins and ends, in pixels from the top of all.
    #[must_use]
    pub fn spans(&self) -> Vec<(f64, f64)> {
        let mut top = 0.0;
        let mut spans = Vec::with_capacity(self.systems.len());
        for system in 0..self.systems.len() {
            let bottom = top + self.height(system);
            spans.push((top, bottom));
            top = bottom + self.between;
        }
        spans
    }

    /// The bar that stays where the reader looks when the music is laid out anew, of what stands in the window of this height, of
    /// which so much is covered at its head: the one gone to where its system is seen, else the first of the first system. Nothing
    /// where the music begins in the window, or ends in its upper half: who looks at what is under it keeps that.
    #[must_use]
    pub fn looked_at(&self, above: f64, (cover, window): (f64, f64), gone_to: Option<u32>) -> Option<u32> {
        let spans = self.spans();
        let (_, end) = *spans.last()?;
        if above <= 0.0 || end - above < window / 2.0 {
            return None;
        }
        let is_seen = |(_, (top, bottom)): &(&SystemRow, &(f64, f64))| {
            *bottom > above + cover + SLIVER && *top < above + window
        };
        let mut seen = self.systems.iter().zip(&spans).filter(is_seen).map(|(system, _)| system);
        let first = seen.clone().next()?;
        let gone_to = gone_to.filter(|bar| seen.any(|system| holds(system, *bar)));
        gone_to.or(Some(first.bars.0))
    }

    /// The system that holds a bar.
    #[must_use]
    pub fn system_of(&self, bar: u32) -> Option<usize> {
        self.systems.iter().position(|system| holds(system, bar))
    }
}

/// The systems of these spans that stand in a window or so near to it.
#[must_use]
pub fn near(spans: &[(f64, f64)], (from, to): (i32, i32), near: f64) -> Range<usize> {
    let first = spans.partition_point(|(_, bottom)| *bottom <= f64::from(from) - near);
    let end = spans.partition_point(|(top, _)| *top < f64::from(to) + near);
    first..end.max(first)
}

/// So much of a system at the head of the window is not looked at.
const SLIVER: f64 = 24.0;

fn holds(system: &SystemRow, bar: u32) -> bool {
    (system.bars.0..=system.bars.1).contains(&bar)
}

/// Pixels between two systems: names of chords have their room there.
#[must_use]
pub fn between(together: bool) -> f64 {
    if together { 46.0 } else { 18.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pairs_stand_on_one_row_where_both_are_chosen() {
        let staves = |chosen: &[u32]| -> Vec<Vec<u32>> {
            rows(chosen, &[(4, 5), (6, 7)], RowsShown::Both).into_iter().map(|row| row.staves).collect()
        };
        assert_eq!(staves(&[4, 5, 6, 10]), [vec![4, 5], vec![6], vec![10]]);
        assert_eq!(staves(&[5, 7]), [vec![5], vec![7]]);
        let sounding = rows(&[4], &[], RowsShown::Sounding);
        assert!(!sounding[0].written && sounding[0].sounding && !sounding[0].made);
    }

    #[test]
    fn on_the_wall_a_system_stands_whole() {
        let high = |height| vec![SystemRow { bars: (0, 3), height: 500 }, SystemRow { bars: (4, 9), height }];
        // 60 spaces in six tenths of a thousand pixels.
        assert_eq!(scale_for_height(&high(6_000), 16.0, 1_000.0), Some(10.0));
        assert_eq!(scale_for_height(&high(2_000), 16.0, 1_000.0), None);
        assert_eq!(scale_for_height(&high(20_000), 16.0, 1_000.0), Some(7.0));
        assert_eq!(scale_for_height(&high(20_000), 6.0, 1_000.0), None);
    }

    #[test]
    fn what_is_near_the_window_is_found() {
        let spans = [(0.0, 100.0), (110.0, 210.0), (220.0, 320.0), (330.0, 430.0)];
        assert_eq!(near(&spans, (120, 200), 0.0), 1..2);
        assert_eq!(near(&spans, (120, 200), 30.0), 0..3);
        assert_eq!(near(&spans, (100, 110), 0.0), 1..1);
        assert_eq!(near(&spans, (-900, -800), 50.0), 0..0);
        assert_eq!(near(&spans, (900, 950), 50.0), 4..4);
        assert_eq!(near(&spans, (900, 100), 0.0), 4..4);
        assert_eq!(near(&[], (0, 100), 900.0), 0..0);
    }

    #[test]
    fn the_bar_looked_at_stays() {
        let system = |bars| SystemRow { bars, height: 4_000 };
        let laid = LaidOut {
            systems: vec![system((0, 3)), system((4, 9)), system((10, 12))],
            scale: 10.0,
            ..LaidOut::default()
        };
        // Systems of 400 pixels in a window of 600, of which 50 are covered.
        let kept = |above, gone_to| laid.looked_at(above, (50.0, 600.0), gone_to);
        assert_eq!((kept(-20.0, None), kept(0.0, Some(2))), (None, None));
        assert_eq!((kept(100.0, None), kept(340.0, None)), (Some(0), Some(4)));
        assert_eq!((kept(100.0, Some(6)), kept(100.0, Some(11))), (Some(6), Some(0)));
        assert_eq!((kept(850.0, None), kept(901.0, None)), (Some(10), None));
        assert_eq!(LaidOut::default().looked_at(100.0, (0.0, 600.0), None), None);
    }

    #[test]
    fn systems_stand_under_each_other() {
        let system = |bars, height| SystemRow { bars, height };
        let laid = LaidOut {
            number: 1,
            systems: vec![system((0, 3), 1_000), system((4, 9), 2_000)],
            scale: 7.0,
            between: 10.0,
        };
        assert_eq!(laid.spans(), [(0.0, 70.0), (80.0, 220.0)]);
        assert_eq!((laid.system_of(5), laid.system_of(12)), (Some(1), None));
        assert!((scale(390, false) - 6.0).abs() < 1e-9 && (scale(1_900, false) - 11.0).abs() < 1e-9);
        assert!(scale(1_900, true) > 15.0);
    }
}
