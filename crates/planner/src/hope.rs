//! What can still be hoped for from a note on: never less than what any plan brings from there.
//!
//! For each team apart, as if its players could play several notes at a time, and with a small lie in favour of who changes
//! twice. Where several teams may take a note, each of them pays a price for it and the prices are added once; the prices
//! are sought that promise least.

use crate::part::{Part, PartNote};
use crate::state::State;
use crate::team_hope::TeamHope;

/// What is hoped for a part.
#[derive(Debug)]
pub struct Hope {
    teams: Vec<TeamHope>,
    /// From each note on, the prices of all notes.
    prices: Vec<f64>,
}

/// The steps in which prices are sought, as far as the work for them is bearable.
const STEPS: usize = 30;
const MOST_WORK: usize = 3_000_000;

/// The search for the prices that promise least, which may pause.
#[derive(Debug)]
pub struct HopeSearch {
    prices: Vec<f64>,
    best: Option<Hope>,
    takers: Vec<u8>,
    step: usize,
}

impl HopeSearch {
    /// For a part. Dear to begin with: then no more is promised than every note at its best.
    pub fn of(part: &Part) -> Self {
        let price = |note: &PartNote| {
            if note.whose.is_none() && part.teams.len() > 1 { note.highest() } else { 0.0 }
        };
        Self { prices: part.notes.iter().map(price).collect(), best: None, takers: Vec::new(), step: 0 }
    }

    /// One step; the best that was found, where it was the last.
    pub fn go_on(&mut self, part: &Part) -> Option<Hope> {
        let Some(best) = self.best.take() else {
            let first = Hope::at_prices(part, &self.prices);
            self.takers = first.takers(part, &self.prices);
            self.best = Some(first);
            return if part.teams.len() < 2 { self.best.take() } else { None };
        };
        let work: usize = best.teams.iter().map(TeamHope::size).sum();
        if self.step >= (MOST_WORK / work.max(1)).min(STEPS) {
            return Some(best);
        }
        let size = 0.3 / (1.0 + self.step as f64 / 3.0);
        for ((price, note), takers) in self.prices.iter_mut().zip(part.notes.iter()).zip(&self.takers) {
            if note.whose.is_none() {
                *price = (*price + size * (f64::from(*takers) - 1.0) * note.highest()).max(0.0);
            }
        }
        let next = Hope::at_prices(part, &self.prices);
        self.takers = next.takers(part, &self.prices);
        self.best = Some(if next.whole() < best.whole() { next } else { best });
        self.step += 1;
        None
    }
}

impl Hope {
    fn at_prices(part: &Part, prices: &[f64]) -> Self {
        let teams = (0..part.teams.len()).map(|team| TeamHope::of(part, team, prices)).collect();
        let sum = |sum: &mut f64, price: &f64| {
            *sum += price;
            Some(*sum)
        };
        let mut after: Vec<f64> = prices.iter().rev().scan(0.0, sum).collect();
        after.reverse();
        after.push(0.0);
        Self { teams, prices: after }
    }

    /// From the first note on.
    pub fn whole(&self) -> f64 {
        self.from(0, &State::START)
    }

    /// From a note on, where a plan stands so.
    pub fn from(&self, note: usize, state: &State) -> f64 {
        let mut first = 0;
        let mut sum = self.prices.get(note).copied().unwrap_or(0.0);
        for (at, team) in self.teams.iter().enumerate() {
            sum +=
                team.from(note, state.bound(at), state.last(at), state.own.get(first..).unwrap_or_default());
            first += team.seats();
        }
        sum
    }

    /// How many teams take each note, at these prices.
    fn takers(&self, part: &Part, prices: &[f64]) -> Vec<u8> {
        let mut takers = vec![0; part.notes.len()];
        for (at, team) in self.teams.iter().enumerate() {
            team.mark_taken(part, at, prices, &mut takers);
        }
        takers
    }
}
