//! How a question stands on paper.

use crate::state::score_sheet::Room;
use crate::words;
use crookwise_practice::Question;

/// Pixels of a line of paper and of half of one: 180 millimetres at 96 pixels an inch, less the number.
const LINE: f64 = 640.0;
const HALF: f64 = 300.0;
/// Columns that still stand on half a line.
const FEW: usize = 3;

/// Room for an answer that is a note.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Space {
    /// An empty staff.
    Staff,
    /// A line for its name.
    Line,
}

impl Space {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::Staff, Self::Line];

    /// Its name in the list's values.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Staff => "staff",
            Self::Line => "line",
        }
    }

    /// Its name on the screen.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Staff => words::exercise::EMPTY_STAVES,
            Self::Line => words::exercise::A_LINE_FOR_NAMES,
        }
    }
}

/// The room of a question.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PaperRoom {
    /// How wide its page is.
    pub room: Room,
    /// Whether it takes a whole line.
    pub whole_line: bool,
}

/// Short questions stand two to a line.
#[must_use]
pub fn room(question: &Question) -> PaperRoom {
    let whole_line = question.passage.columns().len() > FEW || question.passage.staves().len() > 2;
    PaperRoom { room: Room::wide(if whole_line { LINE } else { HALF }), whole_line }
}
