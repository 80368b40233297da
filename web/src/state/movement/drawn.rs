//! Where things stand in a drawn system: heads, bars, times. Lengths are in hundredths of a staff space.

use crookwise_opened::DrawnRow;

/// A time of the score: the bar, counted from 0, and hundredths of a quarter note from its beginning.
pub type MomentSpot = (u32, i32);

/// Whether a place of a drawn system lies on the harmonies under its rows.
#[must_use]
pub fn is_on_harmonies(drawn: &DrawnRow, y: i32) -> bool {
    let upper = drawn.tops.len().checked_sub(2).and_then(|at| drawn.tops.get(at));
    upper.is_some_and(|top| y > top - 300)
}

/// A finger finds a head within so many hundredths of a staff space.
const REACH: i64 = 260;

/// The head nearest to a place of a drawn system, within reach of a finger: its staff and its note.
#[must_use]
pub fn head_at(drawn: &DrawnRow, x: i32, y: i32) -> Option<(u32, u32)> {
    let apart = |at: (i32, i32)| {
        let (right, down) = (i64::from(at.0) - i64::from(x), i64::from(at.1) - i64::from(y));
        right * right + down * down
    };
    let nearest = drawn.heads.iter().min_by_key(|(_, _, at)| apart(*at))?;
    (apart(nearest.2) <= REACH * REACH).then_some((nearest.0, nearest.1))
}

/// Where the heads of a note of a staff stand in a drawn system.
pub fn heads_of(drawn: &DrawnRow, (staff, note): (u32, u32)) -> impl Iterator<Item = (i32, i32)> {
    let own = drawn.heads.iter().filter(move |head| (head.0, head.1) == (staff, note));
    own.map(|(_, _, at)| *at)
}

/// The bar at a place of a drawn system.
#[must_use]
pub fn bar_at(drawn: &DrawnRow, x: i32) -> Option<u32> {
    drawn.bars.iter().find(|(_, left, right)| (*left..*right).contains(&x)).map(|(bar, ..)| *bar)
}

/// The stretch of a drawn system that some bars take, if any of them stand on it.
#[must_use]
pub fn stretch_of(drawn: &DrawnRow, (first, last): (u32, u32)) -> Option<(i32, i32)> {
    let own = drawn.bars.iter().filter(|(bar, ..)| (first..=last).contains(bar));
    let left = own.clone().map(|(_, left, _)| *left).min()?;
    let right = own.map(|(_, _, right)| *right).max()?;
    Some((left, right))
}

/// In the middle of the room that there is at least between a row and the next.
const UNDER_WRITTEN: i32 = 60;

/// Where it is covered what a written row sounds in a drawn system of the two, from a bar on: its left end and its top. None
/// where all of it is shown.
#[must_use]
pub fn cover_from(drawn: &DrawnRow, bar: u32) -> Option<(i32, i32)> {
    let [foot, _, ..] = drawn.feet.as_slice() else { return None };
    let (left, _) = stretch_of(drawn, (bar, u32::MAX))?;
    let is_whole = drawn.bars.iter().all(|(own, ..)| *own >= bar);
    // The bar line before it stays.
    Some((if is_whole { 0 } else { left + 20 }, foot + UNDER_WRITTEN))
}

/// The time at a place of a drawn system: that of the nearest onset.
#[must_use]
pub fn spot_at(drawn: &DrawnRow, x: i32) -> Option<MomentSpot> {
    let nearest = drawn.onsets.iter().min_by_key(|(.., at)| at.abs_diff(x))?;
    Some((nearest.0, nearest.1))
}

/// Where a time stands on a drawn system, between onsets too; none where its bar does not stand there. Behind the last onset of
/// the bar it goes on to the bar line where it is told how long the bar is (`of`, likewise), else it stays there.
#[must_use]
pub fn x_of(drawn: &DrawnRow, (bar, time): MomentSpot, of: Option<i32>) -> Option<i32> {
    let (left, right) = span(drawn, bar)?;
    let mut from = (0, left);
    let mut to = of.map(|of| (of, right));
    for &(_, at, x) in drawn.onsets.iter().filter(|(number, ..)| *number == bar) {
        if at <= time {
            from = (at, x);
        } else {
            to = Some((at, x));
            break;
        }
    }
    Some(to.map_or(from.1, |to| between(from, to, time)))
}

/// The room of a bar; bars that rest together have each their share.
fn span(drawn: &DrawnRow, bar: u32) -> Option<(i32, i32)> {
    let &(_, left, right) = drawn.bars.iter().find(|(number, ..)| *number == bar)?;
    let together = || drawn.bars.iter().filter(|(_, other, _)| *other == left);
    let count = i32::try_from(together().count()).unwrap_or(1).max(1);
    let before = together().filter(|(number, ..)| *number < bar).count();
    let begin = between((0, left), (count, right), i32::try_from(before).unwrap_or(0));
    Some((begin, begin + (right - left) / count))
}

/// What lies between two places as a time lies between theirs.
fn between((from, left): (i32, i32), (to, right): (i32, i32), at: i32) -> i32 {
    let whole = i64::from(to - from).max(1);
    let way = i64::from(right - left) * i64::from(at - from) / whole;
    left + i32::try_from(way).unwrap_or(0)
}

/// A system of two bars, for tests.
#[cfg(test)]
pub fn drawn() -> DrawnRow {
    DrawnRow {
        pictures: Vec::new(),
        size: (9_000, 2_000),
        tops: vec![300, 1_200],
        feet: vec![900, 1_800],
        bars: vec![(4, 1_000, 3_000), (5, 3_000, 6_000)],
        onsets: vec![(4, 0, 1_200), (4, 200, 2_000), (5, 0, 3_200), (5, 200, 4_600)],
        heads: vec![(0, 7, (1_500, 400)), (0, 8, (3_500, 600))],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_finger_finds_the_nearest_head_and_else_the_bar() {
        assert_eq!(head_at(&drawn(), 1_600, 500), Some((0, 7)));
        assert_eq!(head_at(&drawn(), 2_500, 1_500), None);
        assert_eq!(heads_of(&drawn(), (0, 8)).collect::<Vec<_>>(), [(3_500, 600)]);
        assert_eq!(bar_at(&drawn(), 2_500), Some(4));
        assert_eq!(bar_at(&drawn(), 200), None);
        assert_eq!(stretch_of(&drawn(), (5, 9)), Some((3_000, 6_000)));
        assert_eq!(stretch_of(&drawn(), (8, 9)), None);
    }

    #[test]
    fn what_sounds_is_covered_from_a_bar_on() {
        let from = |bar: u32| cover_from(&drawn(), bar);
        assert_eq!(
            (from(2), from(4), from(5), from(6)),
            (Some((0, 960)), Some((0, 960)), Some((3_020, 960)), None)
        );
        // What sounds as it is written has no row of its own.
        assert_eq!(cover_from(&DrawnRow { feet: vec![900], ..drawn() }, 4), None);
    }

    #[test]
    fn times_are_found_between_onsets_too() {
        assert_eq!(spot_at(&drawn(), 2_100), Some((4, 200)));
        assert_eq!(x_of(&drawn(), (4, 100), None), Some(1_600));
        assert_eq!(x_of(&drawn(), (5, 300), None), Some(4_600));
        assert_eq!(x_of(&drawn(), (9, 0), None), None);
    }

    fn resting() -> DrawnRow {
        DrawnRow {
            pictures: Vec::new(),
            size: (9_000, 2_000),
            tops: Vec::new(),
            feet: Vec::new(),
            // The last three rest together.
            bars: vec![(4, 1_000, 3_000), (5, 3_000, 6_000), (6, 3_000, 6_000), (7, 3_000, 6_000)],
            onsets: vec![(4, 0, 1_400), (4, 200, 2_000), (4, 350, 2_700), (5, 0, 3_500)],
            heads: Vec::new(),
        }
    }

    #[test]
    fn it_stands_at_the_onset_that_is_heard_and_goes_on_to_the_next() {
        let at = |bar, hundredths| x_of(&resting(), (bar, hundredths), Some(400));
        assert_eq!((at(4, 0), at(4, 100), at(4, 200)), (Some(1_400), Some(1_700), Some(2_000)));
        // From the last onset to the bar line.
        assert_eq!((at(4, 350), at(4, 375), at(4, 400)), (Some(2_700), Some(2_850), Some(3_000)));
        assert_eq!((at(6, 0), at(6, 200), at(7, 400)), (Some(4_000), Some(4_500), Some(6_000)));
        assert_eq!((at(3, 0), at(8, 0)), (None, None));
    }
}
