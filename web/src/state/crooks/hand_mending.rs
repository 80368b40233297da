//! Hand and lip where they were not asked for: what they would give of a gap, and what that gains.

use super::mending::{LookedAt, Mend, OfferedRemedy, gained, row, who};
use crate::words::Names;
use crate::words::crook_gaps as words;
use crookwise_planner::of_keys::KeyRequest;
use crookwise_planner::{HandRemedy, hand_remedies};
use crookwise_share::crooks::CrooksLink;

/// What hand and lip would give of notes that a plan of keys leaves out, each with how many notes more that gains; nothing that
/// gains none.
pub(super) fn in_keys(
    at: LookedAt<'_>,
    (request, held): (&KeyRequest, i64),
    notes: &[usize],
    names: Names,
) -> Vec<(i64, OfferedRemedy)> {
    let (asked, plans, shown) = at;
    let gaining = |remedy: HandRemedy| {
        let way = remedy.making.production;
        let other = KeyRequest { weights: request.weights.clone().asking(way), ..request.clone() };
        let gain = gained(&other, held);
        let gains = words::gains_by_asking(gain, way);
        (gain > 0).then(|| (gain, OfferedRemedy { gain: gains, ..asking(asked, &remedy, names) }))
    };
    hand_remedies(&plans.request, &shown.plan, notes).into_iter().filter_map(gaining).collect()
}

/// The same of notes for whom no plan can be made at once.
pub(super) fn in_notes(at: LookedAt<'_>, notes: &[usize], names: Names) -> Vec<OfferedRemedy> {
    let (asked, plans, shown) = at;
    let all = hand_remedies(&plans.request, &shown.plan, notes);
    all.iter().map(|remedy| asking(asked, remedy, names)).collect()
}

/// A way of making notes, as it is offered: it is asked for in the whole plan then.
fn asking(asked: &CrooksLink, remedy: &HandRemedy, names: Names) -> OfferedRemedy {
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
    use crate::state::crooks::mending::tests::{first_missing, note, seek};
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
        let first = first_missing(crooks, &seek(crooks))[0].remedies[0].clone();
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
