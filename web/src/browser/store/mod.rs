//! What the browser keeps for the page: texts under names at once (`local`), a database for the rest (`database`), the
//! other windows of the same reader (`windows`), and the promise not to clear any of it by itself (`persist`).

pub mod database;
pub mod files;
pub mod local;
pub mod persist;
pub mod windows;
