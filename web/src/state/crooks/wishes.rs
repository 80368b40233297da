//! What is wanted, and what a plan does with it: held and how, or left out and why. In a plan of keys horns and trumpets want the
//! same note of a chord: it is had where anybody holds it.

use crookwise_planner::{LeftOut, Plan, PlayedNote, Request, Ticks, left_out};
use crookwise_theory::order::put_in_order;
use crookwise_theory::{Production, Tonic};

/// A note that is wanted once.
#[derive(Clone, Debug, PartialEq)]
pub struct Wish {
    /// When it begins and ends.
    pub time: (Ticks, Ticks),
    /// The note, whatever its octave.
    pub tonic: Tonic,
    /// What becomes of it.
    pub fate: Fate,
    /// The notes of the request that want it.
    pub notes: Vec<usize>,
}

/// What becomes of a note that is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fate {
    /// It is played, at best so.
    Held(Production),
    /// It is left out.
    Left(LeftOut),
}

/// How many wishes there are, and what became of them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct WishTally {
    /// All of them.
    pub wanted: usize,
    /// Those that are held, in each way.
    pub open: usize,
    /// By the hand.
    pub hand: usize,
    /// By the lip.
    pub lip: usize,
    /// Left out since no crook at hand has them.
    pub missing: usize,
    /// Left out while a crook is changed.
    pub changing: usize,
    /// Left out since nobody is free.
    pub busy: usize,
}

/// All wishes of a request under a plan, by time.
#[must_use]
pub fn wishes(request: &Request, plan: &Plan) -> Vec<Wish> {
    let why = left_out(request, plan);
    let mut all: Vec<Wish> = Vec::with_capacity(request.notes.len());
    for (at, note) in request.notes.iter().enumerate() {
        let played: Option<&PlayedNote> = plan.notes.get(at).and_then(Option::as_ref);
        let fate = match (played, why.get(at).copied().flatten()) {
            (Some(played), _) => Fate::Held(played.making.production),
            (None, why) => Fate::Left(why.unwrap_or(LeftOut::Missing)),
        };
        let tonic = note.sounding.0.tonic();
        all.push(Wish { time: (note.from, note.to), tonic, fate, notes: vec![at] });
    }
    let is_free =
        |wish: &Wish| wish.notes.iter().all(|at| request.notes.get(*at).is_some_and(|note| note.any_octave));
    put_in_order(&mut all, |wish| (wish.time, wish.tonic, wish.notes.first().copied()));
    let mut once: Vec<Wish> = Vec::with_capacity(all.len());
    for wish in all {
        match once.last_mut() {
            Some(last)
                if (last.time, last.tonic) == (wish.time, wish.tonic) && is_free(last) && is_free(&wish) =>
            {
                last.fate = better(request, last.fate, wish.fate);
                last.notes.extend(wish.notes);
            }
            _ => once.push(wish),
        }
    }
    once
}

/// Of two fates of the same wish the one that counts.
fn better(request: &Request, one: Fate, other: Fate) -> Fate {
    match (one, other) {
        (Fate::Held(first), Fate::Held(second)) => {
            let worth = |way| request.weights.of(way);
            if worth(second) > worth(first) { other } else { one }
        }
        (Fate::Held(_), Fate::Left(_)) => one,
        (Fate::Left(_), Fate::Held(_)) => other,
        (Fate::Left(first), Fate::Left(second)) => Fate::Left(first.max(second)),
    }
}

impl Wish {
    /// Why it sounds nowhere, if it does not.
    #[must_use]
    pub fn left_out(&self) -> Option<(&Self, LeftOut)> {
        match self.fate {
            // What sounds in another octave is there.
            Fate::Held(_) | Fate::Left(LeftOut::HeldElsewhere) => None,
            Fate::Left(why) => Some((self, why)),
        }
    }
}

impl WishTally {
    /// Of all wishes.
    #[must_use]
    pub fn of(wishes: &[Wish]) -> Self {
        let mut tally = Self { wanted: wishes.len(), ..Self::default() };
        for wish in wishes {
            let count = match wish.fate {
                Fate::Held(Production::Open | Production::Chromatic) => &mut tally.open,
                Fate::Held(Production::Lipped) => &mut tally.lip,
                Fate::Held(_) => &mut tally.hand,
                Fate::Left(LeftOut::Missing) => &mut tally.missing,
                Fate::Left(LeftOut::Changing) => &mut tally.changing,
                Fate::Left(LeftOut::Busy | LeftOut::HeldElsewhere) => &mut tally.busy,
            };
            *count += 1;
        }
        tally
    }

    /// How many are held.
    #[must_use]
    pub const fn held(&self) -> usize {
        self.open + self.hand + self.lip
    }

    /// The same in whole hundredths; all of them only where nothing is left out.
    #[must_use]
    pub fn hundredths(&self) -> usize {
        (self.held() * 100).checked_div(self.wanted).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::crooks::setting::{first, key_request, set_many};
    use crookwise_theory::CrookFamily;

    #[test]
    fn a_note_of_a_chord_is_wanted_once_and_every_wish_has_one_fate() {
        let mut setting = first();
        for trumpets in [2, 0] {
            set_many(&mut setting, CrookFamily::Trumpet, trumpets);
            let found = key_request(&setting).plan().unwrap();
            for plan in &found.outcome.plans {
                let tally = WishTally::of(&wishes(&found.request, plan));
                assert_eq!(tally.wanted, 120 * 3);
                let left = tally.missing + tally.changing + tally.busy;
                assert_eq!(tally.held() + left, tally.wanted);
                assert!(tally.hundredths() > 60, "{tally:?}");
            }
        }
    }
}
