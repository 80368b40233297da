//! Which crooks a passage in sound wants: for each player the crook and its changes, who plays which note and how it is
//! made, with a total that is explained note by note.
//!
//! A plan is worth the sum, over the notes played, of the note's weight times what its way of being made is worth, less a
//! cost for every change. The best plan is searched exactly; where that would take too long, the plan found is given with
//! the bound that no plan can pass.

#![cfg_attr(test, allow(clippy::unwrap_used, reason = "a test may fail loudly"))]

mod alternatives;
mod crook_remedy;
mod error;
mod hand_remedy;
mod hope;
mod key_course;
mod key_family;
pub mod key_plan;
mod key_remedy;
pub mod key_table;
mod left_out;
mod making;
pub mod may_write;
pub mod of_keys;
pub mod of_passage;
pub mod of_score;
pub mod out_of_reach;
mod part;
mod plan;
mod plan_search;
pub mod printed;
mod remedy;
mod request;
mod search;
mod state;
mod team_hope;
mod ticks;
mod usual;
pub mod written;

pub use crook_remedy::{BetweenRests, between_rests};
pub use error::RequestError;
pub use hand_remedy::{HandRemedy, hand_remedies};
pub use key_remedy::KeyRemedy;
pub use left_out::{LeftOut, left_out};
pub use making::{Making, Weights};
pub use plan::{Plan, PlayedNote, Stretch};
pub use plan_search::PlanSearch;
pub use remedy::{Remedy, RemedyKind, remedies};
pub use request::{
    CrookPlayer, MOST_NOTES, MOST_PLAYERS, NamedCrook, Request, WantedNote, number_in_family, teams,
};
pub use ticks::Ticks;

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

/// What was asked of the planner, and what it found.
#[derive(Clone, Debug, PartialEq)]
pub struct Planned {
    /// The notes wanted, and of whom.
    pub request: Request,
    /// The plans for them.
    pub outcome: Outcome,
}

/// The best plans for a request, in the same order whenever it is asked.
///
/// # Errors
/// Where the request asks for what cannot be: see [`RequestError`].
pub fn plan(request: &Request) -> Result<Outcome, RequestError> {
    let mut search = PlanSearch::of(request.clone())?;
    while !search.go_on(usize::MAX) {}
    Ok(search.outcome())
}
