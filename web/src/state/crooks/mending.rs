//! What is missing at a gap, and the crooks that would have it: each with what it gains or loses over all.

use super::picture::Gap;
use super::wishes::{WishTally, wishes};
use super::{CrookPlans, Crooks, setting};
use crate::words::Names;
use crate::words::crooks as words;
use crookwise_planner::KeyRemedy;
use crookwise_planner::of_keys::{FixedCrook, KeyRequest};
use crookwise_share::crooks::CrooksLink;
use crookwise_theory::Tonic;

/// A note that is missing.
#[derive(Clone, Debug, PartialEq)]
pub struct MissingNote {
    /// The note.
    pub tonic: Tonic,
    /// In how many bars.
    pub said: String,
    /// What can be done.
    pub remedies: Vec<OfferedRemedy>,
}

/// What can be done, as it is offered.
#[derive(Clone, Debug, PartialEq)]
pub struct OfferedRemedy {
    /// Who takes which crook, and how the note is made there.
    pub said: String,
    /// What that gains or loses over all.
    pub gain: String,
    /// The crook.
    pub fixed: FixedCrook,
}

/// What is missing at a gap.
#[must_use]
pub fn missing(asked: &CrooksLink, plans: &CrookPlans, gap: &Gap, names: Names) -> Vec<MissingNote> {
    let request = setting::key_request(asked);
    let held = held(plans);
    let of = |(tonic, bars): &(Tonic, usize)| {
        let remedies = request.remedies(gap.stretch, *tonic);
        let offered = remedies.iter().map(|remedy| offered(asked, &request, remedy, held, names));
        MissingNote {
            tonic: *tonic,
            said: words::missing_in(*tonic, *bars, names),
            remedies: offered.collect(),
        }
    };
    gap.missing.iter().map(of).collect()
}

fn offered(
    asked: &CrooksLink,
    request: &KeyRequest,
    remedy: &KeyRemedy,
    held: i64,
    names: Names,
) -> OfferedRemedy {
    let who = who(asked, remedy.fixed.player);
    let other = request.with(remedy.fixed, &who).plan().ok();
    let then = other
        .map_or(held, |found| self::held(&CrookPlans { request: found.request, outcome: found.outcome }));
    let numbers: Vec<usize> = who.iter().map(|player| number(asked, *player)).collect();
    let row = words::row(remedy.fixed.crook.family, &numbers);
    let name = crookwise_planner::NamedCrook::of(remedy.fixed.crook).name;
    let written = names.note(remedy.given.making.written.0);
    OfferedRemedy {
        said: words::remedy(&row, &name, &written, remedy.given.making.production),
        gain: words::gains(then - held),
        fixed: remedy.fixed,
    }
}

/// How many wishes the best plan holds.
fn held(plans: &CrookPlans) -> i64 {
    let best = plans.outcome.plans.first().map(|plan| WishTally::of(&wishes(&plans.request, plan)).held());
    i64::try_from(best.unwrap_or_default()).unwrap_or(i64::MAX)
}

/// A player and who shares his crook.
fn who(asked: &CrooksLink, player: usize) -> Vec<usize> {
    let Some(own) = asked.players.get(player) else { return Vec::new() };
    let shares = |at: &usize| {
        let is_pair = |other: &crookwise_planner::CrookPlayer| {
            asked.together && own.pair.is_some() && (other.pair, other.family) == (own.pair, own.family)
        };
        *at == player || asked.players.get(*at).is_some_and(is_pair)
    };
    (0..asked.players.len()).filter(shares).collect()
}

/// The number of a player among those of his family, from 1.
fn number(asked: &CrooksLink, player: usize) -> usize {
    let family = asked.players.get(player).map(|player| player.family);
    asked.players.iter().take(player + 1).filter(|one| Some(one.family) == family).count()
}

impl Crooks {
    /// Takes a remedy: a step that can be taken back.
    pub fn mend(self, fixed: FixedCrook) {
        self.change(|asked| {
            let who = who(asked, fixed.player);
            asked.fixed = setting::key_request(asked).with(fixed, &who).fixed;
            asked.plan = 0;
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::crooks::setting::{HandAsked, first, set_hand};
    use leptos::prelude::Owner;

    #[test]
    fn a_remedy_is_taken_and_taken_back() {
        let owner = Owner::new();
        owner.set();
        let mut asked = first();
        set_hand(&mut asked, HandAsked::None);
        let crooks = Crooks::new(asked);
        let shown = crooks.shown.get().unwrap();
        let gap = shown.picture.gaps.first().expect("without the hand something is missing").clone();
        let found = missing(
            &crooks.setting.read(),
            crooks.plans.read().as_ref().as_ref().unwrap(),
            &gap,
            Names::default(),
        );
        assert_eq!(found.len(), gap.missing.len());
        let (note, remedy) = found
            .iter()
            .find_map(|note| Some((note.tonic, note.remedies.first()?.clone())))
            .expect("a remedy");
        crooks.mend(remedy.fixed);
        let mended = crooks.shown.get().unwrap();
        let is_gap =
            |one: &&Gap| one.stretch == gap.stretch && one.missing.iter().any(|(tonic, _)| *tonic == note);
        let left = mended.picture.gaps.iter().find(is_gap);
        let bars =
            |gap: &Gap| gap.missing.iter().find(|(tonic, _)| *tonic == note).map_or(0, |(_, bars)| *bars);
        assert!(left.map_or(0, bars) < bars(&gap), "{remedy:?} {left:?}");
        assert!(crooks.undo());
        assert_eq!(crooks.shown.get().unwrap(), shown);
    }
}
