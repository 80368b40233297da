//! Places of the road: which bar stands where on it, and which time of the score is heard when.

use super::Places;
use crookwise_opened::{MovementRows, RoadSpot};

/// A time of the score that is heard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SoundingSpot {
    /// Its bar.
    pub bar: u32,
    /// Hundredths of quarter notes from the beginning of the bar.
    pub hundredths: i32,
    /// How long the bar is, likewise.
    pub of: i32,
}

/// How many bars the road has.
#[must_use]
pub fn count(rows: &MovementRows) -> u32 {
    u32::try_from(rows.begins.len().saturating_sub(1)).unwrap_or(u32::MAX)
}

/// When a bar of the road begins, in millionths of a second; beyond its end its end.
#[must_use]
pub fn begins(rows: &MovementRows, place: u32) -> u64 {
    let at = usize::try_from(place).ok().and_then(|place| rows.begins.get(place));
    at.or(rows.begins.last()).copied().unwrap_or(0)
}

/// Each leg with the place of its first bar.
fn legs(rows: &MovementRows) -> impl Iterator<Item = (u32, (u32, u32))> {
    let mut next = 0_u32;
    rows.legs.iter().map(move |leg| {
        let place = next;
        next = next.saturating_add(leg.bars.1.saturating_sub(leg.bars.0)).saturating_add(1);
        (place, leg.bars)
    })
}

/// The first place at which a bar is played.
#[must_use]
pub fn place_of(rows: &MovementRows, bar: u32) -> Option<u32> {
    let mut all = legs(rows).filter(|(_, (first, last))| (*first..=*last).contains(&bar));
    all.next().map(|(place, (first, _))| place + (bar - first))
}

/// The bar that is played at a place.
#[must_use]
pub fn bar_at(rows: &MovementRows, place: u32) -> Option<u32> {
    let leg = legs(rows).filter(|(begins, _)| *begins <= place).last();
    leg.map(|(begins, (first, last))| (first + (place - begins)).min(last))
}

/// The places that some bars take: where they follow each other as they stand if they do so anywhere, else from the first of
/// them to the last along the road.
#[must_use]
pub fn places_of(rows: &MovementRows, (first, last): (u32, u32)) -> Option<Places> {
    let whole = legs(rows).find(|(_, (from, to))| *from <= first && last <= *to);
    if let Some((place, (from, _))) = whole {
        return Some((place + (first - from), place + (last - from) + 1));
    }
    let begin = place_of(rows, first)?;
    let mut later = legs(rows).filter_map(|(place, (from, to))| {
        let at = (from..=to).contains(&last).then(|| place + (last - from))?;
        (at >= begin).then_some(at)
    });
    later.next().map(|end| (begin, end + 1))
}

/// The place that is heard at a time of the road, in millionths of a second.
#[must_use]
pub fn place_at(rows: &MovementRows, at: u64) -> u32 {
    let after = rows.begins.partition_point(|begins| *begins <= at);
    u32::try_from(after.saturating_sub(1)).unwrap_or(0).min(count(rows).saturating_sub(1))
}

/// The time of the score that is heard then; `None` where nothing is.
#[must_use]
pub fn spot_at(rows: &MovementRows, at: u64) -> Option<SoundingSpot> {
    let place = place_at(rows, at);
    let bar = bar_at(rows, place)?;
    let of = hundredths(*rows.lengths.get(usize::try_from(bar).ok()?)?);
    // Between two of these times quarter notes are equally long.
    let own = rows.turns.iter().filter(|turn| turn.spot.place == place);
    let known = own.map(|turn| (turn.at, hundredths(turn.spot.quarters)));
    let end = (begins(rows, place.saturating_add(1)), of);
    let (mut from, mut to) = ((begins(rows, place), 0), end);
    for turn in known {
        if turn.0 <= at {
            from = turn;
        } else {
            to = turn;
            break;
        }
    }
    let (since, whole) = (at.saturating_sub(from.0), to.0.saturating_sub(from.0).max(1));
    let way = i128::from(to.1 - from.1) * i128::from(since) / i128::from(whole);
    let within = i32::try_from(way).unwrap_or(0) + from.1;
    Some(SoundingSpot { bar, hundredths: within.clamp(0, of), of })
}

/// Quarter notes as hundredths.
fn hundredths((above, below): (i64, i64)) -> i32 {
    i32::try_from(i128::from(above) * 100 / i128::from(below.max(1))).unwrap_or(i32::MAX)
}

/// The beginning and the end of some places, to be asked for.
#[must_use]
pub const fn asked((from, to): Places) -> (RoadSpot, RoadSpot) {
    (RoadSpot::bar(from), RoadSpot::bar(to))
}

#[cfg(test)]
pub(in crate::state::movement) mod tests {
    use super::*;
    use crookwise_opened::{LegRow, TurnRow};

    /// Bars 0 to 3 twice, then to 5; each a second long, but the second and sixth of the road two: a fermata on their last
    /// quarter note.
    pub(in crate::state::movement) fn rows() -> MovementRows {
        let leg = |bars, pass| LegRow { bars, pass };
        let turn = |place, at| TurnRow { at, spot: RoadSpot { place, quarters: (3, 1) } };
        MovementRows {
            lengths: vec![(4, 1); 6],
            legs: vec![leg((0, 3), 1), leg((0, 5), 2)],
            begins: [0, 1, 3, 4, 5, 6, 8, 9, 10, 11, 12].map(|second| second * 1_000_000).to_vec(),
            turns: vec![turn(1, 1_750_000), turn(5, 6_750_000)],
            ..MovementRows::default()
        }
    }

    #[test]
    fn bars_are_found_on_the_road_and_back() {
        let rows = rows();
        assert_eq!(count(&rows), 10);
        let bars: Vec<_> = (0..10).map(|place| bar_at(&rows, place).unwrap()).collect();
        assert_eq!(bars, [0, 1, 2, 3, 0, 1, 2, 3, 4, 5]);
        assert_eq!((place_of(&rows, 2), place_of(&rows, 4), place_of(&rows, 6)), (Some(2), Some(8), None));
        // Where they follow each other; a repeat between them is not taken.
        assert_eq!(places_of(&rows, (1, 2)), Some((1, 3)));
        assert_eq!(places_of(&rows, (2, 4)), Some((6, 9)));
        assert_eq!(places_of(&rows, (5, 7)), None);
        // Endings: bar 2 of the first time is passed over by the second.
        let leg = |bars, pass| LegRow { bars, pass };
        let endings =
            MovementRows { legs: vec![leg((0, 2), 1), leg((0, 1), 2), leg((3, 4), 1)], ..rows.clone() };
        assert_eq!(places_of(&endings, (1, 3)), Some((1, 6)));
        assert_eq!(place_at(&rows, 5_900_000), 4);
        assert_eq!((place_at(&rows, 0), place_at(&rows, 99_000_000)), (0, 9));
    }

    #[test]
    fn what_is_heard_stands_where_its_quarter_note_stands() {
        let rows = rows();
        let at = |at: u64| spot_at(&rows, at).map(|spot| (spot.bar, spot.hundredths));
        assert_eq!(at(500_000), Some((0, 200)));
        assert_eq!(at(1_500_000), Some((1, 200)));
        // Under the fermata a quarter note takes a second and a quarter.
        assert_eq!(at(2_375_000), Some((1, 350)));
        assert_eq!(at(4_000_000), Some((3, 0)));
        assert_eq!(at(6_750_000), Some((1, 300)));
        assert_eq!(at(12_000_000), Some((5, 400)));
        assert_eq!(spot_at(&MovementRows::default(), 0), None);
    }
}
