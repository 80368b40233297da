//! Hand and lip where they were not asked for: what they would give of a gap, and what that gains.

use super::ShownPlan;
use super::mending::{self, Mend, OfferedRemedy, row, who};
use crate::words::Names;
use crate::words::crook_gaps as words;
use crookwise_planner::of_keys::KeyRequest;
use crookwise_planner::{HandRemedy, Planned, hand_remedies};
use crookwise_share::crooks::CrooksLink;
use crookwise_theory::Production;

/// The ways of hand and lip that would give one of these notes and are not asked for, each once.
pub(super) fn by_hand(plans: &Planned, shown: &ShownPlan, notes: &[usize]) -> Vec<HandRemedy> {
    let mut all: Vec<HandRemedy> = Vec::new();
    for remedy in notes.iter().flat_map(|at| hand_remedies(&plans.request, &shown.plan, *at)) {
        if !all.iter().any(|one| one.making.production == remedy.making.production) {
            all.push(remedy);
        }
    }
    all
}

/// How many notes more the best plan of keys holds where a way of making them is asked for.
pub(super) fn gain_of_asking(request: &KeyRequest, way: Production, held: i64) -> i64 {
    let weights = request.weights.clone().asking(way);
    let other = KeyRequest { weights, ..request.clone() };
    other.plan().map_or(0, |found| mending::held(&found) - held)
}

/// A way of making notes, as it is offered: it is asked for in the whole plan then.
pub(super) fn asking(asked: &CrooksLink, remedy: &HandRemedy, names: Names) -> OfferedRemedy {
    let HandRemedy { player, crook, making } = remedy;
    let who = row(asked, &who(asked, *player));
    OfferedRemedy {
        said: words::remedy(&who, crook, making.written.0, making.production, names),
        gain: words::asked_for_everywhere(making.production),
        mend: Some(Mend::Asking(making.production)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::crooks::Crooks;
    use crate::state::crooks::mending::missing;
    use crate::state::crooks::mending::tests::{note, seek};
    use crate::state::crooks::setting::{HandAsked, first, of_link, set_hand};
    use crookwise_share::crooks::CrooksWanted;
    use leptos::prelude::Owner;

    #[test]
    fn the_hand_is_let_where_it_was_not_asked_for() {
        let owner = Owner::new();
        owner.set();
        let mut asked = of_link("#/crooks?keys=&horn=1_1_D");
        set_hand(&mut asked, HandAsked::None);
        // On the horn in D written C4, B4 and E5.
        asked.wanted = CrooksWanted::Notes(vec![note(0, "D3", 0), note(4, "C#4", 0), note(8, "F#4", 0)]);
        let crooks = Crooks::new(asked);
        let shown = seek(crooks);
        let plans = crooks.plans.get().unwrap();
        let found = missing(&crooks.setting.read(), &plans, &shown, &shown.picture.gaps[0], Names::default());
        let first = found[0].remedies[0].clone();
        assert_eq!(first.said, "Corno 1 in D: written B4, half stopped");
        assert!(first.gain.contains("half stopped"), "{first:?}");
        crooks.mend(first.mend.unwrap());
        assert_eq!(seek(crooks).tally.held(), 3);
        assert!(crooks.undo());
    }

    #[test]
    fn the_hand_is_let_in_a_plan_of_keys_where_that_gains() {
        let owner = Owner::new();
        owner.set();
        let mut asked = first();
        set_hand(&mut asked, HandAsked::None);
        let crooks = Crooks::new(asked);
        let shown = crooks.shown.get().unwrap();
        let plans = crooks.plans.get().unwrap();
        let all = |gap| missing(&crooks.setting.read(), &plans, &shown, gap, Names::default());
        let offers: Vec<OfferedRemedy> =
            shown.picture.gaps.iter().flat_map(all).flat_map(|note| note.remedies).collect();
        let is_hand = |one: &&OfferedRemedy| matches!(one.mend, Some(Mend::Asking(_)));
        let hand = offers.iter().find(is_hand).expect("the hand").clone();
        crooks.mend(hand.mend.unwrap());
        let then = crooks.shown.get().unwrap().tally.held();
        let gained = then - shown.tally.held();
        assert!(hand.gain.starts_with(&format!("{gained} notes more over all.")), "{}", hand.gain);
        assert!(crooks.undo());
    }
}
