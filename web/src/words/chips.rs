//! The line of what holds.

use super::names::decimal;
use super::reading::temperament;
use crookwise_theory::Temperament;

texts! {
    WHAT_HOLDS = "What holds";
    READ_AS = "read as";
    PLAYED = "played";
    CLEF = "clef";
    MOVEMENT = "movement";
    TUNING = "tuning";
    SIGNATURE = "signature";
    IN_YOUR_HANDS = "in your hands";
    PLAYERS = "players";
    OLD = "old";
    NEW = "new";
    ASSUMED = " (assumed)";
    TAKEN_AS_OLD = "Taken as the old way of writing in the bass clef, the rule before about 1900.";
    TAKEN_AS_USUAL = "The label does not say by which system it is written: taken as the usual one.";
}

/// The longest that stands on a chip.
const LONGEST: usize = 30;

/// "equal, A 430".
#[must_use]
pub fn tuning(temperament: &Temperament, a4: f64) -> String {
    let name = self::temperament(temperament);
    format!("{}, A {}", name.trim_end_matches(" temperament"), decimal(a4))
}

/// What would take too much room, cut short.
#[must_use]
pub fn short(text: &str) -> String {
    if text.chars().count() <= LONGEST {
        return text.to_owned();
    }
    text.chars().take(LONGEST - 1).chain(['…']).collect()
}

/// Another reading: its name, which tells nothing where the one that holds has the same; then the reason tells it.
#[must_use]
pub fn other(name: &str, reason: &str, same_name: bool) -> String {
    if same_name { format!("{name} ({reason})") } else { name.to_owned() }
}

/// "also: Horn in B-flat alto, with valves"; nothing where there is nothing else.
#[must_use]
pub fn also(others: &[String]) -> String {
    if others.is_empty() { String::new() } else { format!("also: {}", others.join(", ")) }
}
