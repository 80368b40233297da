//! Which crooks a passage in sound wants: for each player the crook and its changes, who plays which note and how it is
//! made, with a total that is explained note by note.
//!
//! A plan is worth the sum, over the notes played, of the note's weight times what its way of being made is worth, less a
//! cost for every change. The best plan is searched exactly; where that would take too long, the plan found is given with
//! the bound that no plan can pass.

#![cfg_attr(test, allow(clippy::unwrap_used, reason = "a test may fail loudly"))]

mod alternatives;
mod error;
mod hope;
pub mod key_plan;
pub mod key_table;
mod making;
pub mod of_score;
mod part;
mod plan;
mod remedy;
mod request;
mod search;
mod state;
mod team_hope;
mod ticks;
mod usual;

pub use error::RequestError;
pub use making::{Making, Weights};
pub use plan::{Plan, PlayedNote, Stretch};
pub use remedy::{Remedy, RemedyKind, remedies};
pub use request::{CrookPlayer, MOST_NOTES, MOST_PLAYERS, NamedCrook, Request, WantedNote};
pub use ticks::Ticks;

use part::Part;
use search::Found;

/// What was found for a request.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// At most four plans, the best first; no two have the same stretches.
    pub plans: Vec<Plan>,
    /// Whether the first is proved to be the best.
    pub optimal: bool,
    /// No plan is worth more.
    pub bound: f64,
}

/// So many plans are told.
const PLANS: usize = 4;

/// The best plans for a request, in the same order whenever it is asked.
///
/// # Errors
/// Where the request asks for what cannot be: see [`RequestError`].
pub fn plan(request: &Request) -> Result<Outcome, RequestError> {
    request.check()?;
    let parts = Part::all(request);
    let best: Vec<Found> = parts.iter().map(Found::of).collect();
    let first = Plan::of(request, &chosen(&parts, &best));
    let mut plans = vec![first];
    for other in alternatives::all(&parts, &best) {
        let plan = Plan::of(request, &chosen(&parts, &other));
        if plans.iter().all(|one| one.stretches != plan.stretches) {
            plans.push(plan);
        }
    }
    plans.sort_by(|one, other| other.total.total_cmp(&one.total));
    plans.truncate(PLANS);
    let total = plans.first().map_or(0.0, |plan| plan.total);
    let bound = best.iter().map(|found| found.bound).sum::<f64>().max(total);
    Ok(Outcome { optimal: best.iter().all(|found| found.is_best), bound, plans })
}

/// Who plays each note on which crook, in the order of the request.
fn chosen(parts: &[Part], found: &[Found]) -> Vec<Option<part::Chosen>> {
    let notes: usize = parts.iter().map(|part| part.notes.len()).sum();
    let mut all = vec![None; notes];
    for (part, found) in parts.iter().zip(found) {
        for (note, choice) in part.notes.iter().zip(&found.choices) {
            if let Some(place) = all.get_mut(note.index) {
                *place = choice.map(|choice| part.chosen(choice));
            }
        }
    }
    all
}
