//! What of a page a link can hold.

use crate::{LONGEST, Link, ReadPage};
use core::fmt;

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

impl ReadPage {
    /// The link to this page, whole.
    ///
    /// # Errors
    /// Where it would be longer than [`LONGEST`]: [`TooLong`] says what would fit.
    pub fn share(&self) -> Result<String, TooLong> {
        let length = |page: &Self| Link::Read(Box::new(page.clone())).encode().chars().count();
        let link = Link::Read(Box::new(self.clone()));
        link.short().ok_or_else(|| {
            let (staves, columns) = (self.passage.staves().len(), self.passage.columns().len());
            let fits = |page: &Self| length(page) <= LONGEST;
            TooLong {
                length: length(self),
                staves: (most(staves, |count| fits(&self.with_staves(count))), staves),
                columns: (most(columns, |count| fits(&self.with_columns(count))), columns),
            }
        })
    }

    /// Only the first staves.
    fn with_staves(&self, count: usize) -> Self {
        let mut page = self.clone();
        while page.passage.staves().len() > count && page.passage.remove_staff(count).is_ok() {}
        page
    }

    /// Only the first columns.
    fn with_columns(&self, count: usize) -> Self {
        let mut page = self.clone();
        while page.passage.remove_column(count).is_ok() {}
        page
    }
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
