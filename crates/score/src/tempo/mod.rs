//! The tempo of a score at any moment, and the time that follows from it along the road.
//!
//! What any staff says of the tempo holds for all. Where no number stands in a bar, words like "Andante" give a usual one
//! ([`words`]), and where nothing is said at the beginning it is [`USUAL`] beats a minute: both are said as assumed
//! ([`TempoSource`]). A note or rest under a fermata lasts [`FERMATA`] times as long as it is written. What hurries or slows
//! down by degrees ("ritardando") is not followed. Common practice, all of it: performers differ.

mod clock;
mod words;

pub use clock::RoadClock;
pub use words::is_heading;

use crate::score::{Direction, Mark, Quarters, Score};
use crookwise_theory::order::put_in_order;
use std::sync::Arc;

/// Beats a minute where nothing says a tempo.
pub const USUAL: u32 = 100;
/// How many times as long as it is written a note under a fermata lasts.
pub const FERMATA: f64 = 2.0;

/// The tempi of a score.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tempi {
    steps: Vec<TempoStep>,
    /// What lies under fermatas, from when to when; none overlaps another.
    held: Vec<(Quarters, Quarters)>,
}

/// A tempo from a moment on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TempoStep {
    /// From when, in quarter notes from the beginning of the score.
    pub at: Quarters,
    /// Thousandths of quarter notes a minute.
    pub tempo: u32,
    /// Where it is from.
    pub source: TempoSource,
}

/// Where a tempo is from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TempoSource {
    /// The score says it.
    Told,
    /// It is usual for these words.
    Words(Arc<str>),
    /// Nothing says it.
    Usual,
}

impl Tempi {
    /// The tempi of a score.
    #[must_use]
    pub fn of(score: &Score) -> Self {
        let mut told: Vec<(Quarters, u32)> = Vec::new();
        let mut said: Vec<(Quarters, &Arc<str>)> = Vec::new();
        for one in score.staves().flat_map(|staff| &staff.directions) {
            match &one.direction {
                Direction::Tempo(tempo) if *tempo > 0 => told.push((one.at.time, *tempo)),
                Direction::Words(words) => said.push((one.at.time, words)),
                _ => {}
            }
        }
        // What stands highest in the score comes first at its time, and holds.
        put_in_order(&mut told, |(at, _)| *at);
        told.dedup_by_key(|(at, _)| *at);
        let mut bars: Vec<usize> = told.iter().map(|(at, _)| score.bar_at(*at)).collect();
        bars.dedup();
        let mut steps: Vec<TempoStep> =
            told.into_iter().map(|(at, tempo)| TempoStep { at, tempo, source: TempoSource::Told }).collect();
        for (at, words) in said {
            let bar = score.bar_at(at);
            if bars.binary_search(&bar).is_ok() {
                continue;
            }
            let Some(tempo) = words::tempo(words, score, bar, steps.first()) else { continue };
            let source = TempoSource::Words(Arc::clone(words));
            let place = steps.partition_point(|step| step.at < at);
            if steps.get(place).is_none_or(|step| step.at != at) {
                steps.insert(place, TempoStep { at, tempo, source });
            }
        }
        if steps.first().is_none_or(|first| first.at > Quarters::ZERO) {
            let tempo = words::beats(USUAL, score, 0);
            steps.insert(0, TempoStep { at: Quarters::ZERO, tempo, source: TempoSource::Usual });
        }
        Self { steps, held: held(score) }
    }

    /// Every tempo, by when it begins.
    #[must_use]
    pub fn steps(&self) -> &[TempoStep] {
        &self.steps
    }

    /// What lies under fermatas, from when to when in quarter notes from the beginning of the score.
    #[must_use]
    pub fn held(&self) -> &[(Quarters, Quarters)] {
        &self.held
    }

    /// The tempo that holds at a time of the score, fermatas left out.
    #[must_use]
    pub fn at(&self, time: Quarters) -> Option<&TempoStep> {
        let after = self.steps.partition_point(|step| step.at <= time);
        self.steps.get(after.max(1) - 1)
    }

    /// Seconds that a quarter note takes at a time of the score.
    fn pace(&self, time: Quarters) -> f64 {
        let tempo = self.at(time).map_or(f64::from(USUAL) * 1000.0, |step| f64::from(step.tempo.max(1)));
        let next = self.held.partition_point(|(_, to)| *to <= time);
        let is_held = self.held.get(next).is_some_and(|(from, _)| *from <= time);
        60_000.0 / tempo * if is_held { FERMATA } else { 1.0 }
    }
}

/// What lies under fermatas. Of several that end together the shortest counts; what overlaps begins where the one before ends.
fn held(score: &Score) -> Vec<(Quarters, Quarters)> {
    let mut all: Vec<(Quarters, Quarters)> = score
        .staves()
        .flat_map(crate::score::PartStaff::notes)
        .filter(|(_, note)| note.look.marks.has(Mark::Fermata) && note.is_played() && !note.grace)
        .map(|(_, note)| (note.start.time, note.end.time))
        .collect();
    put_in_order(&mut all, |(from, to)| (*to, core::cmp::Reverse(*from)));
    all.dedup_by_key(|(_, to)| *to);
    let mut held: Vec<(Quarters, Quarters)> = Vec::new();
    for (from, to) in all {
        let from = held.last().map_or(from, |(_, ended)| from.max(*ended));
        if from < to {
            held.push((from, to));
        }
    }
    held
}
