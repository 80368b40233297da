//! What of a page a link can hold, and the code for a camera.

use crate::camera::{self, CameraCode};
use crate::packed::LONGEST_TEXT;
use crate::{LONGEST, Link};
use core::fmt;
use crookwise_score::Passage;

/// A link to be handed on.
#[derive(Clone, Debug, PartialEq)]
pub struct Shared {
    /// The whole address.
    pub address: String,
    /// The same for a camera.
    pub code: Result<CameraCode, TooLongForCamera>,
}

/// A link would be longer than any that is opened, and what of the page it could hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooLong {
    /// How many staves would fit with all columns, counted from the top, and how many there are.
    pub staves: (usize, usize),
    /// How many columns would fit with all staves, counted from the left, and how many there are.
    pub columns: (usize, usize),
}

/// The address does not fit into a code that a camera reads from afar, and what of the page would.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooLongForCamera {
    /// How many columns would fit with all staves, counted from the left, and how many there are.
    pub columns: (usize, usize),
}

impl fmt::Display for TooLong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { staves, columns } = *self;
        f.write_str("This is too long for a link")?;
        if (staves.1, columns.1) == (0, 0) {
            return Ok(());
        }
        f.write_str(". ")?;
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

impl fmt::Display for TooLongForCamera {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("This is too long for a code that a camera reads from afar")
    }
}

impl core::error::Error for TooLong {}
impl core::error::Error for TooLongForCamera {}

impl Link {
    /// The link to be handed on, whole; `front` is what stands before it in the address, the sign `#` at its end. It can be
    /// read by eye where the code of a camera holds that much, and is packed where not.
    ///
    /// # Errors
    /// Where it would be longer than [`LONGEST`]: [`TooLong`] says what of its page would fit.
    pub fn share(&self, front: &str) -> Result<Shared, TooLong> {
        let empty = Passage::default();
        let whole = self.passage().unwrap_or(&empty);
        let all = whole.columns().len();
        let first = |fits: &dyn Fn(&Self) -> bool| (most(all, |count| fits(&self.first_columns(count))), all);
        let Some(text) = self.shortest(front) else {
            let fits = |part: &Self| part.shortest(front).is_some();
            let staves = whole.staves().len();
            return Err(TooLong {
                staves: (most(staves, |count| fits(&self.about(with_staves(whole, count)))), staves),
                columns: first(&fits),
            });
        };
        let address = format!("{front}{text}");
        let code = CameraCode::of(&address).ok_or_else(|| {
            let fits = |part: &Self| {
                part.shortest(front).is_some_and(|text| camera::fits(&format!("{front}{text}")))
            };
            TooLongForCamera { columns: first(&fits) }
        });
        Ok(Shared { address, code })
    }

    /// The same link about the first columns alone.
    #[must_use]
    pub fn first_columns(&self, count: usize) -> Self {
        self.passage().map_or_else(|| self.clone(), |whole| self.about(with_columns(whole, count)))
    }

    /// The text behind `#` as it is handed on behind `front`; `None` where it could not be opened again.
    fn shortest(&self, front: &str) -> Option<String> {
        let text = self.encode();
        if camera::fits(&format!("{front}{text}")) {
            return Some(text);
        }
        // What is larger is not unpacked.
        let packed = (text.len() < LONGEST_TEXT).then(|| self.pack());
        packed.into_iter().chain([text]).min_by_key(String::len).filter(|text| text.len() <= LONGEST)
    }

    /// The passage it brings.
    fn passage(&self) -> Option<&Passage> {
        match self {
            Self::Read(page) => Some(&page.passage),
            Self::Practise(link) => link.exercise()?.passage.as_deref(),
            Self::Kept(_) | Self::Score(_) | Self::Crooks(_) => None,
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
            Self::Kept(_) | Self::Score(_) | Self::Crooks(_) => {}
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
pub(crate) fn most(all: usize, fits: impl Fn(usize) -> bool) -> usize {
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
