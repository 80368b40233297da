//! The course: thirteen steps from the staves that sound as written to the whole page.
//!
//! The order is that of teaching (common practice). A step has exercises, made here, and a lesson, which is text: one file a
//! step in `crates/practice/data/course`, read by [`Lesson::read`].

mod lesson;
mod progress;
mod steps;

pub use lesson::{Entry, Lesson, LessonError, Source, Work};
pub use progress::{LATEST, Progress};

use crate::exercise::Exercise;

/// A step of the course.
#[derive(Clone, Copy, Debug)]
pub struct CourseStep {
    /// Its number, from 1.
    pub number: u8,
    /// Its title; its lesson has the same.
    pub title: &'static str,
    exercises: fn() -> Vec<Exercise>,
}

impl CourseStep {
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

    /// Its lesson.
    ///
    /// ```
    /// use crookwise_practice::course::CourseStep;
    /// assert_eq!(CourseStep::ALL[4].lesson().unwrap().title, CourseStep::ALL[4].title);
    /// ```
    ///
    /// # Errors
    /// Where its text cannot be read as a lesson; the tests read every one.
    pub fn lesson(&self) -> Result<Lesson, LessonError> {
        let text = steps::LESSONS.get(usize::from(self.number.saturating_sub(1)));
        Lesson::read(text.copied().unwrap_or_default())
    }
}
