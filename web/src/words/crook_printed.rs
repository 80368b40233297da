//! What the crooks that are printed give, beside a plan.

use super::crooks::plural;
use super::names::decimal;
use crookwise_planner::printed::NotAsked;
use crookwise_theory::CrookFamily;

texts! {
    AS_PRINTED = "as printed";
    THE_SAME = "These are the crooks that are printed.";
}

/// Who has them: "Corno 1, 2 as printed".
#[must_use]
pub fn row(family: CrookFamily, numbers: &[usize]) -> String {
    format!("{} {AS_PRINTED}", super::crooks::row(family, numbers))
}

/// What they give.
#[must_use]
pub fn give(held: usize, wanted: usize, changes: usize) -> String {
    format!("The crooks that are printed give {held} of {wanted} notes {}", with_changes(changes))
}

fn with_changes(changes: usize) -> String {
    match changes {
        0 => "without a change".to_owned(),
        many => format!("with {}", plural(many, "change")),
    }
}

/// How many notes more than they a plan gives, and by how much it is worth more; that is not told where notes were mended.
#[must_use]
pub fn beside(more: i64, worth: Option<f64>, changes: usize) -> String {
    let many = more.unsigned_abs();
    let notes = match more {
        0 => "as many".to_owned(),
        1.. => format!("{many} more"),
        _ => format!("{many} fewer"),
    };
    let worth = worth.map(|worth| {
        let open = decimal(worth.abs());
        match worth {
            0.005.. => format!(" and is worth {open} open notes more"),
            ..-0.005 => format!(" and is worth {open} open notes less"),
            _ => " and is worth as much".to_owned(),
        }
    });
    format!("this plan gives {notes} {}{}.", with_changes(changes), worth.unwrap_or_default())
}

/// What of them is not asked for here; nothing where all of it is.
#[must_use]
pub fn not_asked(found: NotAsked) -> Option<String> {
    let all: Vec<&str> = [
        (found.not_owned, "a crook that is not owned here"),
        (found.too_quick, "a change with less rest than is asked for"),
        (found.apart, "a pair on different crooks"),
    ]
    .into_iter()
    .filter_map(|(is, what)| is.then_some(what))
    .collect();
    (!all.is_empty()).then(|| format!("No plan may do what is printed: it has {}.", all.join(" and ")))
}
