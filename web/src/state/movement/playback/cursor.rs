//! Where in the drawn systems it is heard now, and when a system must be brought into sight.

use super::road::SoundingSpot;
use crookwise_opened::DrawnRow;

/// Milliseconds for which the page stays where the reader has scrolled it.
pub const OWN_WAY: f64 = 4_000.0;

/// The place of what is heard in a drawn system, in hundredths of a staff space from its left end; none where its bar does not
/// stand there.
#[must_use]
pub fn place(drawn: &DrawnRow, spot: SoundingSpot) -> Option<i32> {
    let (left, right) = span(drawn, spot)?;
    let own = drawn.onsets.iter().filter(|(bar, ..)| *bar == spot.bar);
    let (mut from, mut to) = ((0, left), (spot.of, right));
    for &(_, at, x) in own {
        if at <= spot.hundredths {
            from = (at, x);
        } else {
            to = (at, x);
            break;
        }
    }
    Some(between(from, to, spot.hundredths))
}

/// The room of its bar; bars that rest together have each their share.
fn span(drawn: &DrawnRow, spot: SoundingSpot) -> Option<(i32, i32)> {
    let &(_, left, right) = drawn.bars.iter().find(|(bar, ..)| *bar == spot.bar)?;
    let together = || drawn.bars.iter().filter(|(_, other, _)| *other == left);
    let count = i32::try_from(together().count()).unwrap_or(1).max(1);
    let before = together().filter(|(bar, ..)| *bar < spot.bar).count();
    let begin = between((0, left), (count, right), i32::try_from(before).unwrap_or(0));
    Some((begin, begin + (right - left) / count))
}

/// What lies between two places as a time lies between theirs.
fn between((from, left): (i32, i32), (to, right): (i32, i32), at: i32) -> i32 {
    let whole = i64::from(to - from).max(1);
    let way = i64::from(right - left) * i64::from(at - from) / whole;
    left + i32::try_from(way).unwrap_or(0)
}

/// Whether a system stands in what is seen of the music, or as much of it as has room there; all in pixels.
#[must_use]
pub fn is_in_sight((top, bottom): (f64, f64), (from, to): (f64, f64)) -> bool {
    let fits = bottom - top <= to - from;
    if fits {
        top >= from - 1.0 && bottom <= to + 1.0
    } else {
        top >= from - 1.0 && top <= from + (to - from) / 3.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn drawn() -> DrawnRow {
        DrawnRow {
            svg: String::new(),
            size: (9_000, 2_000),
            tops: Vec::new(),
            // The last three rest together.
            bars: vec![(4, 1_000, 3_000), (5, 3_000, 6_000), (6, 3_000, 6_000), (7, 3_000, 6_000)],
            onsets: vec![(4, 0, 1_400), (4, 200, 2_000), (4, 350, 2_700), (5, 0, 3_500)],
            heads: Vec::new(),
        }
    }

    #[test]
    fn it_stands_at_the_onset_that_is_heard_and_goes_on_to_the_next() {
        let at = |bar, hundredths| place(&drawn(), SoundingSpot { bar, hundredths, of: 400 });
        assert_eq!((at(4, 0), at(4, 100), at(4, 200)), (Some(1_400), Some(1_700), Some(2_000)));
        // From the last onset to the bar line.
        assert_eq!((at(4, 350), at(4, 375), at(4, 400)), (Some(2_700), Some(2_850), Some(3_000)));
        assert_eq!((at(6, 0), at(6, 200), at(7, 400)), (Some(4_000), Some(4_500), Some(6_000)));
        assert_eq!((at(3, 0), at(8, 0)), (None, None));
    }

    #[test]
    fn a_system_is_in_sight_when_all_of_it_is_or_its_head_where_it_is_higher() {
        let seen = (100.0, 500.0);
        assert!(is_in_sight((120.0, 480.0), seen) && is_in_sight((100.0, 500.0), seen));
        assert!(!is_in_sight((90.0, 300.0), seen) && !is_in_sight((400.0, 600.0), seen));
        assert!(is_in_sight((110.0, 900.0), seen) && !is_in_sight((300.0, 1_100.0), seen));
        assert!(!is_in_sight((-200.0, 400.0), seen));
    }
}
