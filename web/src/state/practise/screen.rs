//! The screens of Practise.

use crate::words;

/// A screen of Practise.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Screen {
    /// The course, step by step.
    Course,
    /// A step of it, from 0.
    Step(usize),
    /// An exercise is set.
    Set,
    /// An exercise is done.
    Do,
    /// One question at a time for the whole class.
    Wall,
    /// Results of a class are read.
    Class,
    /// Courses over weeks.
    Weeks,
    /// What the reader has answered so far.
    Record,
    /// What the record brought back is repeated.
    Repeat,
    /// A worksheet on paper.
    Paper,
}

impl Screen {
    /// Whether it shows the exercise at hand.
    #[must_use]
    pub const fn is_of_the_exercise(self) -> bool {
        matches!(self, Self::Set | Self::Do | Self::Wall | Self::Paper)
    }

    /// What it is called in the name of the window.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Course | Self::Step(_) => words::course::COURSE,
            Self::Set => words::course::SET_AN_EXERCISE,
            Self::Do => words::frame::EXERCISE,
            Self::Wall => words::frame::ON_THE_WALL,
            Self::Class => words::course::RESULTS_OF_A_CLASS,
            Self::Weeks => words::weeks::WEEKS,
            Self::Record | Self::Repeat => words::course::MY_RECORD,
            Self::Paper => words::frame::WORKSHEET,
        }
    }
}
