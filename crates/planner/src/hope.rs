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

impl Hope {
    /// For a part.
    pub fn of(part: &Part) -> Self {
        if part.teams.len() < 2 {
            return Self::at_prices(part, &vec![0.0; part.notes.len()]);
        }
        // Dear to begin with: then no more is promised than every note at its best.
        let mut prices: Vec<f64> =
            part.notes.iter().map(|note| if note.whose.is_none() { highest(note) } else { 0.0 }).collect();
        let mut best = Self::at_prices(part, &prices);
        let work: usize = best.teams.iter().map(TeamHope::size).sum();
        let mut takers = best.takers(part, &prices);
        for step in 0..(MOST_WORK / work.max(1)).min(STEPS) {
            let size = 0.3 / (1.0 + step as f64 / 3.0);
            for ((price, note), takers) in prices.iter_mut().zip(&part.notes).zip(takers) {
                if note.whose.is_none() {
                    *price = (*price + size * (f64::from(takers) - 1.0) * highest(note)).max(0.0);
                }
            }
            let next = Self::at_prices(part, &prices);
            takers = next.takers(part, &prices);
            if next.whole() < best.whole() {
                best = next;
            }
        }
        best
    }

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

fn highest(note: &PartNote) -> f64 {
    note.gains.iter().flatten().copied().fold(0.0, f64::max)
}
