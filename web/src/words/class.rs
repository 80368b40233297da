//! The results of a class as tables.

texts! {
    EXERCISES_OF_THE_CODES = "Exercises of these codes";
    MISTAKES_OF_EACH = "Mistakes of each";
    AGAIN = "(again)";
    BY_CROOK = "By crook";
}

/// No code of an exercise of the term.
#[must_use]
pub fn nothing(number: usize) -> String {
    format!("{number}. no code")
}

/// What stands folded.
#[must_use]
pub fn more(lines: usize) -> String {
    if lines == 1 { "One more".into() } else { format!("{lines} more") }
}
