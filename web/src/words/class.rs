//! The results of a class as tables.

texts! {
    EXERCISES_OF_THE_CODES = "Exercises of these codes";
    MISTAKES_OF_EACH = "Mistakes of each";
    AGAIN = "(again)";
    BY_CROOK = "By crook";
    TAKE_AWAY = "Take these codes away";
    KEPT_HERE = "Codes are kept on this device.";
}

/// No code of an exercise of the term.
#[must_use]
pub fn nothing(number: usize) -> String {
    format!("{number}. no code")
}

/// What was taken away.
#[must_use]
pub fn taken_away(codes: usize) -> String {
    if codes == 1 { "A code was taken away.".into() } else { format!("{codes} codes were taken away.") }
}

/// What stands folded.
#[must_use]
pub fn more(lines: usize) -> String {
    if lines == 1 { "One more".into() } else { format!("{lines} more") }
}
