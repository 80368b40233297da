//! The notes of the music walked through by keys: from one to the next of its row, and from row to row.

use crookwise_opened::DrawnRow;
use crookwise_theory::order::in_order;

/// A step from note to note.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoteStep {
    /// To the one before in its row.
    Before,
    /// To the one behind.
    After,
    /// To the nearest of the row over it.
    Up,
    /// To the nearest of the row under it.
    Down,
}

impl NoteStep {
    /// The step that a key means.
    #[must_use]
    pub fn of_key(key: &str) -> Option<Self> {
        match key {
            "ArrowLeft" => Some(Self::Before),
            "ArrowRight" => Some(Self::After),
            "ArrowUp" => Some(Self::Up),
            "ArrowDown" => Some(Self::Down),
            _ => None,
        }
    }
}

/// The row in which a head stands.
#[must_use]
pub fn row_of(drawn: &DrawnRow, at: usize) -> Option<usize> {
    let (.., (_, y)) = drawn.heads.get(at)?;
    drawn.feet.iter().position(|foot| y <= foot)
}

/// The heads of a row in their course, those of a chord from the top.
fn heads_in(drawn: &DrawnRow, row: usize) -> Vec<usize> {
    let own = (0..drawn.heads.len()).filter(|at| row_of(drawn, *at) == Some(row));
    in_order(own, |at| drawn.heads.get(*at).map(|(.., place)| *place))
}

/// The head that a step leads to from one of a drawn system; none where it leads out of it, or there is no further row.
#[must_use]
pub fn stepped(drawn: &DrawnRow, at: usize, step: NoteStep) -> Option<usize> {
    let row = row_of(drawn, at)?;
    let along = |by: fn(usize) -> Option<usize>| {
        let own = heads_in(drawn, row);
        own.get(by(own.iter().position(|one| *one == at)?)?).copied()
    };
    let x_of = |at: &usize| drawn.heads.get(*at).map_or(0, |(.., (x, _))| *x);
    let nearest =
        |row: usize| heads_in(drawn, row).into_iter().min_by_key(|other| x_of(other).abs_diff(x_of(&at)));
    match step {
        NoteStep::Before => along(|here| here.checked_sub(1)),
        NoteStep::After => along(|here| here.checked_add(1)),
        NoteStep::Up => (0..row).rev().find_map(nearest),
        NoteStep::Down => (row + 1..drawn.feet.len()).find_map(nearest),
    }
}

/// The first or the last head of a row of a drawn system.
#[must_use]
pub fn end_of(drawn: &DrawnRow, row: usize, step: NoteStep) -> Option<usize> {
    let own = heads_in(drawn, row);
    if step == NoteStep::Before { own.last().copied() } else { own.first().copied() }
}

/// The first head of the uppermost row that has one from a bar on; none where the system has none there.
#[must_use]
pub fn first_from(drawn: &DrawnRow, bar: u32) -> Option<usize> {
    let left = drawn.bars.iter().find(|(own, ..)| *own >= bar).map_or(0, |(_, left, _)| *left);
    let is_there = |at: &usize| drawn.heads.get(*at).is_some_and(|(.., (x, _))| *x >= left);
    (0..drawn.feet.len()).find_map(|row| heads_in(drawn, row).into_iter().find(is_there))
}

/// Which note of its bar and row a head is, counted from 1.
#[must_use]
pub fn number_in(drawn: &DrawnRow, at: usize, (left, right): (i32, i32)) -> usize {
    let Some(row) = row_of(drawn, at) else { return 1 };
    let is_in = |at: &usize| drawn.heads.get(*at).is_some_and(|(.., (x, _))| (left..right).contains(x));
    heads_in(drawn, row).into_iter().filter(is_in).position(|one| one == at).map_or(1, |at| at + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two rows of two bars: three notes, the last two a chord, over two.
    fn drawn() -> DrawnRow {
        let heads = vec![
            (0, 9, (5_000, 400)),
            (0, 7, (1_000, 300)),
            (0, 8, (5_000, 200)),
            (1, 3, (1_200, 1_300)),
            (1, 4, (6_000, 1_200)),
        ];
        DrawnRow {
            pictures: Vec::new(),
            size: (7_000, 1_800),
            tops: vec![200, 1_100],
            feet: vec![900, 1_800],
            bars: vec![(4, 500, 3_000), (5, 3_000, 7_000)],
            onsets: Vec::new(),
            heads,
        }
    }

    #[test]
    fn arrows_lead_along_a_row_and_from_row_to_row() {
        let drawn = drawn();
        let walk = |steps: &[NoteStep]| {
            steps.iter().try_fold(1, |at, step| stepped(&drawn, at, *step)).map(|at| drawn.heads[at].1)
        };
        use NoteStep::{After, Before, Down, Up};
        assert_eq!(walk(&[]), Some(7));
        assert_eq!((walk(&[After]), walk(&[After, After])), (Some(8), Some(9)));
        assert_eq!((walk(&[After, After, After]), walk(&[Before]), walk(&[Up])), (None, None, None));
        assert_eq!(
            (walk(&[Down]), walk(&[After, Down]), walk(&[After, Down, Up])),
            (Some(3), Some(4), Some(8))
        );
        assert_eq!(walk(&[Down, Down]), None);
    }

    #[test]
    fn another_system_is_entered_at_its_end_and_the_walk_where_the_reader_is() {
        let drawn = drawn();
        let note = |at: Option<usize>| at.map(|at| drawn.heads[at].1);
        assert_eq!(note(end_of(&drawn, 0, NoteStep::After)), Some(7));
        assert_eq!(note(end_of(&drawn, 1, NoteStep::Before)), Some(4));
        assert_eq!(end_of(&drawn, 2, NoteStep::After), None);
        assert_eq!((note(first_from(&drawn, 0)), note(first_from(&drawn, 5))), (Some(7), Some(8)));
        assert_eq!(first_from(&DrawnRow { heads: Vec::new(), ..drawn.clone() }, 0), None);
        assert_eq!((number_in(&drawn, 0, (3_000, 7_000)), number_in(&drawn, 1, (500, 3_000))), (2, 1));
    }
}
