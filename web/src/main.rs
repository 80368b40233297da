//! The app.

fn main() {}
