//! The movement as music on the screen: which rows are shown and how, where its systems stand, what was tapped.

use crate::state::glance::Glance;
use crate::state::kept::Watched;
use crate::state::movement::ScoreNow;
use crate::state::movement::drawn::MomentSpot;
use crate::state::movement::laid_out::LaidOut;
use crate::state::movement::on_wall::{MOST_ROWS, OnTheWall};
use crate::words;
use crookwise_opened::{HarmonyRow, RowWanted, SystemRow, TogetherShown};
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
    /// How far down it was tapped in the system of its bar, in hundredths of a staff space.
    pub down: i32,
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
    /// Rows that may take their place: where these stand nothing moves then.
    pub unseen: Vec<RowWanted>,
    /// Whether the harmonies stand under them.
    pub together: TogetherShown,
    /// Whether it is on the wall.
    pub on_wall: bool,
    /// The width there is, in pixels.
    pub width: u32,
}

impl SheetAsked {
    /// As the class sees it on the wall: as many parts as can be read from behind, what they sound in the place of what is
    /// written once it is revealed, and what it makes together under them. What is hidden has its room.
    #[must_use]
    pub fn for_the_wall(mut self, wall: OnTheWall) -> Self {
        self.rows.truncate(MOST_ROWS);
        let as_it = |sounds: bool| {
            let row = |row: &RowWanted| RowWanted {
                written: !sounds,
                sounding: sounds,
                made: !sounds,
                ..row.clone()
            };
            self.rows.iter().map(row).collect()
        };
        (self.rows, self.unseen) = (as_it(wall.sounding), as_it(!wall.sounding));
        self.together = if wall.chords { TogetherShown::Shown } else { TogetherShown::Hidden };
        self.on_wall = true;
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
    /// How many pixels of the window the map covers at its head.
    pub covered: Watched<f64>,
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
    /// Whether the press that is under way has shut a list, and does nothing else.
    pub shuts: Watched<bool>,
    /// Chosen bars that the reader has left: they are marked no longer.
    pub left: Watched<Option<(String, String)>>,
    /// The width on the wall, and the pixels of a staff space there; nothing elsewhere.
    pub wall_scale: Watched<Option<(u32, f64)>>,
    /// Whether bars were tapped, and where they go is asked.
    pub picked: Watched<bool>,
    /// The bars that are chosen by tapping: from the first tapped on.
    pub anchor: Watched<Option<u32>>,
    /// The bar that was gone to last.
    pub gone_to: Watched<Option<u32>>,
    /// Whose bar it is: the staves that enter there, or were asked for; none where it is anybody's.
    pub of_staves: Watched<Vec<u32>>,
    /// The bar that was shown last, how far down the window began then, and its room, in pixels.
    pub shown_in: Watched<Option<(u32, f64, f64)>>,
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
            covered: Watched::new(0.0),
            tapped: Watched::new(None),
            together: Watched::new(false),
            harmonies_of: Watched::new(None),
            harmonies: Watched::new(Vec::new()),
            spot: Watched::new(None),
            wall: Watched::new(None),
            wall_scale: Watched::new(None),
            shuts: Watched::new(false),
            left: Watched::new(None),
            picked: Watched::new(false),
            anchor: Watched::new(None),
            gone_to: Watched::new(None),
            of_staves: Watched::new(Vec::new()),
            shown_in: Watched::new(None),
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
            self.left.set(None);
            // A link may have led to a bar of it already.
            if self.arrives_at.get_untracked() != self.gone_to.get_untracked() {
                self.gone_to.set(None);
            }
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

    /// Notes the bar that is gone to, and whose it is.
    pub fn go_to(self, bar: u32, staves: &[u32]) {
        self.of_staves.set(staves.to_vec());
        self.gone_to.set(Some(bar));
    }

    /// Whose a bar is that is shown: nobody's unless it was gone to.
    #[must_use]
    pub fn whose(self, bar: u32) -> Vec<u32> {
        if self.gone_to.get() == Some(bar) { self.of_staves.get() } else { Vec::new() }
    }

    /// Looks at bars, and at a moment no more.
    pub fn pick(self) {
        self.spot.set(None);
        self.tapped.set(None);
        self.left.set(None);
        self.picked.set(true);
    }

    /// Looks at the chosen bars no more: `typed` are those. The next tap chooses anew.
    pub fn leave(self, typed: (String, String)) {
        self.picked.set(false);
        self.anchor.set(None);
        self.left.set(Some(typed));
    }

    /// Whether the chosen bars are marked: not where the reader has left them, unless they are heard over and over.
    #[must_use]
    pub fn marks(self, typed: &(String, String), loops: bool) -> bool {
        loops || self.left.map(|left| left == typed) != Some(true)
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

/// Pixels between two systems: names of chords have their room there.
#[must_use]
pub fn between(together: TogetherShown) -> f64 {
    if together == TogetherShown::No { 18.0 } else { 46.0 }
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
    fn what_is_hidden_on_the_wall_has_its_room() {
        let asked = SheetAsked {
            opening: 1,
            laid: String::new(),
            rows: rows(&[4, 5, 6, 8, 10, 11], &[(4, 5)], RowsShown::Both),
            unseen: Vec::new(),
            together: TogetherShown::No,
            on_wall: false,
            width: 1_900,
        };
        let hidden = asked.clone().for_the_wall(OnTheWall::default());
        let chords = asked.clone().for_the_wall(OnTheWall { sounding: false, chords: true });
        assert_eq!((hidden.together, chords.together), (TogetherShown::Hidden, TogetherShown::Shown));
        assert!((between(hidden.together) - between(chords.together)).abs() < 1e-9);
        let shown = asked.for_the_wall(OnTheWall { sounding: true, chords: false });
        assert_eq!((&hidden.rows, &hidden.unseen), (&shown.unseen, &shown.rows));
        assert!(hidden.rows.len() == MOST_ROWS && hidden.rows.iter().all(|row| row.written && !row.sounding));
    }

    #[test]
    fn on_the_wall_a_system_stands_whole() {
        let system = |bars, height| SystemRow { bars, height, ..SystemRow::default() };
        let high = |height| vec![system((0, 3), 500), system((4, 9), height)];
        // 60 spaces in six tenths of a thousand pixels.
        assert_eq!(scale_for_height(&high(6_000), 16.0, 1_000.0), Some(10.0));
        assert_eq!(scale_for_height(&high(2_000), 16.0, 1_000.0), None);
        assert_eq!(scale_for_height(&high(20_000), 16.0, 1_000.0), Some(7.0));
        assert_eq!(scale_for_height(&high(20_000), 6.0, 1_000.0), None);
        assert!((scale(390, false) - 6.0).abs() < 1e-9 && (scale(1_900, false) - 11.0).abs() < 1e-9);
        assert!(scale(1_900, true) > 15.0);
    }
}
