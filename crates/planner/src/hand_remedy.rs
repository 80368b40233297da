//! A note that is left out since the way it is made is not asked for: hand and lip as the guide has them.

use crate::making::{Making, Weights};
use crate::plan::Plan;
use crate::remedy::{crook_then, is_free};
use crate::request::Request;
use crookwise_theory::Crook;
use crookwise_theory::order::in_order;

/// A way of making notes that is not asked of anybody and would give a note on the crook that is at hand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HandRemedy {
    /// Who would play, as an index into the players.
    pub player: usize,
    /// On which crook.
    pub crook: &'static Crook,
    /// How the note is written and made, and what that is worth by the guide.
    pub making: Making,
}

/// What hand and lip would give of notes that a plan leaves out, for players who are free then, or play another note of a chord of
/// which any octave would do. Of each way of making them the first player who has one; the ways that are worth most first.
/// Nothing for notes that are played, or are not there.
#[must_use]
pub fn hand_remedies(request: &Request, plan: &Plan, notes: &[usize]) -> Vec<HandRemedy> {
    let guide = Weights { worth: Weights::default().worth, ..request.weights.clone() };
    let left_out = |at: &&usize| matches!(plan.notes.get(**at), Some(None));
    let wanted = notes.iter().filter(left_out).filter_map(|at| request.notes.get(*at));
    let players = 0..request.players.len();
    let mut all: Vec<HandRemedy> = Vec::new();
    for (note, player) in wanted.flat_map(|note| players.clone().map(move |player| (note, player))) {
        if note.player.is_some_and(|own| own != player) {
            continue;
        }
        let Some(crook) = crook_then(plan, player, note) else { continue };
        let making = note.given_on(crook, &guide).making;
        let is_not_asked = making.worth > 0.0 && request.weights.of(making.production) <= 0.0;
        let is_known = |one: &HandRemedy| one.making.production == making.production;
        // Of a chord another member may go to somebody else.
        let may_play = || note.any_octave || is_free(request, plan, player, note);
        if is_not_asked && !all.iter().any(is_known) && may_play() {
            all.push(HandRemedy { player, crook, making });
        }
    }
    in_order(all, |one| -one.making.worth)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::request::{CrookPlayer, NamedCrook, WantedNote};
    use crate::ticks::Ticks;
    use crookwise_theory::{CrookFamily, Production};

    fn note(from: i64, sounding: &str, player: usize) -> WantedNote {
        let quarters = |many: i64| Ticks::of_fraction(many, 1).unwrap();
        let free = WantedNote::free(quarters(from), quarters(from + 1), sounding.parse().unwrap());
        WantedNote { player: Some(player), ..free }
    }

    fn without_hand(family: CrookFamily, notes: Vec<WantedNote>) -> Request {
        let crooks = vec![NamedCrook::named(family, "D").unwrap()];
        let worth = Weights::default().worth.map(|worth| if worth < 1.0 { 0.0 } else { worth });
        Request {
            notes,
            players: vec![CrookPlayer { family, crooks, pair: None }],
            change_time: Ticks::of_fraction(8, 1).unwrap(),
            together: true,
            weights: Weights { worth, ..Weights::default() },
        }
    }

    fn ways(request: &Request, note: usize) -> Vec<(String, Production)> {
        let plan = crate::plan(request).unwrap().plans.remove(0);
        let all = hand_remedies(request, &plan, &[note]);
        all.iter().map(|one| (one.making.written.0.to_string(), one.making.production)).collect()
    }

    #[test]
    fn the_hand_gives_what_is_left_out_without_it() {
        // On the horn in D: written C4, B4 and E5.
        let request =
            without_hand(CrookFamily::Horn, vec![note(0, "D3", 0), note(1, "C#4", 0), note(2, "F#4", 0)]);
        let plan = crate::plan(&request).unwrap().plans.remove(0);
        assert_eq!(plan.notes.iter().map(Option::is_some).collect::<Vec<_>>(), [true, false, true]);
        assert_eq!(ways(&request, 1), [("B4".to_owned(), Production::Half)]);
        assert_eq!((ways(&request, 0).len(), ways(&request, 9).len()), (0, 0));
        // Asked for, it is played.
        let weights = request.weights.clone().asking(Production::Half);
        let plan = crate::plan(&Request { weights, ..request }).unwrap().plans.remove(0);
        assert!(plan.notes.iter().all(Option::is_some));
    }

    #[test]
    fn who_has_no_hand_or_plays_something_else_is_not_asked() {
        // The trumpet in D.
        let request = without_hand(CrookFamily::Trumpet, vec![note(0, "D5", 0), note(1, "G#4", 0)]);
        assert_eq!(ways(&request, 1), []);
        let mut request = without_hand(CrookFamily::Horn, vec![note(0, "F#4", 0), note(0, "C#4", 0)]);
        assert_eq!(ways(&request, 1), []);
        // Of a chord he might take this member.
        request.notes[1].any_octave = true;
        assert_eq!(ways(&request, 1).len(), 1);
    }
}
