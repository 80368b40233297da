//! The course: thirteen steps from the staves that sound as written to the whole page.
//!
//! The order is that of teaching (common practice). A step has exercises, made here, and a lesson, which is text: it lies
//! beside the program, one file a step in `crates/practice/data/course`, and is brought when the step is opened.
//! [`Lesson::read`] reads it.

mod lesson;
mod progress;
mod steps;

pub use lesson::{Entry, Lesson, LessonError, Source, Work};
pub use progress::{LATEST, Progress};

use crate::exercise::Exercise;

/// A step of the course.
#[derive(Clone, Copy, Debug)]
pub struct Step {
    /// Its number, from 1.
    pub number: u8,
    /// Its title; its lesson has the same.
    pub title: &'static str,
    exercises: fn() -> Vec<Exercise>,
}

impl Step {
    /// Every step, in order.
    pub const ALL: [Self; 13] = steps::ALL;

    /// The step of that number, from 1.
    #[must_use]
    pub fn numbered(number: u8) -> Option<Self> {
        Self::ALL.get(usize::from(number.checked_sub(1)?)).copied()
    }

    /// Its exercises, from easy to hard.
    #[must_use]
    pub fn exercises(&self) -> Vec<Exercise> {
        (self.exercises)()
    }

    /// The name of the file with its lesson: `01.txt` to `13.txt`.
    ///
    /// ```
    /// use crookwise_practice::course::Step;
    /// assert_eq!(Step::ALL[4].file(), "05.txt");
    /// ```
    #[must_use]
    pub fn file(&self) -> String {
        format!("{}{}.txt", if self.number < 10 { "0" } else { "" }, self.number)
    }
}
