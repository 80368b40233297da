//! The words of the audit as a table for spreadsheets.

/// The heads of its columns.
pub const HEADS: [&str; 7] = ["Part", "Crook", "Kind", "What", "Notes", "Share in hundredths", "First bar"];

texts! {
    LOWEST = "lowest";
    HIGHEST = "highest";
    HIGH = "high";
    OPEN = "open";
    CORRECTED = "corrected";
    MADE = "made";
    OUT_OF_REACH = "out of reach";
    CHANGE = "change";
}

/// Notes on a partial.
#[must_use]
pub fn partial(partial: u8) -> String {
    format!("partial {partial}")
}

/// The longest stretch of high notes, in quarter notes.
#[must_use]
pub fn high(quarters: &str) -> String {
    format!("longest stretch above partial {}: {quarters} quarter notes", crookwise_score::audit::HIGH)
}

/// A change of crook, and the rest before it in quarter notes.
#[must_use]
pub fn change(from: &str, to: &str, quarters: &str) -> String {
    format!("from {from} to {to}, after {quarters} quarter notes of rest")
}
