//! What the crooks that are printed give of the notes wanted, weighed as a plan is.

use crate::making::Making;
use crate::part::Chosen;
use crate::plan::Plan;
use crate::request::{NamedCrook, Request, WantedNote, teams};
use crate::ticks::Ticks;
use crookwise_theory::Crook;
use crookwise_theory::order::put_in_order;

/// From here on a player has this crook, as it is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PrintedCrook {
    /// Whose it is, as an index into the players.
    pub player: usize,
    /// Where his first note on it begins.
    pub from: Ticks,
    /// The crook.
    pub crook: &'static Crook,
}

/// What of printed crooks no plan may do, as it is asked.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct NotAsked {
    /// A crook is printed that its player does not own.
    pub not_owned: bool,
    /// A crook changes where there is less rest than a change needs.
    pub too_quick: bool,
    /// Two who are to share their crook have different ones at a time.
    pub apart: bool,
}

/// From what is printed for each note only where it becomes another, by player and then by time; nothing where a note has no crook.
pub(crate) fn changes(of_notes: Vec<Option<PrintedCrook>>) -> Vec<PrintedCrook> {
    let mut all: Vec<PrintedCrook> = of_notes.into_iter().collect::<Option<_>>().unwrap_or_default();
    put_in_order(&mut all, |one| (one.player, one.from));
    all.dedup_by_key(|one| (one.player, one.crook));
    all
}

/// Keeps what holds between two moments, and counts time from the first.
pub(crate) fn keep_between(printed: &mut Vec<PrintedCrook>, (from, to): (Ticks, Ticks)) {
    let all = core::mem::take(printed);
    for (at, one) in all.iter().enumerate() {
        let next = all.get(at + 1..).and_then(|after| after.iter().find(|next| next.player == one.player));
        if one.from < to && next.is_none_or(|next| next.from > from) {
            printed.push(PrintedCrook { from: one.from.max(from) - from, ..*one });
        }
    }
}

/// What printed crooks, by player and then by time, give of a request, as a plan: all notes that a player's crook has, of notes
/// at the same time those that are worth most. `None` where a note is nobody's, or its player has no crook then.
#[must_use]
pub fn as_printed(request: &Request, printed: &[PrintedCrook]) -> Option<Plan> {
    let mut chosen: Vec<Option<Chosen>> = vec![None; request.notes.len()];
    for player in 0..request.players.len() {
        let own: Vec<&PrintedCrook> = printed.iter().filter(|one| one.player == player).collect();
        let mut notes: Vec<Played> = Vec::new();
        for (at, note) in request.notes.iter().enumerate().filter(|(_, note)| note.player == Some(player)) {
            let crook = own.get(own.partition_point(|one| one.from <= note.from).checked_sub(1)?)?.crook;
            if Some(crook.family) != request.players.get(player).map(|player| player.family) {
                return None;
            }
            let worth = note.weight * Making::of(crook, note.sounding, &request.weights).worth;
            notes.push(Played { at, time: (note.from, note.to), crook, worth });
        }
        for note in one_at_a_time(notes) {
            *chosen.get_mut(note.at)? = Some(Chosen { player, crook: note.crook });
        }
    }
    let is_given = |note: &WantedNote| note.player.is_some_and(|player| player < request.players.len());
    request.notes.iter().all(is_given).then(|| Plan::of(request, &chosen))
}

/// A note on its crook.
#[derive(Clone, Copy)]
struct Played {
    at: usize,
    time: (Ticks, Ticks),
    crook: &'static Crook,
    worth: f64,
}

/// Of the notes of one player those that he can play one after the other and that are worth most, without those worth nothing.
fn one_at_a_time(mut notes: Vec<Played>) -> Vec<Played> {
    notes.retain(|note| note.worth > 0.0);
    put_in_order(&mut notes, |note| (note.time.1, note.at));
    // Of so many of the notes by their ends the best that can be had.
    let mut best: Vec<f64> = vec![0.0];
    let before = |note: &Played| notes.partition_point(|other| other.time.1 <= note.time.0);
    for note in &notes {
        let with = note.worth + best.get(before(note)).copied().unwrap_or(0.0);
        let without = best.last().copied().unwrap_or(0.0);
        best.push(with.max(without));
    }
    let (mut left, mut played) = (notes.len(), Vec::new());
    while let Some(note) = left.checked_sub(1).and_then(|last| notes.get(last)) {
        if best.get(left) > best.get(left - 1) {
            played.push(*note);
            left = before(note);
        } else {
            left -= 1;
        }
    }
    played
}

/// What of a plan by printed crooks could not be planned as it is asked.
#[must_use]
pub fn not_asked(request: &Request, plan: &Plan) -> NotAsked {
    let owns = |player: usize, crook: &Crook| {
        let own = request.players.get(player).map_or(&[][..], |player| &player.crooks);
        own.iter().any(|named: &NamedCrook| named.crook == crook)
    };
    let mut found = NotAsked {
        not_owned: plan.stretches.iter().any(|stretch| !owns(stretch.player, stretch.crook)),
        ..NotAsked::default()
    };
    for team in teams(&request.players, request.together) {
        let both = request.notes.iter().zip(&plan.notes);
        let own = both.filter_map(|(note, played)| {
            let played = played.as_ref().filter(|played| team.contains(&played.player))?;
            Some((note.from, note.to, played.player, played.crook))
        });
        let mut notes: Vec<_> = own.collect();
        put_in_order(&mut notes, |(from, to, player, _)| (*from, *to, *player));
        // Who played last, on what, until when.
        let mut last: Option<(usize, &Crook, Ticks)> = None;
        for (from, to, player, crook) in notes {
            if let Some((other, before, end)) = last.filter(|(_, before, _)| *before != crook)
                && from < end + request.change_time
            {
                let is_apart = other != player && is_still_on(plan, other, before, from);
                found.apart |= is_apart;
                found.too_quick |= !is_apart;
            }
            last = Some((player, crook, last.map_or(to, |(.., end)| end.max(to))));
        }
    }
    found
}

/// Whether a player is on a crook at a moment, between two notes or in one.
fn is_still_on(plan: &Plan, player: usize, crook: &Crook, at: Ticks) -> bool {
    plan.stretches.iter().any(|stretch| stretch.player == player && stretch.crook == crook && at < stretch.to)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::request::CrookPlayer;
    use crate::{Weights, plan};
    use crookwise_theory::CrookFamily;

    fn ticks(quarters: i64) -> Ticks {
        Ticks::of_fraction(quarters, 1).unwrap()
    }

    fn crook(name: &str) -> &'static Crook {
        NamedCrook::named(CrookFamily::Horn, name).unwrap().crook
    }

    fn printed(all: &[(usize, i64, &str)]) -> Vec<PrintedCrook> {
        let one = |(player, from, name): &(usize, i64, &str)| PrintedCrook {
            player: *player,
            from: ticks(*from),
            crook: crook(name),
        };
        all.iter().map(one).collect()
    }

    /// A pair of horns with these notes: whose, from when, how long, what sounds.
    fn request(notes: &[(usize, i64, i64, &str)], change_time: i64) -> Request {
        let note = |(player, from, long, sounding): &(usize, i64, i64, &str)| WantedNote {
            player: Some(*player),
            ..WantedNote::free(ticks(*from), ticks(from + long), sounding.parse().unwrap())
        };
        let horn = CrookPlayer {
            family: CrookFamily::Horn,
            crooks: ["Eb", "D"].map(|name| NamedCrook::named(CrookFamily::Horn, name).unwrap()).to_vec(),
            pair: Some(1),
        };
        Request {
            notes: notes.iter().map(note).collect(),
            players: vec![horn.clone(), horn],
            change_time: ticks(change_time),
            together: true,
            weights: Weights::default(),
        }
    }

    #[test]
    fn printed_crooks_are_weighed_as_a_plan_is() {
        // E-flat and G are open in E-flat, D is half stopped; then a change to D, where D and F-sharp are open.
        let asked = request(
            &[(0, 0, 1, "Eb4"), (1, 0, 1, "G3"), (0, 1, 1, "D4"), (0, 20, 1, "D4"), (1, 20, 1, "F#3")],
            8,
        );
        let plan =
            as_printed(&asked, &printed(&[(0, 0, "Eb"), (0, 20, "D"), (1, 0, "Eb"), (1, 20, "D")])).unwrap();
        let told: Vec<_> = plan.stretches.iter().map(|one| (one.player, one.name.as_str(), one.to)).collect();
        assert_eq!(
            told,
            [(0, "Eb", ticks(2)), (0, "D", ticks(21)), (1, "Eb", ticks(1)), (1, "D", ticks(21))]
        );
        assert!((plan.total - (1.0 + 1.0 + 0.6 + 1.0 + 1.0 - 2.0 * 0.5)).abs() < 1e-9, "{}", plan.total);
        assert_eq!(not_asked(&asked, &plan), NotAsked::default());
    }

    #[test]
    fn what_a_crook_does_not_have_and_what_one_player_cannot_play_at_a_time_is_left_out() {
        // Far below anything, and two notes at a time.
        let asked = request(&[(0, 0, 1, "C1"), (0, 1, 4, "Eb4"), (0, 2, 1, "G4"), (0, 3, 1, "Bb4")], 8);
        let plan = as_printed(&asked, &printed(&[(0, 0, "Eb")])).unwrap();
        let is_played: Vec<bool> = plan.notes.iter().map(Option::is_some).collect();
        assert_eq!(is_played, [false, false, true, true]);
        assert_eq!(plan.total, 2.0);
    }

    #[test]
    fn nothing_is_said_of_notes_without_a_crook() {
        let mut asked = request(&[(0, 0, 1, "Eb4"), (1, 1, 1, "Eb4")], 8);
        assert_eq!(as_printed(&asked, &printed(&[(0, 0, "Eb")])), None);
        assert_eq!(as_printed(&asked, &printed(&[(0, 0, "Eb"), (1, 2, "Eb")])), None);
        let both = printed(&[(0, 0, "Eb"), (1, 0, "Eb")]);
        assert!(as_printed(&asked, &both).is_some());
        asked.players[1].family = CrookFamily::Trumpet;
        assert_eq!(as_printed(&asked, &both), None);
        asked.players.pop();
        assert_eq!(as_printed(&asked, &both), None);
        asked.notes[1].player = None;
        assert_eq!(as_printed(&asked, &both), None);
    }

    #[test]
    fn what_could_not_be_planned_so_is_told() {
        let notes = [(0, 0, 1, "Eb4"), (1, 0, 1, "Eb4"), (0, 4, 1, "D4"), (1, 20, 1, "D4")];
        let told = |change_time, all: &[(usize, i64, &str)]| {
            let asked = request(&notes, change_time);
            not_asked(&asked, &as_printed(&asked, &printed(all)).unwrap())
        };
        let both = [(0, 0, "Eb"), (0, 4, "D"), (1, 0, "Eb"), (1, 20, "D")];
        let none = NotAsked::default();
        assert_eq!(told(3, &both), none);
        assert_eq!(told(4, &both), NotAsked { too_quick: true, ..none });
        // The second horn is in D while the first is still in E-flat.
        let apart = [(0, 0, "Eb"), (1, 0, "D")];
        assert!(told(3, &apart).apart && !told(3, &apart).not_owned);
        // G was not asked for.
        assert!(told(3, &[(0, 0, "G"), (1, 0, "G")]).not_owned);
        let mut alone = request(&notes, 3);
        alone.together = false;
        let plan = as_printed(&alone, &printed(&apart)).unwrap();
        assert_eq!(not_asked(&alone, &plan), none);
    }

    #[test]
    fn what_holds_in_some_bars_is_kept_with_its_time() {
        let mut all = printed(&[(0, 0, "Eb"), (0, 20, "D"), (0, 40, "G"), (1, 2, "Eb"), (1, 30, "D")]);
        keep_between(&mut all, (ticks(10), ticks(30)));
        assert_eq!(all, printed(&[(0, 0, "Eb"), (0, 10, "D"), (1, 0, "Eb")]));
    }

    /// Whatever is printed, no plan that may be asked for is worth less than the best plan of it.
    #[test]
    fn one_crook_for_all_is_never_more_than_the_best() {
        let sounding = ["Eb4", "D4", "G4", "F#4", "Bb3", "A3"];
        for first in 0..6 {
            let notes: Vec<(usize, i64, i64, &str)> =
                (0..12).map(|at| (at % 2, at as i64 / 3, 1, sounding[(first + at * at) % 6])).collect();
            let asked = request(&notes, 3);
            for name in ["Eb", "D"] {
                let own = as_printed(&asked, &printed(&[(0, 0, name), (1, 0, name)])).unwrap();
                assert_eq!(not_asked(&asked, &own), NotAsked::default());
                assert!(own.total <= plan(&asked).unwrap().plans[0].total + 1e-9);
            }
        }
    }
}
