//! Practise: questions, answers, and what was made of them.

pub mod answer_area;
pub mod bars;
pub mod course_view;
pub mod doing;
pub mod ending;
pub mod entry_question;
pub mod feedback;
pub mod lesson_example;
pub mod list_deeds;
pub mod note_pad;
pub mod question_page;
pub mod record_view;
pub mod weeks_view;
