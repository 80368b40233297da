//! Another crook from a bar of a movement on: as the file has it, as the reader corrects it.

use super::changes;

texts! {
    OTHER_CROOK = "Another crook";
    FROM_THIS_BAR_ON = "From this bar on";
    THE_WHOLE_PART = "The whole part …";
    FROM_WHICH_BAR = "Another crook from bar or letter";
    TAKE_IT_BACK = "Take it back";
}

/// What a part changes to with a bar: "From bar 12 on: muta in D".
#[must_use]
pub fn from_bar_on(bar: &str, to: &str) -> String {
    format!("From bar {bar} on: {to}")
}

/// Words for another crook that the file does not heed.
#[must_use]
pub fn unheeded(words: &str, bar: &str) -> String {
    format!(
        "“{words}” stands in bar {bar}, and in the file nothing changes. What sounds is what the file has: if the words are right, let them hold"
    )
}

/// A change that the reader put to a part.
#[must_use]
pub fn corrected(bar: &str, to: &str, is_understood: bool) -> String {
    let said = format!("{}, as you corrected it", from_bar_on(bar, to));
    if is_understood { said } else { format!("{said}. {}", changes::not_understood(to)) }
}
