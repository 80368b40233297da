//! What to ask next: first what is due, among it the weak more often; a part of the weak before it is due; something
//! new by the step of the course.
//!
//! Measured with a simulated learner (`tests/learner.rs`): six crooks with seven notes each, twenty questions a day
//! for forty days, right nineteen times of twenty but on the crook of A, where two times of three a third is taken for
//! a sixth. By the fifth day at the latest that crook stands first among the weak, and it is asked 1.87 to 1.92 times
//! as often as an even share would; where written B-flat is missed on every crook instead, it stands first by the
//! second day and comes back 2.02 times as often. Nothing is asked twice in a session, so 2.10 is the most there can be.

use super::attempt::{Counts, Subject};
use super::concern::concerns;
use super::item::Item;
use super::log::Record;
use crate::chance::Chance;
use crookwise_theory::order::in_order;
use crookwise_theory::ordered::Ordered;

/// Why something is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Reason {
    /// Its time has come.
    Due,
    /// It is weak.
    Weak,
    /// It was never asked.
    New,
    /// There was room.
    Room,
}

/// Something to ask.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ask {
    /// What.
    pub item: Item,
    /// Why.
    pub why: Reason,
}

/// What to ask next, up to `count` items, none twice, in this order: due, weak, new, known.
///
/// `fresh` are the items of the course up to the step reached, in its order; `now` is in seconds since 1970. Equal
/// records and seeds give equal plans.
#[must_use]
pub fn plan(record: &Record, fresh: &[Item], now: u64, seed: u32, count: usize) -> Vec<Ask> {
    let memories = record.memories();
    let weights = Weights::of(record, now);
    let mut due: Vec<Item> = Vec::new();
    let mut weak = Vec::new();
    let mut known = Vec::new();
    for (item, memory) in memories.iter() {
        match (memory.is_due(now), weights.is_weak(item)) {
            (true, _) => due.push(*item),
            (false, true) => weak.push(*item),
            (false, false) => known.push(*item),
        }
    }
    let mut new: Vec<Item> = Vec::new();
    for item in fresh {
        if !memories.contains_key(item) && !new.contains(item) {
            new.push(*item);
        }
    }
    let quarter = count.div_ceil(4);
    let for_weak = quarter.min(weak.len());
    // What is new waits while much is due: it would be forgotten before it could come back.
    let for_new = if due.len() < count { quarter.min(new.len()) } else { 0 };
    let mut drawing = Drawing { weights, chance: Chance::new(seed), asks: Vec::new(), count };
    drawing.draw(&mut due, count.saturating_sub(for_weak + for_new), Reason::Due);
    drawing.draw(&mut weak, for_weak, Reason::Weak);
    drawing.take_new(&mut new, for_new);
    // What room is left goes to all of them in turn.
    drawing.draw(&mut due, count, Reason::Due);
    drawing.draw(&mut weak, count, Reason::Weak);
    drawing.take_new(&mut new, quarter);
    drawing.draw(&mut known, count, Reason::Room);
    drawing.take_new(&mut new, count);
    in_order(drawing.asks, |ask| ask.why)
}

/// A plan in the making.
struct Drawing {
    weights: Weights,
    chance: Chance,
    asks: Vec<Ask>,
    count: usize,
}

impl Drawing {
    /// Takes up to `most` of a list by weight.
    fn draw(&mut self, list: &mut Vec<Item>, most: usize, why: Reason) {
        let mut weights: Vec<u32> = list.iter().map(|item| self.weights.of_item(item)).collect();
        for _ in 0..most.min(list.len()).min(self.room()) {
            let at = self.chance.by_weight(&weights);
            weights.remove(at);
            self.asks.push(Ask { item: list.remove(at), why });
        }
    }

    /// Takes up to `most` in the order of the course.
    fn take_new(&mut self, list: &mut Vec<Item>, most: usize) {
        let taken = list.drain(..most.min(list.len()).min(self.room()));
        self.asks.extend(taken.map(|item| Ask { item, why: Reason::New }));
    }

    fn room(&self) -> usize {
        self.count.saturating_sub(self.asks.len())
    }
}

/// How much more weight than usual something must have to be called weak, in thousandths.
const WEAK: u32 = 60;

/// How weak everything is against the reader's own mean.
struct Weights {
    mean: u32,
    recent: Ordered<Subject, Counts>,
    /// Mistakes in thousandths of all recent answers.
    mistakes: Vec<(crate::mistake::Mistake, u32)>,
}

impl Weights {
    fn of(record: &Record, now: u64) -> Self {
        let recent = record.recent(now);
        let mut all = Counts::default();
        let mut mistakes = Vec::new();
        for (subject, counts) in recent.iter() {
            if let Subject::Kind(_) = subject {
                all = all.plus(*counts);
            }
        }
        for (subject, counts) in recent.iter() {
            if let Subject::Mistake(mistake) = subject {
                let share = u64::from(counts.asked) * 1000 / u64::from(all.asked.max(1));
                mistakes.push((*mistake, u32::try_from(share).unwrap_or(1000).min(1000)));
            }
        }
        Self { mean: all.weakness(), recent, mistakes }
    }

    /// By how much crook, note and kind of an item are weaker than the mean, in thousandths each, and half the share
    /// of the mistakes that its staff invites.
    fn excess(&self, item: &Item) -> u32 {
        let subjects =
            [Some(Subject::Staff(item.staff)), item.note.map(Subject::Note), Some(Subject::Kind(item.kind))];
        let counted = subjects.into_iter().flatten().filter_map(|subject| self.recent.get(&subject));
        let own: u32 = counted.map(|counts| counts.weakness().saturating_sub(self.mean)).sum();
        let invited = self.mistakes.iter().filter(|(mistake, _)| concerns(*mistake, item));
        own + invited.map(|(_, share)| share / 2).sum::<u32>()
    }

    fn is_weak(&self, item: &Item) -> bool {
        self.excess(item) >= WEAK
    }

    /// 1 for what is no weaker than the mean, up to a few dozen.
    fn of_item(&self, item: &Item) -> u32 {
        let weight = 100 + self.excess(item);
        weight * weight / 100
    }
}
