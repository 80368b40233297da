//! Another crook for a note that a plan leaves out, where the rests for its changes are there: between which moments it may be
//! taken, and what of what is played there it does not have.

use crate::plan::Plan;
use crate::request::{Request, WantedNote, teams};
use crate::ticks::Ticks;
use crookwise_theory::Crook;
use crookwise_theory::order::put_in_order;

/// Between two rests, each long enough for a change.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BetweenRests {
    /// When the first note between them begins, and the last one ends.
    pub time: (Ticks, Ticks),
    /// How many notes are played there now, by all who share the crook.
    pub played: usize,
    /// How many of them the other crook does not have.
    pub lost: usize,
}

/// Where a player, and who shares his crook, may take another one for a note: between the nearest rests before and after it that
/// are long enough, one of which may be the beginning or the end. `None` where no such rest is, or nobody is there.
#[must_use]
pub fn between_rests(
    request: &Request,
    plan: &Plan,
    note: usize,
    player: usize,
    crook: &Crook,
) -> Option<BetweenRests> {
    let wanted = request.notes.get(note)?;
    let team = teams(&request.players, request.together).into_iter().find(|team| team.contains(&player))?;
    let mut own: Vec<&WantedNote> = request
        .notes
        .iter()
        .zip(&plan.notes)
        .filter(|(_, played)| played.is_some_and(|played| team.contains(&played.player)))
        .map(|(note, _)| note)
        .collect();
    let own_ends = |all: &[&WantedNote]| all.iter().map(|note| note.to).max();
    own.push(wanted);
    put_in_order(&mut own, |note| note.from);
    let mut stretches: Vec<Vec<&WantedNote>> = Vec::new();
    for one in own {
        match stretches.last_mut() {
            Some(last) if own_ends(last).is_some_and(|end| one.from - end < request.change_time) => {
                last.push(one);
            }
            _ => stretches.push(vec![one]),
        }
    }
    // Without any rest it is no change.
    let all = stretches.iter().filter(|_| stretches.len() > 1);
    let here = all.into_iter().find(|all| all.iter().any(|one| core::ptr::eq(*one, wanted)))?;
    let others = || here.iter().filter(|one| !core::ptr::eq(**one, wanted));
    let is_lost = |one: &&&WantedNote| one.given_on(crook, &request.weights).making.worth <= 0.0;
    Some(BetweenRests {
        time: (here.first()?.from, own_ends(here)?),
        played: others().count(),
        lost: others().filter(is_lost).count(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::making::Weights;
    use crate::request::{CrookPlayer, NamedCrook};
    use crookwise_theory::CrookFamily;

    fn quarters(many: i64) -> Ticks {
        Ticks::of_fraction(many, 1).unwrap()
    }

    fn horn(name: &str) -> NamedCrook {
        NamedCrook::named(CrookFamily::Horn, name).unwrap()
    }

    /// A pair whose low G only the crook in G has, with rests between its notes, and a low F that only the crook in F has.
    fn request(pause: i64) -> Request {
        let player =
            CrookPlayer { family: CrookFamily::Horn, crooks: vec![horn("G"), horn("F")], pair: Some(1) };
        let note = |from: i64, sounding: &str, player| WantedNote {
            player: Some(player),
            ..WantedNote::free(quarters(from), quarters(from + 1), sounding.parse().unwrap())
        };
        let second = 1 + pause;
        let third = second + 2 + pause;
        let notes = vec![
            note(0, "G2", 0),
            note(second, "B4", 0),
            note(second, "G2", 1),
            note(second + 1, "F2", 1),
            note(third, "G2", 0),
        ];
        Request {
            notes,
            players: vec![player.clone(), player],
            change_time: quarters(8),
            together: true,
            weights: Weights { change_cost: 5.0, ..Weights::default() },
        }
    }

    #[test]
    fn another_crook_is_taken_between_rests_that_are_long_enough() {
        let request = request(8);
        let plan = crate::plan(&request).unwrap().plans.remove(0);
        assert_eq!(plan.notes[3], None);
        let found = between_rests(&request, &plan, 3, 1, horn("F").crook).unwrap();
        assert_eq!((found.time, found.played), ((quarters(9), quarters(11)), 2));
        // The low G; the B is there by hand.
        assert_eq!(found.lost, 1);
    }

    #[test]
    fn without_rests_there_is_only_advice() {
        let request = request(7);
        let plan = crate::plan(&request).unwrap().plans.remove(0);
        assert_eq!(plan.notes[3], None);
        assert_eq!(between_rests(&request, &plan, 3, 1, horn("F").crook), None);
        assert_eq!(between_rests(&request, &plan, 99, 1, horn("F").crook), None);
        assert_eq!(between_rests(&request, &plan, 3, 9, horn("F").crook), None);
    }

    /// What is offered is what the search finds where the note counts more than all else.
    #[test]
    fn the_search_takes_it_where_the_note_counts_more() {
        let mut request = request(8);
        request.notes[3].weight = 1_000.0;
        let plan = crate::plan(&request).unwrap().plans.remove(0);
        assert_eq!(plan.notes[3].map(|played| played.crook), Some(horn("F").crook));
        assert_eq!(plan.notes[0].map(|played| played.crook), Some(horn("G").crook));
    }
}
