//! cargo xtask.

fn main() {}
