//! How long plans take: movements of four hundred bars for two pairs of horns over every crook that is built.

#![allow(clippy::print_stdout, reason = "a measurement is printed")]

use crookwise_planner::key_plan::{KeyStretch, wanted};
use crookwise_planner::{CrookPlayer, NamedCrook, Request, RequestError, Ticks, WantedNote, Weights, plan};
use crookwise_theory::CrookFamily;
use std::time::Instant;

/// What a plan was to take, in milliseconds.
const PLANNED: u32 = 100;

/// The keys of a movement of four hundred bars, in quarters of it.
const KEYS: [&str; 4] = ["G minor", "Bb major", "Eb major", "G minor"];

fn main() -> Result<(), RequestError> {
    let free = keys();
    let given = free.iter().map(|note| WantedNote { any_octave: false, ..note.clone() }).enumerate();
    // In each bar three notes: the players of a pair and one of the other.
    let given = given.map(|(at, note)| WantedNote { player: Some(at % 4), ..note }).collect();
    time("a plan of keys, for anybody", &request(free))?;
    time("the same, each note for a player", &request(given))?;
    println!("planned: {PLANNED} ms");
    Ok(())
}

fn keys() -> Vec<WantedNote> {
    let stretches: Vec<KeyStretch> =
        KEYS.iter().filter_map(|key| Some(KeyStretch { key: key.parse().ok()?, bars: 100 })).collect();
    wanted(&stretches, 0)
}

fn request(notes: Vec<WantedNote>) -> Request {
    let horn = |pair| CrookPlayer {
        family: CrookFamily::Horn,
        crooks: NamedCrook::all(CrookFamily::Horn),
        pair: Some(pair),
    };
    Request {
        notes,
        players: [1, 1, 2, 2].map(horn).into(),
        change_time: Ticks::of_fraction(40, 1).unwrap_or_default(),
        together: true,
        weights: Weights::default(),
    }
}

fn time(what: &str, request: &Request) -> Result<(), RequestError> {
    let begun = Instant::now();
    let outcome = plan(request)?;
    let took = begun.elapsed();
    let total = outcome.plans.first().map_or(0.0, |plan| plan.total);
    let gap = if outcome.optimal { 0.0 } else { 100.0 * (outcome.bound - total) / outcome.bound.max(1.0) };
    println!("{:>9} ms  {what}: {} notes, {gap:.1} % from the bound", took.as_millis(), request.notes.len());
    Ok(())
}
