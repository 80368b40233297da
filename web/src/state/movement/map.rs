//! The map of the movement: what stands in each of its lines, where somebody enters, and what of it is in sight.
//! Times are thousandths of bars from the beginning, so that a place of the map is a whole number.

use super::ScoreNow;
use super::laid_out::LaidOut;
use crate::state::kept::Watched;
use crookwise_opened::{BarSpot, MovementRows, PlaceRow, PlaceSort, StaffMapRow};
use crookwise_score::printed::{change_in_short, pair_label};
use crookwise_theory::order::put_in_order;
use leptos::prelude::use_context;
use std::sync::Arc;

/// Thousandths of a bar.
pub const BAR: u32 = 1000;
/// Whole bars of rest before what counts as an entry, at least: a phrase that somebody counts.
pub const REST_BEFORE: u32 = 4;
/// Places that are named beside the map, at most.
const MOST_PLACES: usize = 8;

/// Handles on the map of Score; copy it where it is needed.
#[derive(Clone, Copy, Debug)]
pub struct MapState {
    /// What it is of: the opening, and the corrections that lie over it.
    pub of: Watched<Option<ScoreNow>>,
    /// What the places are of, likewise, once they were asked for.
    pub places_of: Watched<Option<ScoreNow>>,
    /// The movement from afar; nothing until it is known.
    pub rows: Watched<Option<Arc<MovementRows>>>,
    /// Its places worth hearing, once they are known.
    pub places: Watched<Vec<PlaceRow>>,
    /// Whether it is folded to a line; nothing until the reader has said so.
    pub folded: Watched<Option<bool>>,
    /// The width of its picture, in pixels.
    pub width: Watched<u32>,
    /// What is said of the bar that was gone to.
    pub said: Watched<String>,
    /// The bars that were in sight last while the reader looked at the music.
    pub sight: Watched<Option<(u32, u32)>>,
    /// What was typed to go to.
    pub typed: Watched<String>,
}

impl MapState {
    /// Nothing is known.
    #[must_use]
    pub fn new() -> Self {
        Self {
            of: Watched::new(None),
            places_of: Watched::new(None),
            rows: Watched::new(None),
            places: Watched::new(Vec::new()),
            folded: Watched::new(None),
            width: Watched::new(0),
            said: Watched::new(String::new()),
            sight: Watched::new(None),
            typed: Watched::new(String::new()),
        }
    }

    /// Nothing of it is of the movement that is open now.
    pub fn empty(self) {
        self.rows.set(None);
        self.places.set(Vec::new());
        self.said.set(String::new());
        self.sight.set(None);
        self.typed.set(String::new());
    }

    /// The map of Score.
    ///
    /// # Panics
    /// Never in Score, which provides it before anything else is made.
    #[must_use]
    pub fn get() -> Self {
        use_context::<Self>().expect("Score provides its map")
    }
}

impl Default for MapState {
    fn default() -> Self {
        Self::new()
    }
}

/// A line of the map: a staff, or the two of a pair.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct MapLine {
    /// Its staves.
    pub staves: Vec<u32>,
    /// Its label.
    pub label: String,
    /// Where it plays.
    pub stretches: Vec<MapStretch>,
    /// Where it leads, stands alone or is exposed.
    pub dark: Vec<(u32, u32)>,
    /// Its changes of crook: the bar and the label.
    pub crooks: Vec<(u32, String)>,
}

/// A stretch of playing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MapStretch {
    /// When it begins.
    pub from: u32,
    /// When it ends.
    pub to: u32,
    /// Whole bars of rest before it.
    pub rest: u32,
}

impl MapStretch {
    /// Whether it begins with an entry.
    #[must_use]
    pub const fn is_entry(&self) -> bool {
        self.rest >= REST_BEFORE
    }
}

/// A bar in which somebody enters.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MapEntry {
    /// The bar.
    pub bar: u32,
    /// The lines that enter there.
    pub lines: Vec<usize>,
    /// Whole bars of rest before it; the longest.
    pub rest: u32,
}

/// What is known of a movement.
#[derive(Clone, Copy, Debug)]
pub struct MapKnown<'a> {
    /// The movement from afar.
    pub rows: &'a MovementRows,
    /// Its places worth hearing.
    pub places: &'a [PlaceRow],
}

/// The lines of the map for these rows of the music, each one staff or the two of a pair; staves by their labels.
#[must_use]
pub fn lines(known: MapKnown<'_>, shown: &[Vec<u32>], label: &dyn Fn(u32) -> String) -> Vec<MapLine> {
    shown.iter().map(|staves| line(known, staves, label)).collect()
}

fn line(known: MapKnown<'_>, staves: &[u32], label: &dyn Fn(u32) -> String) -> MapLine {
    let own = || known.rows.staves.iter().filter(|row| staves.contains(&row.staff));
    let of_line = |place: &&PlaceRow| {
        matches!(place.kind, PlaceSort::Exposed | PlaceSort::Solo | PlaceSort::Leads)
            && place.staves.iter().any(|staff| staves.contains(staff))
    };
    let mut crooks: Vec<(u32, String)> = Vec::new();
    for change in own().flat_map(|row| &row.crooks) {
        let said = (change.bar, change_in_short(&change.label).to_owned());
        if !crooks.contains(&said) {
            crooks.push(said);
        }
    }
    put_in_order(&mut crooks, |(bar, _)| *bar);
    MapLine {
        staves: staves.to_vec(),
        label: match staves {
            [one, two, ..] => pair_label(&label(*one), &label(*two)),
            [one] => label(*one),
            [] => String::new(),
        },
        stretches: joined(known.rows, own()),
        dark: known
            .places
            .iter()
            .filter(of_line)
            .map(|place| (place.bars.0.saturating_mul(BAR), (place.bars.1 + 1).saturating_mul(BAR)))
            .collect(),
        crooks,
    }
}

/// Where any of some staves plays; what has less than a bar of rest between is one stretch.
fn joined<'a>(rows: &MovementRows, staves: impl Iterator<Item = &'a StaffMapRow>) -> Vec<MapStretch> {
    let mut all: Vec<(u32, u32)> = staves
        .flat_map(|staff| &staff.stretches)
        .map(|stretch| (time(rows, stretch.from), time(rows, stretch.to)))
        .collect();
    put_in_order(&mut all, |stretch| *stretch);
    let mut made: Vec<MapStretch> = Vec::new();
    for (from, to) in all {
        let before = made.last_mut();
        let silent = before.as_ref().map_or(0, |before| before.to.div_ceil(BAR));
        match before {
            Some(before) if from < before.to.saturating_add(BAR) => before.to = before.to.max(to),
            _ => made.push(MapStretch { from, to, rest: (from / BAR).saturating_sub(silent) }),
        }
    }
    made
}

fn time(rows: &MovementRows, spot: BarSpot) -> u32 {
    let (above, below) = spot.quarters;
    let length = usize::try_from(spot.bar).ok().and_then(|bar| rows.lengths.get(bar)).copied();
    let (long, of) = length.unwrap_or((4, 1));
    let within = i128::from(above) * i128::from(of) * i128::from(BAR);
    let whole = (i128::from(below) * i128::from(long)).max(1);
    let within = u32::try_from(within / whole).unwrap_or(0).min(BAR);
    spot.bar.saturating_mul(BAR).saturating_add(within)
}

/// The bars in which somebody enters, in their course.
#[must_use]
pub fn entries(lines: &[MapLine]) -> Vec<MapEntry> {
    let mut all: Vec<MapEntry> = Vec::new();
    for (at, line) in lines.iter().enumerate() {
        for stretch in line.stretches.iter().filter(|stretch| stretch.is_entry()) {
            let bar = stretch.from / BAR;
            match all.iter_mut().find(|entry| entry.bar == bar) {
                Some(entry) => {
                    entry.lines.push(at);
                    entry.rest = entry.rest.max(stretch.rest);
                }
                None => all.push(MapEntry { bar, lines: vec![at], rest: stretch.rest }),
            }
        }
    }
    put_in_order(&mut all, |entry| entry.bar);
    all
}

/// The staves of some lines, such as those that enter.
#[must_use]
pub fn staves_of(lines: &[MapLine], which: &[usize]) -> Vec<u32> {
    which.iter().filter_map(|at| lines.get(*at)).flat_map(|line| line.staves.iter().copied()).collect()
}

/// The lines that enter in a bar and are out of sight there, by what is told of the staves of each.
#[must_use]
pub fn enter_out_of_sight(
    (lines, entries): (&[MapLine], &[MapEntry]),
    bar: u32,
    is_out_of_sight: &dyn Fn(&[u32]) -> bool,
) -> Vec<usize> {
    let entry = entries.iter().find(|entry| entry.bar == bar);
    let entering = entry.map(|entry| entry.lines.as_slice()).unwrap_or_default();
    let is_out = |at: &&usize| lines.get(**at).is_some_and(|line| is_out_of_sight(&line.staves));
    entering.iter().filter(is_out).copied().collect()
}

/// The first entry after a bar.
#[must_use]
pub fn next(entries: &[MapEntry], here: u32) -> Option<&MapEntry> {
    entries.iter().find(|entry| entry.bar > here)
}

/// The last entry before a bar.
#[must_use]
pub fn before(entries: &[MapEntry], here: u32) -> Option<&MapEntry> {
    entries.iter().rev().find(|entry| entry.bar < here)
}

/// The first and the last bar of the systems that stand in the window: those of which half is seen, or which fill half of
/// it; else the one of which most is seen. The window is told in pixels from the top of all systems.
#[must_use]
pub fn in_sight(laid: &LaidOut, (top, bottom): (f64, f64)) -> Option<(u32, u32)> {
    let seen: Vec<f64> = laid.spans().iter().map(|(from, to)| to.min(bottom) - from.max(top)).collect();
    let most = seen.iter().copied().fold(0.0, f64::max);
    if most <= 0.0 {
        return None;
    }
    let half = |at: usize| (laid.height(at) / 2.0).min((bottom - top) / 2.0).min(most);
    let shown = || laid.systems.iter().enumerate().filter(|(at, _)| seen.get(*at) >= Some(&half(*at)));
    let first = shown().next().map(|(_, system)| system.bars.0)?;
    let last = shown().next_back().map(|(_, system)| system.bars.1)?;
    Some((first, last))
}

/// The same while the music is looked at; none where it ends in the upper half of the window: who looks at what is under it has
/// not gone there in the music.
#[must_use]
pub fn looked_at(laid: &LaidOut, (top, bottom): (f64, f64)) -> Option<(u32, u32)> {
    let end = laid.spans().last().map(|(_, end)| *end)?;
    if end < top + (bottom - top) / 2.0 { None } else { in_sight(laid, (top, bottom)) }
}

/// The bar from which the reader goes on: the one he was led to, while it is in sight, else the first in sight.
#[must_use]
pub fn here(led_to: Option<u32>, in_sight: Option<(u32, u32)>) -> u32 {
    let Some((first, last)) = in_sight else { return led_to.unwrap_or(0) };
    led_to.filter(|bar| (first..=last).contains(bar)).unwrap_or(first)
}

/// The places of these staves in bars that are in sight, in their course; entries are told by the lines themselves.
#[must_use]
pub fn places(all: &[PlaceRow], staves: &[u32], (first, last): (u32, u32)) -> Vec<PlaceRow> {
    let is_here = |place: &&PlaceRow| {
        place.kind != PlaceSort::Entry
            && place.bars.0 <= last
            && place.bars.1 >= first
            && place.staves.iter().any(|staff| staves.contains(staff))
    };
    let mut some: Vec<PlaceRow> = all.iter().filter(is_here).cloned().collect();
    put_in_order(&mut some, |place| place.bars);
    some.truncate(MOST_PLACES);
    some
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_opened::CrookRow;
    use crookwise_opened::{StretchRow, SystemRow};

    fn spot(bar: u32, quarters: i64) -> BarSpot {
        BarSpot { bar, quarters: (quarters, 1) }
    }

    fn staff(staff: u32, stretches: &[(BarSpot, BarSpot)]) -> StaffMapRow {
        let stretch =
            |(from, to): &(BarSpot, BarSpot)| StretchRow { from: *from, to: *to, first: 0, rest: 0 };
        StaffMapRow { staff, stretches: stretches.iter().map(stretch).collect(), ..StaffMapRow::default() }
    }

    fn place(kind: PlaceSort, staves: &[u32], bars: (u32, u32)) -> PlaceRow {
        PlaceRow { kind, staves: staves.to_vec(), bars, first: 0 }
    }

    /// Forty bars of four quarter notes: two horns that share a line, a trumpet.
    fn rows() -> MovementRows {
        let change = |bar: u32, label: &str| CrookRow { bar, player: None, label: label.into(), name: None };
        let mut horn = staff(4, &[(spot(2, 0), spot(5, 4)), (spot(20, 2), spot(23, 4))]);
        horn.crooks = vec![change(12, "Corno I in G"), change(30, "Es")];
        let mut other = staff(5, &[(spot(6, 0), spot(7, 1)), (spot(10, 0), spot(10, 4))]);
        other.crooks = vec![change(12, "Corno II in G")];
        MovementRows {
            staves: vec![horn, other, staff(6, &[(spot(20, 0), spot(39, 4))])],
            lengths: vec![(4, 1); 40],
            ..MovementRows::default()
        }
    }

    fn found() -> Vec<PlaceRow> {
        vec![
            place(PlaceSort::Solo, &[5], (10, 10)),
            place(PlaceSort::HornFifths, &[4, 5], (20, 23)),
            place(PlaceSort::Entry, &[6], (20, 20)),
            place(PlaceSort::Fanfare, &[6], (18, 22)),
        ]
    }

    fn made() -> Vec<MapLine> {
        let label = |staff: u32| match staff {
            4 => "Corno I in D".to_owned(),
            5 => "Corno II in D".to_owned(),
            _ => "Tromba in D".to_owned(),
        };
        lines(MapKnown { rows: &rows(), places: &found() }, &[vec![4, 5], vec![6]], &label)
    }

    #[test]
    fn a_pair_is_one_line_and_plays_where_either_plays() {
        let lines = made();
        assert_eq!(lines[0].label, "Corno I, II in D");
        let stretches: Vec<_> = lines[0].stretches.iter().map(|one| (one.from, one.to, one.rest)).collect();
        // The second horn goes on where the first ends: one stretch. Then two whole bars of rest, and nine.
        assert_eq!(stretches, [(2_000, 7_250, 2), (10_000, 11_000, 2), (20_500, 24_000, 9)]);
        assert_eq!(lines[0].dark, [(10_000, 11_000)]);
        // A change that both make is told once; a label without "in" is told whole.
        assert_eq!(lines[0].crooks, [(12, "in G".to_owned()), (30, "Es".to_owned())]);
    }

    #[test]
    fn who_enters_in_one_bar_enters_together_and_short_rests_are_no_entries() {
        let entries = entries(&made());
        assert_eq!(entries, [MapEntry { bar: 20, lines: vec![0, 1], rest: 20 }]);
        assert_eq!(
            (staves_of(&made(), &entries[0].lines), staves_of(&made(), &[1, 7])),
            (vec![4, 5, 6], vec![6])
        );
        assert_eq!(next(&entries, 3).map(|entry| entry.bar), Some(20));
        assert_eq!(next(&entries, 20), None);
        assert_eq!(before(&entries, 20), None);
        assert_eq!(before(&entries, 21).map(|entry| entry.bar), Some(20));
    }

    #[test]
    fn what_stands_in_the_window_is_told_by_whole_systems() {
        let system = |bars| SystemRow { bars, height: 1_000, ..SystemRow::default() };
        let systems = vec![system((0, 3)), system((4, 9)), system((10, 14))];
        // Each is 100 pixels high, with 20 between.
        let laid = LaidOut { number: 1, systems, scale: 10.0, between: 20.0, ..LaidOut::default() };
        assert_eq!(in_sight(&laid, (0.0, 400.0)), Some((0, 14)));
        assert_eq!(in_sight(&laid, (40.0, 260.0)), Some((0, 9)));
        assert_eq!(in_sight(&laid, (60.0, 300.0)), Some((4, 14)));
        // A window lower than a system.
        assert_eq!(in_sight(&laid, (130.0, 170.0)), Some((4, 9)));
        assert_eq!(in_sight(&laid, (-400.0, -10.0)), None);
        assert_eq!(in_sight(&laid, (-400.0, 10.0)), Some((0, 3)));
        assert_eq!(in_sight(&LaidOut::default(), (0.0, 10.0)), None);
        // Who looks at what is under the music has not gone to its end.
        assert_eq!(
            (looked_at(&laid, (180.0, 480.0)), looked_at(&laid, (250.0, 550.0))),
            (Some((10, 14)), None)
        );
        assert_eq!(in_sight(&laid, (250.0, 550.0)), Some((10, 14)));
    }

    #[test]
    fn the_reader_goes_on_from_where_he_went_while_that_is_seen() {
        assert_eq!(here(Some(6), Some((4, 9))), 6);
        assert_eq!(here(Some(6), Some((10, 14))), 10);
        assert_eq!((here(None, Some((4, 9))), here(None, None), here(Some(3), None)), (4, 0, 3));
    }

    #[test]
    fn places_in_sight_are_those_of_the_chosen_staves() {
        let kinds = |staves: &[u32], bars| -> Vec<PlaceSort> {
            places(&found(), staves, bars).iter().map(|place| place.kind).collect()
        };
        assert_eq!(kinds(&[4, 6], (19, 30)), [PlaceSort::Fanfare, PlaceSort::HornFifths]);
        assert_eq!(kinds(&[4], (0, 12)), []);
        assert_eq!(kinds(&[5], (0, 12)), [PlaceSort::Solo]);
    }

    #[test]
    fn who_enters_out_of_sight_is_found() {
        let line = |staves: &[u32]| MapLine { staves: staves.to_vec(), ..MapLine::default() };
        let lines = [line(&[4, 5]), line(&[8]), line(&[10])];
        let entries = [MapEntry { bar: 9, lines: vec![0, 2], rest: 5 }];
        let out = |bar, unseen: &[u32]| {
            let is_out = |staves: &[u32]| staves.iter().any(|staff| unseen.contains(staff));
            enter_out_of_sight((&lines, &entries), bar, &is_out)
        };
        assert_eq!((out(9, &[10, 8]), out(9, &[5]), out(9, &[])), (vec![2], vec![0], vec![]));
        assert_eq!(out(8, &[4, 8, 10]), Vec::<usize>::new());
    }
}
