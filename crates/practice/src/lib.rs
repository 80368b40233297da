//! Exercises, pure: a specification gives the same questions everywhere, marks the answers and names the mistakes.
//! No clock, no browser; chance comes in as a seed.

pub mod answer;
mod ask;
mod bytes;
mod canonical;
mod chance;
mod check;
mod choices;
mod chords;
pub mod course;
mod dealt;
mod draw;
mod edition;
pub mod error;
pub mod exercise;
pub mod kind;
mod labels;
mod mark;
mod met;
pub mod mistake;
mod muta;
mod off;
pub mod pace;
mod pack;
mod page;
mod part;
mod pattern;
mod planted;
mod pool;
mod printed;
pub mod question;
pub mod record;
pub mod results;
mod setting;
mod shown;
mod slip;
mod slips;
mod spoken;
mod usage;
mod voicing;
mod way;
mod wrong;

pub use answer::{Answer, ChordName, Which};
pub use edition::{Edition, Mended};
pub use error::{ExerciseError, Why};
pub use exercise::{
    AskedStaff, Exercise, Helps, LONGEST_TITLE, Marking, Material, NoteRange, Style, Time, clean_title,
};
pub use kind::Kind;
pub use mistake::{Explanation, Mark, Mistake};
pub use muta::changes_to;
pub use off::Off;
pub use pace::{Pace, fluent_ms};
pub use pack::PackError;
pub use question::{Played, Question, QuestionSound, Spot};
pub use shown::{Naming, Shown, shown_of};
pub use spoken::UnknownAnswer;
pub use way::{Miscopied, Misplayed};
