//! What of a page a link can hold.

use crate::{LONGEST, Link};
use core::fmt;
use crookwise_score::Passage;

/// A link would be longer than any that is opened, and what of the page it could hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooLong {
    /// Characters of the whole link.
    pub length: usize,
    /// How many staves would fit with all columns, counted from the top, and how many there are.
    pub staves: (usize, usize),
    /// How many columns would fit with all staves, counted from the left, and how many there are.
    pub columns: (usize, usize),
}

impl fmt::Display for TooLong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { length, staves, columns } = *self;
        write!(
            f,
            "This page is too long for a link: it takes {length} letters, and a link holds {LONGEST}. "
        )?;
        match (staves.0, columns.0) {
            (0, 0) => f.write_str("Not even one staff or one column of it would fit"),
            (fit, 0) => write!(f, "The first {fit} of its {} staves would fit", staves.1),
            (0, fit) => write!(f, "The first {fit} of its {} columns would fit", columns.1),
            (some, fit) => write!(
                f,
                "The first {some} of its {} staves would fit, or the first {fit} of its {} columns",
                staves.1, columns.1
            ),
        }
    }
}

impl core::error::Error for TooLong {}

impl Link {
    /// The text behind `#` to be sent, whole.
    ///
    /// # Errors
    /// Where it would be longer than [`LONGEST`]: [`TooLong`] says what of its page would fit.
    pub fn share(&self) -> Result<String, TooLong> {
        let text = self.encode();
        let length = text.chars().count();
        if length <= LONGEST {
            return Ok(text);
        }
        let empty = Passage::default();
        let whole = self.passage().unwrap_or(&empty);
        let fits = |part: Passage| self.about(part).short().is_some();
        let (staves, columns) = (whole.staves().len(), whole.columns().len());
        Err(TooLong {
            length,
            staves: (most(staves, |count| fits(with_staves(whole, count))), staves),
            columns: (most(columns, |count| fits(with_columns(whole, count))), columns),
        })
    }

    /// The passage it brings.
    fn passage(&self) -> Option<&Passage> {
        match self {
            Self::Read(page) => Some(&page.passage),
            Self::Practise(link) => link.exercise()?.passage.as_deref(),
            Self::Kept(_) => None,
        }
    }

    /// The same link about another passage.
    fn about(&self, passage: Passage) -> Self {
        let mut link = self.clone();
        match &mut link {
            Self::Read(page) => page.passage = passage,
            Self::Practise(practise) => {
                if let Some(exercise) = practise.exercise_mut() {
                    exercise.passage = Some(Box::new(passage));
                }
            }
            Self::Kept(_) => {}
        }
        link
    }
}

/// Only the first staves.
fn with_staves(whole: &Passage, count: usize) -> Passage {
    let mut part = whole.clone();
    while part.staves().len() > count && part.remove_staff(count).is_ok() {}
    part
}

/// Only the first columns.
fn with_columns(whole: &Passage, count: usize) -> Passage {
    let mut part = whole.clone();
    while part.remove_column(count).is_ok() {}
    part
}

/// The largest number under `all` that fits, where every smaller one fits too; 0 where none does.
fn most(all: usize, fits: impl Fn(usize) -> bool) -> usize {
    let (mut low, mut high) = (0, all);
    while high - low > 1 {
        let middle = low.midpoint(high);
        if fits(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}
