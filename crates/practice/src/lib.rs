//! Exercises, pure: a specification gives the same questions everywhere, marks the answers and names the mistakes.
//! No clock, no browser; chance comes in as a seed.

pub mod answer;
pub mod exercise;
pub mod kind;
pub mod mistake;
pub mod question;

pub use answer::{Answer, ChordName, Which};
pub use exercise::{AskedStaff, Exercise, Helps, Marking, Material, NoteRange, Style, Time};
pub use kind::Kind;
pub use mistake::{Explanation, Mark, Mistake};
pub use question::{Heard, Played, Question, Spot};
