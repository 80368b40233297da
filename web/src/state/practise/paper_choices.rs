//! The choices of questions on paper, under what is engraved: of one question as they come, of several that share a picture
//! each under its number, two beside each other and a little smaller.

/// Pixels over the first row.
const OVER: f64 = 6.0;
/// From which width on a choice of one question goes on in the next row, in pixels.
const WIDEST: f64 = 320.0;
/// Questions beside each other where they are numbered; the pixels of all, between them, and between those under each other.
const BESIDE: usize = 2;
const ALL: f64 = 680.0;
const GAP: f64 = 26.0;
const BETWEEN: f64 = 8.0;

/// The measures of a list, in pixels.
struct Measures {
    row: f64,
    letter: f64,
    /// What stands before a choice: its own letter, and the number of its question.
    before: f64,
}

const ALONE: Measures = Measures { row: 20.0, letter: 7.6, before: 30.0 };
const NUMBERED: Measures = Measures { row: 17.0, letter: 7.2, before: 46.0 };

/// The choices of a question.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChoiceList {
    /// Its number, where several share a picture.
    pub number: Option<usize>,
    /// What to choose from.
    pub choices: Vec<String>,
}

impl ChoiceList {
    const fn measures(&self) -> Measures {
        if self.number.is_some() { NUMBERED } else { ALONE }
    }

    /// The width in pixels in which each choice has a row of its own, or the widest that is given.
    fn width(&self) -> f64 {
        let Measures { letter, before, .. } = self.measures();
        let letters = self.choices.iter().map(|one| one.chars().count()).max().unwrap_or_default();
        (letters as f64 * letter + before).min(WIDEST)
    }

    /// The height of its rows on so much width, both in pixels.
    fn height(&self, width: f64) -> f64 {
        let Measures { row, letter, before } = self.measures();
        let letters = (((width - before) / letter).floor() as usize).max(1);
        let rows: usize = self.choices.iter().map(|one| one.chars().count().div_ceil(letters).max(1)).sum();
        row * rows as f64
    }
}

/// The least width of these lists, in pixels.
#[must_use]
pub fn least_width(lists: &[ChoiceList]) -> f64 {
    if are_numbered(lists) { ALL } else { lists.iter().map(ChoiceList::width).fold(0.0, f64::max) }
}

/// The height of these lists on so much width, both in pixels.
#[must_use]
pub fn height(lists: &[ChoiceList], width: f64) -> f64 {
    let (beside, between) = if are_numbered(lists) { (BESIDE, BETWEEN) } else { (1, 0.0) };
    let own = (width - GAP * (beside - 1) as f64) / beside as f64;
    let tallest = |row: &[ChoiceList]| row.iter().map(|list| list.height(own)).fold(0.0, f64::max);
    let heights: f64 = lists.chunks(beside).map(|row| tallest(row) + between).sum();
    if heights > 0.0 { OVER + heights } else { 0.0 }
}

fn are_numbered(lists: &[ChoiceList]) -> bool {
    lists.iter().any(|list| list.number.is_some())
}
