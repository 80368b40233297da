//! The walk from bar to bar.

use super::endings::{self, Ending};
use super::fault::{RoadFault, RoadFaultKind};
use super::jumps::Jumps;
use super::{Leg, Road};
use crate::score::{Bar, Quarters, Score};
use crookwise_theory::order::put_in_order;

/// How often a repeat is played, at most.
pub const MOST_PASSES: u16 = 32;
/// Bars of the longest road.
pub const MOST_PLAYED: usize = 200_000;

/// Where a walk is.
struct Walker {
    /// The bar to be played next.
    at: usize,
    /// Where the repeat at hand begins.
    start: usize,
    /// Which time it is played.
    pass: u16,
    /// The bar at which players have jumped back.
    back: Option<usize>,
}

/// Walks from the first bar to where the road ends. Until players jump back, each repeat is left for good after its last pass, so
/// that where it begins only ever moves on; from then on only the coda leads away, and that lies behind.
pub(super) fn walk(score: &Score) -> Road {
    let bars = score.bars();
    let mut faults = Vec::new();
    never_ending(bars, &mut faults);
    let endings = endings::find(bars, &mut faults);
    let jumps = Jumps::of(score);
    let mut track = Track::new(bars);
    let mut walker = Walker { at: 0, start: 0, pass: 1, back: None };
    while let Some(bar) = bars.get(walker.at) {
        if bar.signs.repeat_from && walker.at != walker.start {
            (walker.start, walker.pass) = (walker.at, 1);
        }
        if let Some(ending) = endings::at(&endings, walker.at).filter(|ending| ending.bars.0 == walker.at) {
            let pass = if walker.back.is_some() { ending.total } else { walker.pass };
            if !ending.has(pass) {
                walker.at = ending.bars.1 + 1;
                if !ending.goes_on {
                    (walker.start, walker.pass) = (walker.at, 1);
                }
                continue;
            }
        }
        if !track.play(walker.at) {
            faults.push(RoadFault { bar: walker.at, kind: RoadFaultKind::TooLong });
            break;
        }
        if walker.back.is_some() && jumps.ends_at(walker.at) {
            break;
        }
        walker.at = walker.next(bar, &endings, &jumps, &mut faults);
    }
    put_in_order(&mut faults, |fault| (fault.bar, fault.kind));
    faults.dedup();
    Road { legs: track.done(), faults }
}

impl Walker {
    /// The bar after the one that was played.
    fn next(&mut self, bar: &Bar, endings: &[Ending], jumps: &Jumps, faults: &mut Vec<RoadFault>) -> usize {
        let at = self.at;
        if let Some(back) = self.back {
            if jumps.goes_back(at) && at != back {
                faults.push(RoadFault { bar: at, kind: RoadFaultKind::SecondJump });
            }
            return jumps.coda_from(at, faults).unwrap_or(at + 1);
        }
        let ending = endings::at(endings, at).filter(|ending| ending.bars.1 == at);
        let times = match ending {
            Some(ending) if ending.repeats || ending.goes_on => Some(ending.total),
            Some(_) => Some(1),
            None => bar.signs.repeat_to,
        };
        if let Some(times) = times {
            if times > MOST_PASSES {
                faults.push(RoadFault { bar: at, kind: RoadFaultKind::TooOften });
            }
            if self.pass < times.min(MOST_PASSES) {
                self.pass += 1;
                return self.start;
            }
            (self.start, self.pass) = (at + 1, 1);
        }
        if jumps.goes_back(at)
            && let Some(target) = jumps.back_from(at, faults)
        {
            self.back = Some(at);
            return target;
        }
        at + 1
    }
}

/// Repeats that begin and are not closed before the next begins.
fn never_ending(bars: &[Bar], faults: &mut Vec<RoadFault>) {
    let mut open = None;
    for (at, bar) in bars.iter().enumerate() {
        if bar.signs.repeat_from
            && let Some(before) = open.replace(at)
        {
            faults.push(RoadFault { bar: before, kind: RoadFaultKind::NeverEnds });
        }
        if bar.signs.repeat_to.is_some() || bar.signs.ending.is_some() {
            open = None;
        }
    }
}

/// What was played.
struct Track<'a> {
    bars: &'a [Bar],
    /// How often each bar was played.
    heard: Vec<u16>,
    legs: Vec<Leg>,
}

impl<'a> Track<'a> {
    fn new(bars: &'a [Bar]) -> Self {
        Self { bars, heard: vec![0; bars.len()], legs: Vec::new() }
    }

    /// Plays a bar; says whether it could.
    fn play(&mut self, at: usize) -> bool {
        let Some((bar, heard)) = self.bars.get(at).zip(self.heard.get_mut(at)) else { return false };
        *heard = heard.saturating_add(1);
        let Some(to) = bar.start.plus(bar.length) else { return false };
        let (before, road) = match self.legs.last_mut() {
            Some(leg) if leg.bars.1 + 1 == at => {
                leg.bars.1 = at;
                leg.to = to;
                return leg.before + leg.count() <= MOST_PLAYED && leg.at.plus(leg.length()).is_some();
            }
            Some(leg) => (leg.before + leg.count(), leg.at.plus(leg.length())),
            None => (0, Some(Quarters::ZERO)),
        };
        let Some(road) = road.filter(|road| before < MOST_PLAYED && road.plus(bar.length).is_some()) else {
            return false;
        };
        self.legs.push(Leg { bars: (at, at), pass: *heard, before, at: road, from: bar.start, to });
        true
    }

    fn done(self) -> Vec<Leg> {
        self.legs
    }
}
