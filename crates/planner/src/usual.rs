//! What is usually written for horn and trumpet: what a plan of keys, which names no notes, has to go by.

use crate::key_table::{Given, in_every_octave};
use crate::making::{Making, Weights};
use crookwise_theory::{Crook, Tonic, Written};

/// A note, which may stand in any octave, where a crook has it most usually: its worth is that of its making, less the more
/// seldom the written note is struck in real parts than the one that is struck most. `None` where the crook does not have it.
pub(crate) fn most_usual(crook: &Crook, note: Tonic, weights: &Weights) -> Option<Given> {
    let attacks = crook.family.attacks();
    let most = attacks.iter().map(|(_, count)| *count).max().unwrap_or(1);
    let of = |written: Written| {
        let own = attacks.iter().find(|(midi, _)| *midi == written.0.midi());
        own.map_or(0.0, |(_, count)| f64::from(*count) / f64::from(most))
    };
    let usual = |given: Given| {
        let worth = given.making.worth * of(given.making.written);
        Given { making: Making { worth, ..given.making }, ..given }
    };
    let worth = |given: &Given| given.making.worth;
    in_every_octave(crook, note, weights)
        .map(usual)
        .filter(|given| worth(given) > 0.0)
        .max_by(|one, other| worth(one).total_cmp(&worth(other)))
}
