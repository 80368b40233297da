//! Practise: questions, answers, and what was made of them.

pub mod answer_area;
pub mod class;
mod class_tables;
pub mod course_view;
pub mod doing;
pub mod editor;
pub mod ending;
pub mod feedback;
pub mod lesson_example;
pub mod note_pad;
pub mod on_wall;
pub mod open_points;
pub mod paper;
mod paper_page;
pub mod question_page;
pub mod record_view;
