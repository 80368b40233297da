//! How a sounding note is written and made on a crook, and what that is worth.

use crate::error::RequestError;
use crookwise_theory::{Crook, CrookFamily, Partial, Production, Reach, Sounding, Written};

/// What counts how much. Guides, to be changed: players, horns and sources differ.
#[derive(Clone, Debug, PartialEq)]
pub struct Weights {
    /// What a note of weight 1 is worth, by how it is made, in the order of [`Production::ALL`]; from 0 on.
    pub worth: [f64; Self::WAYS],
    /// What every change costs each player who makes it; from 0 on.
    pub change_cost: f64,
    /// Written notes above this partial are not asked of anybody; 2 to 32.
    pub highest: u8,
}

impl Default for Weights {
    /// Open 1, hand out 0.9, lipped 0.8, a quarter stopped 0.7, half 0.6, three quarters 0.4, fully 0.3, all others 0; a
    /// change costs 0.5; nothing above partial 12. After the grades of the tables of reach.
    fn default() -> Self {
        let worth = Production::ALL.map(|production| match production {
            Production::Open => 1.0,
            Production::HandOut => 0.9,
            Production::Lipped => 0.8,
            Production::Quarter => 0.7,
            Production::Half => 0.6,
            Production::ThreeQuarter => 0.4,
            Production::Full => 0.3,
            Production::Chromatic | Production::Unavailable => 0.0,
        });
        Self { worth, change_cost: 0.5, highest: 12 }
    }
}

impl Weights {
    /// The ways of making a note that are weighed.
    pub const WAYS: usize = Production::ALL.len();

    /// What a note made so is worth.
    #[must_use]
    pub fn of(&self, production: Production) -> f64 {
        let at = Production::ALL.iter().position(|one| *one == production);
        at.and_then(|at| self.worth.get(at)).copied().unwrap_or(0.0)
    }

    /// The same with what notes made so are worth.
    #[must_use]
    pub fn with(mut self, production: Production, worth: f64) -> Self {
        let all = Production::ALL.iter().zip(&mut self.worth);
        all.filter(|(one, _)| **one == production).for_each(|(_, own)| *own = worth);
        self
    }

    /// The same with a way of making notes asked for, as the guide weighs it.
    #[must_use]
    pub fn asking(self, production: Production) -> Self {
        self.with(production, Self::default().of(production))
    }

    pub(crate) fn check(&self) -> Result<(), RequestError> {
        let is_fine = |number: f64| number >= 0.0 && number.is_finite();
        if !is_fine(self.change_cost) {
            return Err(RequestError::ChangeCost);
        }
        if !self.worth.into_iter().all(is_fine) {
            return Err(RequestError::Worth);
        }
        if !(2..=32).contains(&self.highest) {
            return Err(RequestError::Highest(self.highest));
        }
        Ok(())
    }
}

/// A note as a player would write and make it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Making {
    /// As it is written for the crook, in strict spelling.
    pub written: Written,
    /// How it is made.
    pub production: Production,
    /// What that is worth, for a note of weight 1.
    pub worth: f64,
}

impl Making {
    /// How a sounding note is written and made on a crook.
    #[must_use]
    pub fn of(crook: &Crook, sounding: Sounding, weights: &Weights) -> Self {
        let written = crook.transposition.to_written(sounding);
        let production = if written.0.midi() > highest_written(weights.highest) {
            Production::Unavailable
        } else {
            made(crook.family, written)
        };
        Self { written, production, worth: weights.of(production) }
    }
}

fn made(family: CrookFamily, written: Written) -> Production {
    Reach::of(family, written.0).map_or(Production::Unavailable, |reach| reach.production)
}

/// MIDI number of the highest note that a partial is written as.
pub(crate) fn highest_written(partial: u8) -> i32 {
    let all = Partial::new(partial).map(Partial::written_midi).unwrap_or_default();
    all.into_iter().max().unwrap_or(i32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::request::NamedCrook;

    fn made_on(crook: &str, sounding: &str) -> (String, Production, f64) {
        let crook = NamedCrook::named(CrookFamily::Horn, crook).unwrap().crook;
        let making = Making::of(crook, Sounding(sounding.parse().unwrap()), &Weights::default());
        (making.written.0.to_string(), making.production, making.worth)
    }

    #[test]
    fn notes_are_written_for_the_crook_and_made_by_the_table() {
        assert_eq!(made_on("Eb", "Eb4"), ("C5".into(), Production::Open, 1.0));
        assert_eq!(made_on("F", "C5"), ("G5".into(), Production::Open, 1.0));
        // Above the twelfth partial, although the table has it.
        assert_eq!(made_on("F", "F5"), ("C6".into(), Production::Unavailable, 0.0));
        assert_eq!(made_on("F", "C1").1, Production::Unavailable);
    }
}
