//! What a teacher alone needs: an exercise is set, shown on the wall, printed, and what a class made of it is read. Its code
//! comes when the first of these is wanted.

pub mod class;
mod class_tables;
pub mod editor;
mod folded;
pub mod on_wall;
mod open_points;
pub mod paper;
mod paper_page;
pub mod plan_editor;
mod students;
mod your_exercises;
