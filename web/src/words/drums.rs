//! Drums whose label names their notes.

use super::Names;
use crookwise_theory::{Pitch, Tonic};

/// The shortest that is said of a note that none of them has.
#[must_use]
pub fn has_no_drum(drums: &[Tonic], names: Names) -> String {
    format!(
        "No drum of these: {} {}",
        if drums.len() == 1 { "it is" } else { "they are" },
        listed(drums, names)
    )
}

/// The same in a sentence. One may be tuned anew, or there may be more drums than the label names: common practice.
#[must_use]
pub fn tuned_otherwise(drums: &[Tonic], note: Pitch, names: Names) -> String {
    format!(
        "By their label these drums are tuned to {}, and none has {}: one must be tuned anew before (“muta …”), or there is another drum.",
        listed(drums, names),
        names.tonic(note.tonic())
    )
}

fn listed(drums: &[Tonic], names: Names) -> String {
    let mut all: Vec<String> = drums.iter().map(|drum| names.tonic(*drum)).collect();
    match all.pop() {
        Some(last) if !all.is_empty() => format!("{} and {last}", all.join(", ")),
        last => last.unwrap_or_default(),
    }
}
