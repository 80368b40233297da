//! What is said of the plan that is looked at.

use super::wishes::{WishTally, wishes};
use super::{Crooks, ShownPlan};
use crate::words::crooks as words;
use crookwise_planner::{Plan, Planned};
use crookwise_share::crooks::FIRM;

/// All of it, in words.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PlanSummary {
    /// Which plan of how many.
    pub which: String,
    /// Whether it is the best, and how that is known.
    pub proof: String,
    /// How they are made.
    pub made: String,
    /// How many changes of crook.
    pub changes: String,
    /// Why the others are left out; empty where none is.
    pub left: String,
    /// What the next plan costs or gains; empty where there is none.
    pub next: String,
    /// Whether there is a plan before, and one after.
    pub has_before: bool,
    /// See `has_before`.
    pub has_next: bool,
}

impl PlanSummary {
    /// Of what is shown; nothing where nothing is.
    #[must_use]
    pub fn of(crooks: Crooks) -> Option<Self> {
        let (plans, shown) = (crooks.plans.read(), crooks.shown.read());
        Some(Self::of_plan(plans.as_ref().as_ref().ok()?, shown.as_ref().as_ref()?))
    }

    fn of_plan(plans: &Planned, shown: &ShownPlan) -> Self {
        let all = &plans.outcome.plans;
        let tally = &shown.tally;
        let next = all.get(shown.at + 1).map(|next| {
            let other = WishTally::of(&wishes(&plans.request, next));
            words::next_best(
                difference(other.held(), tally.held()),
                difference(other.open, tally.open),
                difference(changes(next), changes(&shown.plan)),
            )
        });
        Self {
            which: words::plan_of(shown.at, all.len()),
            proof: proof(plans, shown),
            made: words::made(tally.open, tally.hand, tally.lip),
            changes: words::changes(changes(&shown.plan)),
            left: words::left_out(tally.missing, tally.changing, tally.busy).unwrap_or_default(),
            next: next.unwrap_or_default(),
            has_before: shown.at > 0,
            has_next: shown.at + 1 < all.len(),
        }
    }
}

/// The best is proved, or it is told how much better another might be.
fn proof(plans: &Planned, shown: &ShownPlan) -> String {
    let best = plans.outcome.plans.first().map_or(0.0, |plan| plan.total);
    let less = best - shown.plan.total;
    if shown.at > 0 && less > FIRM / 2.0 {
        return words::WITHOUT_WHAT_WAS_TAKEN.to_owned();
    }
    if shown.at > 0 && less > 0.005 {
        return words::worth_less(less);
    }
    if plans.outcome.optimal {
        words::BEST_PROVED.to_owned()
    } else {
        words::at_most(plans.outcome.bound - best)
    }
}

/// Changes of crook, each player's counted.
fn changes(plan: &Plan) -> usize {
    plan.changes()
}

/// How many more are in one than in the other.
pub(super) fn difference(one: usize, other: usize) -> i64 {
    i64::try_from(one).unwrap_or(i64::MAX) - i64::try_from(other).unwrap_or(i64::MAX)
}
