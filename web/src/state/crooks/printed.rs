//! What the crooks give that are printed where the notes were taken from, beside a plan: why the composer did as he did, or where
//! the program weighs otherwise.

use super::ShownPlan;
use super::picture::PlanPicture;
use super::summary::difference;
use super::wishes::{WishTally, wishes};
use crate::words::crook_printed as words;
use crookwise_planner::Plan;
use crookwise_planner::printed::{NotAsked, as_printed, not_asked};
use crookwise_share::crooks::{CrooksLink, CrooksWanted};
use crookwise_theory::Crook;

/// The printed crooks, weighed as a plan is.
#[derive(Clone, Debug, PartialEq)]
pub struct PrintedPlan {
    /// Who plays what on them.
    pub plan: Plan,
    /// What becomes of the notes, counted.
    pub tally: WishTally,
    /// As it is drawn.
    pub picture: PlanPicture,
    /// What of it no plan may do here.
    pub not_asked: NotAsked,
}

impl PrintedPlan {
    /// Of the notes as they were taken, whatever remedies have changed in them since; nothing where no crooks are printed, or
    /// others play now.
    #[must_use]
    pub fn of(asked: &CrooksLink) -> Option<Self> {
        if asked.printed.is_empty() || !matches!(asked.wanted, CrooksWanted::Notes(_)) {
            return None;
        }
        let taken = CrooksLink { mended: Vec::new(), ..asked.clone() };
        let request = taken.request();
        let plan = as_printed(&request, &taken.printed)?;
        let wishes = wishes(&request, &plan);
        Some(Self {
            tally: WishTally::of(&wishes),
            picture: PlanPicture::of(&taken, &request, &plan, &wishes),
            not_asked: not_asked(&request, &plan),
            plan,
        })
    }

    /// In a sentence or two beside a plan; in which remedies may have changed notes.
    #[must_use]
    pub fn said(&self, shown: &ShownPlan, is_mended: bool) -> String {
        let worth = shown.plan.total - self.plan.total;
        if !is_mended && worth.abs() < 0.005 && crooks(&self.plan) == crooks(&shown.plan) {
            return words::THE_SAME.to_owned();
        }
        let they = words::give(self.tally.held(), self.tally.wanted, self.plan.changes());
        let more = difference(shown.tally.held(), self.tally.held());
        let beside = words::beside(more, (!is_mended).then_some(worth), shown.plan.changes());
        let why = words::not_asked(self.not_asked).map(|why| format!(" {why}")).unwrap_or_default();
        format!("{they}; {beside}{why}")
    }
}

/// The crooks of each player in their order.
fn crooks(plan: &Plan) -> Vec<(usize, &'static Crook)> {
    plan.stretches.iter().map(|stretch| (stretch.player, stretch.crook)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::crooks::mending::tests::{note, seek};
    use crate::state::crooks::setting::{first, set_crooks, set_many, set_worth};
    use crate::state::crooks::{Crooks, setting};
    use crookwise_planner::printed::PrintedCrook;
    use crookwise_planner::{NamedCrook, Ticks};
    use crookwise_theory::{CrookFamily, Production};
    use leptos::prelude::Owner;

    fn named(name: &str) -> NamedCrook {
        NamedCrook::named(CrookFamily::Horn, name).unwrap()
    }

    /// Two horns with what is open in E-flat, and as print has them in these crooks from the beginning.
    fn asked(printed: [&str; 2]) -> CrooksLink {
        let mut asked = first();
        set_many(&mut asked, CrookFamily::Trumpet, 0);
        set_many(&mut asked, CrookFamily::Horn, 2);
        set_crooks(&mut asked, CrookFamily::Horn, &[named("Eb"), named("D")]);
        let notes = ["Eb4", "G4", "Bb4", "G3"].into_iter().enumerate();
        let both = notes.flat_map(|(at, name)| [0, 1].map(|player| note(4 * at as i64, name, player)));
        asked.wanted = CrooksWanted::Notes(both.collect());
        let printed = printed.into_iter().enumerate();
        let one = |(player, name)| PrintedCrook { player, from: Ticks::default(), crook: named(name).crook };
        asked.printed = printed.map(one).collect();
        asked
    }

    fn said(asked: CrooksLink) -> String {
        let owner = Owner::new();
        owner.set();
        let crooks = Crooks::new(asked);
        let shown = seek(crooks);
        let is_mended = !crooks.setting.read().mended.is_empty();
        crooks.printed.get().map(|printed| printed.said(&shown, is_mended)).unwrap_or_default()
    }

    #[test]
    fn the_plan_and_what_is_printed_add_up() {
        assert_eq!(said(asked(["Eb", "Eb"])), "These are the crooks that are printed.");
        let mut open = asked(["D", "D"]);
        setting::set_hand(&mut open, setting::HandAsked::None);
        assert_eq!(
            said(open.clone()),
            "The crooks that are printed give 0 of 8 notes without a change; this plan gives 8 more without a change \
             and is worth 8 open notes more."
        );
        // By the same weights: of these four notes a horn in D makes three by hand and none openly.
        set_worth(&mut open, Production::Half, 100);
        let shown = PrintedPlan::of(&open).unwrap();
        assert!(shown.plan.total > 0.0 && shown.tally.open == 0, "{:?}", shown.tally);
        assert_eq!(shown.tally.held() as f64, shown.plan.total);
        let gaps: usize = shown.picture.gaps.iter().map(|gap| gap.notes.len()).sum();
        assert_eq!(gaps + shown.tally.held(), 8);
    }

    #[test]
    fn what_is_printed_and_may_not_be_planned_is_told() {
        let mut owned = asked(["Eb", "Eb"]);
        set_crooks(&mut owned, CrookFamily::Horn, &[named("D")]);
        setting::set_hand(&mut owned, setting::HandAsked::None);
        assert_eq!(
            said(owned),
            "The crooks that are printed give 8 of 8 notes without a change; this plan gives 8 fewer without a change \
             and is worth 8 open notes less. No plan may do what is printed: it has a crook that is not owned here."
        );
        assert!(said(asked(["Eb", "D"])).ends_with("it has a pair on different crooks."));
    }

    #[test]
    fn of_other_notes_only_their_number_is_told_and_of_other_players_nothing() {
        let mut mended = asked(["Eb", "Eb"]);
        mended.mended = vec![crookwise_share::crooks::MendedNote {
            note: 0,
            sounding: crookwise_theory::Sounding("C4".parse().unwrap()),
            player: Some(0),
            firm: true,
        }];
        assert!(said(mended).ends_with("without a change."));
        let mut fewer = asked(["Eb", "Eb"]);
        set_many(&mut fewer, CrookFamily::Horn, 1);
        assert_eq!(PrintedPlan::of(&fewer), None);
        setting::want_keys(&mut fewer);
        assert!(fewer.printed.is_empty() && PrintedPlan::of(&fewer).is_none());
    }
}
