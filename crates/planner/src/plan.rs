//! A plan as it is told: who plays each note, how it is written and made, the stretches on one crook, and the total.

use crate::key_table::Given;
use crate::making::Making;
use crate::part::Chosen;
use crate::request::{NamedCrook, Request};
use crate::ticks::Ticks;
use crookwise_theory::order::put_in_order;
use crookwise_theory::{Crook, Sounding};

/// So long a player stays on one crook.
#[derive(Clone, Debug, PartialEq)]
pub struct Stretch {
    /// Whose it is, as an index into the players.
    pub player: usize,
    /// Its crook.
    pub crook: &'static Crook,
    /// The crook's name as it was asked for.
    pub name: String,
    /// Where its first note begins.
    pub from: Ticks,
    /// Where its last note ends.
    pub to: Ticks,
}

/// A note that is played.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlayedNote {
    /// By whom, as an index into the players.
    pub player: usize,
    /// On what.
    pub crook: &'static Crook,
    /// What sounds.
    pub sounding: Sounding,
    /// How.
    pub making: Making,
    /// What it is worth, its weight included.
    pub worth: f64,
}

/// A plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// What all its notes are worth, less what its changes cost.
    pub total: f64,
    /// By player, then by time.
    pub stretches: Vec<Stretch>,
    /// In the order asked; `None` where a note is left out.
    pub notes: Vec<Option<PlayedNote>>,
}

impl Plan {
    /// How many changes of crook it asks for, each player's counted.
    #[must_use]
    pub fn changes(&self) -> usize {
        let pairs = self.stretches.iter().zip(self.stretches.iter().skip(1));
        pairs.filter(|(one, next)| one.player == next.player).count()
    }

    /// Where it stands among plans, the best first: by its total, and of equal ones that which leaves less out.
    pub(crate) fn rank(&self) -> (i64, usize) {
        // Equal sums may differ in their last digits by the order in which they were added up.
        let total = (self.total * 1e6).round() as i64;
        (-total, self.notes.iter().filter(|note| note.is_none()).count())
    }

    /// From who plays what.
    pub(crate) fn of(request: &Request, chosen: &[Option<Chosen>]) -> Self {
        let notes: Vec<Option<PlayedNote>> = request
            .notes
            .iter()
            .zip(chosen)
            .map(|(note, chosen)| {
                let Chosen { player, crook } = (*chosen)?;
                let Given { sounding, making } = note.given_on(crook, &request.weights);
                Some(PlayedNote { player, crook, sounding, making, worth: making.worth * note.weight })
            })
            .collect();
        let stretches: Vec<Stretch> =
            (0..request.players.len()).flat_map(|player| stretches(request, &notes, player)).collect();
        let mut plan = Self { total: 0.0, stretches, notes };
        let worth: f64 = plan.notes.iter().flatten().map(|note| note.worth).sum();
        plan.total = worth - request.weights.change_cost * plan.changes() as f64;
        plan
    }
}

fn stretches(request: &Request, notes: &[Option<PlayedNote>], player: usize) -> Vec<Stretch> {
    let mut mine: Vec<(Ticks, Ticks, &'static Crook)> = request
        .notes
        .iter()
        .zip(notes)
        .filter_map(|(note, played)| {
            let played = played.filter(|played| played.player == player)?;
            Some((note.from, note.to, played.crook))
        })
        .collect();
    put_in_order(&mut mine, |(from, ..)| *from);
    let mut all: Vec<Stretch> = Vec::new();
    for (from, to, crook) in mine {
        match all.last_mut() {
            Some(last) if last.crook == crook => last.to = to,
            _ => all.push(Stretch { player, crook, name: name(request, player, crook), from, to }),
        }
    }
    all
}

fn name(request: &Request, player: usize, crook: &'static Crook) -> String {
    let named = request.players.get(player).and_then(|player| {
        player.crooks.iter().find(|named| named.crook == crook).map(|named| named.name.clone())
    });
    named.unwrap_or_else(|| NamedCrook::of(crook).name)
}
