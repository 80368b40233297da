//! Another plan of those that were found which has what is missing at a gap.

use super::ShownPlan;
use super::gaps::Gap;
use super::wishes::{Wish, wishes};
use crookwise_planner::{Plan, Planned};

/// The first of them that has all of it, from 0.
#[must_use]
pub fn whole_at(plans: &Planned, shown: &ShownPlan, gap: &Gap) -> Option<usize> {
    let is_here = |wish: &Wish| wish.notes.iter().any(|note| gap.notes.contains(note));
    let has = |plan: &Plan| {
        !wishes(&plans.request, plan).iter().filter_map(Wish::left_out).any(|(wish, _)| is_here(wish))
    };
    plans.outcome.plans.iter().enumerate().find(|(at, plan)| *at != shown.at && has(plan)).map(|(at, _)| at)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::crooks::Crooks;
    use crate::state::crooks::setting::first;
    use leptos::prelude::Owner;

    #[test]
    fn a_gap_leads_to_the_plan_that_has_none_there() {
        let owner = Owner::new();
        owner.set();
        let crooks = Crooks::new(first());
        let keys = "g-Moll 40, D-Dur 20, fis-Moll 12, g-Moll 30";
        crooks.type_keys(keys);
        let shown = crooks.shown.get().unwrap();
        let plans = crooks.plans.get().unwrap();
        let gap = shown.picture.gaps.first().expect("the best plan changes crooks, and has gaps there");
        let at = whole_at(&plans, &shown, gap).expect("another plan has it");
        crooks.turn(1);
        let other = crooks.shown.get().unwrap();
        assert_eq!((at, other.at), (1, 1));
        assert!(other.picture.gaps.iter().all(|one| one.stretch != gap.stretch), "{:?}", other.picture.gaps);
        assert!(other.tally.open < shown.tally.open && other.tally.held() > shown.tally.held());
        // Where there is no other plan, nothing leads there.
        let mut alone = plans.clone();
        alone.outcome.plans.truncate(1);
        assert_eq!(whole_at(&alone, &shown, gap), None);
    }
}
