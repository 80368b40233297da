//! Why a plan leaves notes out: since no crook at hand has them, since nobody is free, or since a crook is being changed.

use crate::plan::Plan;
use crate::request::{Request, WantedNote};
use crate::ticks::Ticks;
use crookwise_theory::Crook;
use crookwise_theory::order::put_in_order;

/// Why a note is left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LeftOut {
    /// No crook that is at hand then has it.
    Missing,
    /// Who has it changes his crook then, or is on none yet.
    Changing,
    /// Who has it plays something else.
    Busy,
    /// Any octave of it would do, and somebody sounds it in one.
    HeldElsewhere,
}

/// What a player plays, by time.
struct Played {
    /// From when to when, and on what.
    notes: Vec<(Ticks, Ticks)>,
    stretches: Vec<(Ticks, Ticks, &'static Crook)>,
}

/// For each note of a request why a plan leaves it out; `None` for one that is played.
#[must_use]
pub fn left_out(request: &Request, plan: &Plan) -> Vec<Option<LeftOut>> {
    let players: Vec<Played> =
        (0..request.players.len()).map(|player| Played::of(request, plan, player)).collect();
    let sounding = sounding(request, plan);
    let why = |(note, played): (&WantedNote, &Option<_>)| {
        if played.is_some() {
            return None;
        }
        let key = (note.from, note.sounding.0.tonic());
        if note.any_octave && sounding.binary_search(&key).is_ok() {
            return Some(LeftOut::HeldElsewhere);
        }
        let may = |at: &usize| note.player.is_none_or(|own| own == *at);
        let own = (0..players.len()).filter(may).filter_map(|at| players.get(at)?.could(request, note));
        Some(own.max().unwrap_or(LeftOut::Missing))
    };
    request.notes.iter().zip(&plan.notes).map(why).collect()
}

/// What sounds in any octave, by its beginning.
fn sounding(request: &Request, plan: &Plan) -> Vec<(Ticks, crookwise_theory::Tonic)> {
    let both = request.notes.iter().zip(&plan.notes);
    let played = both.filter(|(note, played)| note.any_octave && played.is_some());
    let mut all: Vec<_> = played.map(|(note, _)| (note.from, note.sounding.0.tonic())).collect();
    put_in_order(&mut all, |one| *one);
    all
}

impl Played {
    fn of(request: &Request, plan: &Plan, player: usize) -> Self {
        let both = request.notes.iter().zip(&plan.notes);
        let own = both.filter(|(_, played)| played.is_some_and(|played| played.player == player));
        let mut notes: Vec<_> = own.map(|(note, _)| (note.from, note.to)).collect();
        put_in_order(&mut notes, |one| *one);
        let own = plan.stretches.iter().filter(|stretch| stretch.player == player);
        let mut stretches: Vec<_> = own.map(|stretch| (stretch.from, stretch.to, stretch.crook)).collect();
        put_in_order(&mut stretches, |(from, ..)| *from);
        Self { notes, stretches }
    }

    /// Why this player, who may play a note, does not; `None` where his crook does not have it.
    fn could(&self, request: &Request, note: &WantedNote) -> Option<LeftOut> {
        let after = self.stretches.partition_point(|(from, ..)| *from <= note.from);
        let at = self.stretches.get(after.saturating_sub(1))?;
        let has = |crook: &Crook| note.given_on(crook, &request.weights).making.worth > 0.0;
        let is_within = at.0 <= note.from && note.to <= at.1;
        let next = self.stretches.get(after).filter(|_| !is_within);
        if !has(at.2) && !next.is_some_and(|next| has(next.2)) {
            return None;
        }
        if !is_within {
            return Some(LeftOut::Changing);
        }
        let before = self.notes.partition_point(|(from, _)| *from < note.to);
        let is_free = before == 0 || self.notes.get(before - 1).is_none_or(|(_, to)| *to <= note.from);
        Some(if is_free { LeftOut::Changing } else { LeftOut::Busy })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::of_keys::KeyRequest;
    use crate::{CrookPlayer, NamedCrook, Weights};
    use crookwise_theory::CrookFamily;

    fn why(keys: &[(&str, u32)], crooks: &[&str], players: u32, rest: u32) -> Vec<(String, Option<LeftOut>)> {
        let owned = crooks.iter().map(|name| NamedCrook::named(CrookFamily::Trumpet, name).unwrap());
        let owned: Vec<_> = owned.collect();
        let trumpet = |_| CrookPlayer { family: CrookFamily::Trumpet, crooks: owned.clone(), pair: Some(1) };
        let asked = KeyRequest {
            stretches: keys
                .iter()
                .map(|(key, bars)| crate::key_plan::KeyStretch { key: key.parse().unwrap(), bars: *bars })
                .collect(),
            players: (0..players).map(trumpet).collect(),
            rest,
            together: true,
            weights: Weights::default(),
            fixed: Vec::new(),
        };
        let found = asked.plan().unwrap();
        let all = left_out(&found.request, &found.outcome.plans[0]);
        found
            .request
            .notes
            .iter()
            .zip(all)
            .map(|(note, why)| (note.sounding.0.tonic().to_string(), why))
            .collect()
    }

    #[test]
    fn what_no_crook_has_is_told_from_what_nobody_is_free_for() {
        // One trumpet holds one note of three, which are all its own.
        let all = why(&[("C major", 1)], &["C"], 1, 0);
        assert_eq!(all.iter().filter(|(_, why)| why.is_none()).count(), 1);
        assert!(all.iter().all(|(_, why)| !matches!(why, Some(LeftOut::Missing))), "{all:?}");
        // A trumpet in C has hardly a note of G-flat major.
        let far = why(&[("Gb major", 1)], &["C"], 2, 0);
        assert!(far.iter().any(|(_, why)| *why == Some(LeftOut::Missing)), "{far:?}");
    }

    #[test]
    fn a_rest_for_a_change_is_told() {
        let all = why(&[("C major", 8), ("Ab major", 30)], &["C", "Ab"], 2, 4);
        let during = &all[8 * 3..12 * 3];
        assert!(during.iter().all(|(_, why)| *why == Some(LeftOut::Changing)), "{during:?}");
    }
}
