//! What can still be hoped for from a note on: never less than what any plan brings from there.
//!
//! For each team apart, with a small lie in favour of who changes twice, and where players are free again at different times
//! another in favour of who is not. Where several teams may take a note, each of them pays a price for it and the prices are added once; the prices
//! are sought that promise least.

use crate::part::{Part, PartNote};
use crate::state::State;
use crate::team_hope::TeamHope;
use std::sync::Arc;

/// What is hoped for a part.
#[derive(Debug)]
pub struct Hope {
    teams: Vec<Arc<TeamHope>>,
    /// The prices of the notes.
    prices: Vec<f64>,
    /// From each note on, the prices of all notes.
    after: Vec<f64>,
}

/// The steps in which prices are sought before each attempt, as far as the work for them is bearable.
const STEPS: [usize; 4] = [10, 20, 30, 40];
const MOST_WORK: usize = 40_000_000;
/// So far along begins who has prices near which least may be hoped for.
const NEAR: usize = 10;

/// The search for the prices that promise least, which may pause.
#[derive(Debug)]
pub struct HopeSearch {
    best: Hope,
    prices: Vec<f64>,
    takers: Vec<u8>,
    step: usize,
    most_steps: usize,
}

impl HopeSearch {
    /// For a part, which may begin with prices. Without them dear to begin with: then no more is promised than every note at its
    /// best.
    pub fn of(part: &Part, prices: Option<Vec<f64>>) -> Self {
        let price = |note: &PartNote| if is_priced(part, note) { note.highest() } else { 0.0 };
        let step = if prices.is_some() { NEAR } else { 0 };
        let prices = prices.unwrap_or_else(|| part.notes.iter().map(price).collect());
        let best = Hope::at_prices(part, &prices);
        let takers = best.takers(part);
        let work: usize = best.teams.iter().map(|team| team.size()).sum();
        let is_any_priced = part.notes.iter().any(|note| is_priced(part, note));
        let most_steps = if is_any_priced { MOST_WORK / work.max(1) } else { 0 };
        Self { best, prices, takers, step, most_steps }
    }

    /// The best that was found.
    pub const fn hope(&self) -> &Hope {
        &self.best
    }

    /// One step, if one of the attempts, counted from 0, wants more; whether it does not.
    pub fn go_on(&mut self, part: &Part, attempt: usize) -> bool {
        if self.step >= STEPS.get(attempt).copied().unwrap_or_default().min(self.most_steps) {
            return true;
        }
        // Steps that grow shorter and yet go any distance: where they lead to, the prices promise least.
        let size = 1.0 / (1.0 + 2.0 * self.step as f64);
        for ((price, note), takers) in self.prices.iter_mut().zip(part.notes.iter()).zip(&self.takers) {
            if is_priced(part, note) {
                *price = (*price + size * (f64::from(*takers) - 1.0) * note.highest()).max(0.0);
            }
        }
        let next = Hope::at_prices(part, &self.prices);
        self.takers = next.takers(part);
        if next.whole() < self.best.whole() {
            self.best = next;
        }
        self.step += 1;
        false
    }
}

/// Whether several teams may take a note.
fn is_priced(part: &Part, note: &PartNote) -> bool {
    note.whose.is_none() && part.teams.len() > 1
}

impl Hope {
    fn at_prices(part: &Part, prices: &[f64]) -> Self {
        let mut teams: Vec<Arc<TeamHope>> = Vec::with_capacity(part.teams.len());
        for (at, team) in part.teams.iter().enumerate() {
            let alike = part.teams.iter().take(at).position(|other| other.is_like(team));
            teams.push(match alike.and_then(|alike| teams.get(alike)) {
                Some(alike) => Arc::clone(alike),
                None => Arc::new(TeamHope::of(part, at, prices)),
            });
        }
        let sum = |sum: &mut f64, price: &f64| {
            *sum += price;
            Some(*sum)
        };
        let mut after: Vec<f64> = prices.iter().rev().scan(0.0, sum).collect();
        after.reverse();
        after.push(0.0);
        Self { teams, prices: prices.to_vec(), after }
    }

    /// From the first note on.
    pub fn whole(&self) -> f64 {
        self.from(0, &State::START)
    }

    /// From a note on, where a plan stands so.
    pub fn from(&self, note: usize, state: &State) -> f64 {
        let mut first = 0;
        let mut sum = self.after.get(note).copied().unwrap_or(0.0);
        for (at, team) in self.teams.iter().enumerate() {
            let held = state.busy.get(first..).unwrap_or_default();
            let own = state.own.get(first..).unwrap_or_default();
            sum += team.from(note, state.bound(at), state.last(at), held, own);
            first += team.seats();
        }
        sum
    }

    /// The prices of the notes.
    pub fn prices(&self) -> &[f64] {
        &self.prices
    }

    /// How many teams take each note, at its prices.
    fn takers(&self, part: &Part) -> Vec<u8> {
        let mut takers = vec![0; part.notes.len()];
        for (at, team) in self.teams.iter().enumerate() {
            team.mark_taken(part, at, &self.prices, &mut takers);
        }
        takers
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{CrookPlayer, NamedCrook, Request, Ticks, WantedNote, Weights};
    use crookwise_theory::CrookFamily;

    /// What a pair of horns in C alto may hope for of these open notes, each from and to.
    fn hoped(notes: &[(i64, i64)]) -> f64 {
        let note =
            |(from, to): &(i64, i64)| WantedNote::free(Ticks(*from), Ticks(*to), "C5".parse().unwrap());
        let horn = CrookPlayer {
            family: CrookFamily::Horn,
            crooks: vec![NamedCrook::named(CrookFamily::Horn, "C alto").unwrap()],
            pair: Some(1),
        };
        let request = Request {
            notes: notes.iter().map(note).collect(),
            players: vec![horn.clone(), horn],
            change_time: Ticks(4),
            together: true,
            weights: Weights::default(),
        };
        HopeSearch::of(&Part::all(&request)[0], None).hope().whole()
    }

    #[test]
    fn two_players_hold_two_notes() {
        assert_eq!(hoped(&[(0, 4), (0, 4)]), 2.0);
        assert_eq!(hoped(&[(0, 4), (0, 4), (0, 4), (4, 8)]), 3.0);
        // A third that comes while two are held, and one behind them.
        assert_eq!(hoped(&[(0, 4), (1, 5), (3, 7), (7, 8)]), 3.0);
        // Where one of the two is free again it is hoped that both are.
        assert_eq!(hoped(&[(0, 8), (0, 2), (3, 7), (3, 7)]), 4.0);
    }
}
