//! What can be done about a note that a plan leaves out.

use crate::making::Making;
use crate::plan::Plan;
use crate::request::{Request, WantedNote};
use crookwise_theory::order::in_order;
use crookwise_theory::{Crook, Pitch, Sounding};

/// What could be done; the nearest first.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// What it is.
    pub kind: RemedyKind,
    /// Who would play, as an index into the players.
    pub player: usize,
    /// On which crook.
    pub crook: &'static Crook,
    /// What would sound.
    pub sounding: Sounding,
    /// How that is written and made.
    pub making: Making,
}

/// What can be done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RemedyKind {
    /// The same note by somebody else, on the crook he has then.
    OtherPlayer,
    /// The same note in another octave.
    Octave,
    /// Another note of the chord that sounds.
    ChordMember,
    /// The same note on another crook that he owns, if a rest is made for the change.
    OtherCrook,
}

/// Octaves up and down that are tried, the nearest first.
const OCTAVES: [i32; 4] = [-1, 1, -2, 2];

/// So many remedies are told of each kind.
const MOST_OF_A_KIND: usize = 2;

/// What can be done about a note; nothing for one that is played, or is not there.
#[must_use]
pub fn remedies(request: &Request, plan: &Plan, note: usize) -> Vec<Remedy> {
    let (Some(wanted), Some(None)) = (request.notes.get(note), plan.notes.get(note)) else {
        return Vec::new();
    };
    let at_hand: Vec<(usize, &'static Crook)> = (0..request.players.len())
        .filter(|player| is_free(request, plan, *player, wanted))
        .filter_map(|player| Some((player, crook_then(plan, player, wanted)?)))
        .collect();
    let own = |player: &usize| wanted.player.is_none_or(|own| own == *player);
    let mut all = Vec::new();
    let mut try_it = |kind, (player, crook): (usize, &'static Crook), sounding| {
        let making = Making::of(crook, sounding, &request.weights);
        if making.worth > 0.0 {
            all.push(Remedy { kind, player, crook, sounding, making });
        }
    };
    for one in at_hand.iter().filter(|(player, _)| !own(player)) {
        try_it(RemedyKind::OtherPlayer, *one, wanted.sounding);
    }
    for one in at_hand.iter().filter(|(player, _)| own(player)) {
        for octaves in OCTAVES {
            try_it(RemedyKind::Octave, *one, moved(wanted.sounding, octaves));
        }
        for member in members(request, note, wanted) {
            try_it(RemedyKind::ChordMember, *one, member);
        }
    }
    for (player, person) in request.players.iter().enumerate().filter(|(player, _)| own(player)) {
        for named in &person.crooks {
            try_it(RemedyKind::OtherCrook, (player, named.crook), wanted.sounding);
        }
    }
    nearest(all)
}

/// Of each kind the best, in the order of the kinds.
fn nearest(all: Vec<Remedy>) -> Vec<Remedy> {
    let mut kept: Vec<Remedy> = Vec::new();
    for remedy in in_order(all, |one| (one.kind, -one.making.worth)) {
        let alike = |one: &&Remedy| one.kind == remedy.kind;
        let is_told =
            kept.iter().filter(alike).any(|one| (one.crook, one.sounding) == (remedy.crook, remedy.sounding));
        if !is_told && kept.iter().filter(alike).count() < MOST_OF_A_KIND {
            kept.push(remedy);
        }
    }
    kept
}

fn moved(sounding: Sounding, octaves: i32) -> Sounding {
    let Pitch { step, alter, octave } = sounding.0;
    Sounding(Pitch::new(step, alter, octave.saturating_add(octaves)))
}

/// Whether a player plays nothing in the plan while the note would sound.
pub(crate) fn is_free(request: &Request, plan: &Plan, player: usize, wanted: &WantedNote) -> bool {
    !request.notes.iter().zip(&plan.notes).any(|(note, played)| {
        played.is_some_and(|played| played.player == player) && note.from < wanted.to && wanted.from < note.to
    })
}

/// The crook that a player has at hand then: that of the stretch around the note, or of the last one before it, or of his first.
pub(crate) fn crook_then(plan: &Plan, player: usize, wanted: &WantedNote) -> Option<&'static Crook> {
    let own = || plan.stretches.iter().filter(|stretch| stretch.player == player);
    let before = own().rfind(|stretch| stretch.from <= wanted.from);
    before.or_else(|| own().next()).map(|stretch| stretch.crook)
}

/// The other notes that sound while the note would begin, in the octave nearest to it.
fn members(request: &Request, at: usize, wanted: &WantedNote) -> Vec<Sounding> {
    let mut all: Vec<Sounding> = Vec::new();
    for (other, note) in request.notes.iter().enumerate() {
        let sounds = other != at && note.from <= wanted.from && wanted.from < note.to;
        let is_same = note.sounding.0.tonic() == wanted.sounding.0.tonic();
        if sounds && !is_same {
            let near = Sounding(note.sounding.0.tonic().nearest_to(wanted.sounding.0));
            if !all.contains(&near) {
                all.push(near);
            }
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::making::Weights;
    use crate::request::{CrookPlayer, NamedCrook};
    use crate::ticks::Ticks;
    use crookwise_theory::CrookFamily;

    fn quarters(many: f64) -> Ticks {
        Ticks::of_quarters(many).unwrap()
    }

    #[test]
    fn a_note_left_out_is_mended_in_several_ways() {
        let horn = |crooks: &[&str]| CrookPlayer {
            family: CrookFamily::Horn,
            crooks: crooks.iter().map(|name| NamedCrook::named(CrookFamily::Horn, name).unwrap()).collect(),
            pair: None,
        };
        let note = |from: f64, sounding: &str, player| WantedNote {
            player: Some(player),
            ..WantedNote::free(quarters(from), quarters(from + 1.0), sounding.parse().unwrap())
        };
        // Sounding B-flat 2 lies too low for the horn in G and is the second partial of the horn in B-flat.
        let request = Request {
            notes: vec![note(0.0, "G4", 0), note(0.0, "Bb4", 1), note(1.0, "Bb2", 0), note(1.0, "D4", 1)],
            players: vec![horn(&["G"]), horn(&["Bb alto"])],
            change_time: quarters(8.0),
            together: true,
            weights: Weights::default(),
        };
        let plan = crate::plan(&request).unwrap().plans.remove(0);
        assert_eq!(plan.notes[2], None);
        let kinds = |request: &Request| {
            remedies(request, &plan, 2)
                .iter()
                .map(|one| (one.kind, one.sounding.0.to_string()))
                .collect::<Vec<_>>()
        };
        let all = kinds(&request);
        assert!(all.contains(&(RemedyKind::Octave, "Bb3".into())), "{all:?}");
        assert!(all.contains(&(RemedyKind::ChordMember, "D3".into())), "{all:?}");
        // The other horn plays then, and could not take it.
        assert!(all.iter().all(|(kind, _)| *kind != RemedyKind::OtherPlayer), "{all:?}");
        assert_eq!(remedies(&request, &plan, 0), []);
        assert_eq!(remedies(&request, &plan, 99), []);
    }
}
