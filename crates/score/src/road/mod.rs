//! The road through a score: in which order its bars are played.
//!
//! One road for all parts, by what any of them prints ([`BarSigns`](crate::score::BarSigns) hold the signs of all): in many
//! files the first part alone has the endings. What the signs mean is common practice:
//!
//! - A repeat goes back to the last sign that begins one, else to where the last repeat was over, else to the beginning. It is
//!   taken once, or as often as it says.
//! - An ending is played when its number is the pass, and passed over when not; the repeat is taken as often as its endings say.
//!   A first ending alone is passed over the last time.
//! - Da capo and dal segno are taken once. From then on no repeat is taken, of endings the last is played; the road leaves at the
//!   first "to coda" for the coda, and ends at the fine. Words ("D.C. al Fine") count where no sign says it.
//! - Jumps lie at the end of their bar, segno and coda at the beginning of theirs: a sign inside a bar counts for the whole.
//!
//! Signs that contradict each other are told ([`RoadFault`]); the road always ends.

mod endings;
mod fault;
mod jumps;
mod walk;

pub use fault::{RoadFault, RoadFaultKind};
pub use walk::{MOST_PASSES, MOST_PLAYED};

use crate::score::{Quarters, Score};

/// The road through a score.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Road {
    legs: Vec<Leg>,
    faults: Vec<RoadFault>,
}

/// Bars played one after the other as they stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Leg {
    /// Its first and its last bar, counted from 0.
    pub bars: (usize, usize),
    /// How often its first bar has then been played, itself counted.
    pub pass: u16,
    /// How many bars are played before it.
    pub before: usize,
    /// When it begins, in quarter notes from the beginning of the road.
    pub at: Quarters,
    /// When its first bar begins in the score, in quarter notes from the beginning.
    pub from: Quarters,
    /// When its last bar ends in the score, likewise.
    pub to: Quarters,
}

impl Leg {
    /// How many bars it has.
    #[must_use]
    pub const fn count(&self) -> usize {
        self.bars.1.saturating_sub(self.bars.0).saturating_add(1)
    }

    /// How long it is in quarter notes.
    #[must_use]
    pub fn length(&self) -> Quarters {
        self.to.minus(self.from).unwrap_or(Quarters::ZERO)
    }

    /// When it ends, in quarter notes from the beginning of the road.
    #[must_use]
    pub fn ends(&self) -> Quarters {
        self.at.plus(self.length()).unwrap_or(self.at)
    }

    /// A time in the score as one of the road; `None` where the leg does not hold it.
    #[must_use]
    pub fn on_road(&self, time: Quarters) -> Option<Quarters> {
        (self.from <= time && time <= self.to).then(|| self.at.plus(time.minus(self.from)?))?
    }

    /// A time of the road as one in the score; `None` where the leg does not hold it.
    #[must_use]
    pub fn in_score(&self, at: Quarters) -> Option<Quarters> {
        let time = self.from.plus(at.minus(self.at)?)?;
        (self.from <= time && time <= self.to).then_some(time)
    }
}

impl Road {
    /// The road through a score.
    #[must_use]
    pub fn of(score: &Score) -> Self {
        walk::walk(score)
    }

    /// Its legs in their order.
    #[must_use]
    pub fn legs(&self) -> &[Leg] {
        &self.legs
    }

    /// What is odd in the signs, by where it stands.
    #[must_use]
    pub fn faults(&self) -> &[RoadFault] {
        &self.faults
    }

    /// How many bars are played in all.
    #[must_use]
    pub fn count(&self) -> usize {
        self.legs.last().map_or(0, |leg| leg.before.saturating_add(leg.count()))
    }

    /// When it ends, in quarter notes from its beginning.
    #[must_use]
    pub fn end(&self) -> Quarters {
        self.legs.last().map_or(Quarters::ZERO, Leg::ends)
    }

    /// The leg at a time of the road, and its place among the legs; the last one at the end and beyond.
    #[must_use]
    pub fn leg_at(&self, at: Quarters) -> Option<(usize, &Leg)> {
        let after = self.legs.partition_point(|leg| leg.at <= at);
        let place = after.max(1) - 1;
        self.legs.get(place).map(|leg| (place, leg))
    }

    /// The bar that is played after so many others, and its leg.
    #[must_use]
    pub fn played(&self, place: usize) -> Option<(usize, &Leg)> {
        let after = self.legs.partition_point(|leg| leg.before <= place);
        let leg = self.legs.get(after.checked_sub(1)?)?;
        let bar = leg.bars.0.checked_add(place.checked_sub(leg.before)?)?;
        (bar <= leg.bars.1).then_some((bar, leg))
    }

    /// When the bar that is played after so many others begins, in quarter notes from the beginning of the road; the end of the
    /// road for the place behind the last.
    #[must_use]
    pub fn begins(&self, score: &Score, place: usize) -> Option<Quarters> {
        if place == self.count() {
            return Some(self.end());
        }
        let (bar, leg) = self.played(place)?;
        leg.on_road(score.bars().get(bar)?.start)
    }

    /// After how many others a bar is played, each time.
    pub fn places_of(&self, bar: usize) -> impl Iterator<Item = usize> {
        let holds = move |leg: &&Leg| leg.bars.0 <= bar && bar <= leg.bars.1;
        self.legs.iter().filter(holds).map(move |leg| leg.before.saturating_add(bar - leg.bars.0))
    }
}
