//! A stretch of the road: what begins in it, and what sounds on from before.

use super::strike::{How, Line, Strike};
use super::{MOST_NOTES, PlayedNote};
use crate::road::{Leg, Road};
use crate::score::Quarters;
use crate::tempo::RoadClock;

/// Quarter notes behind a stretch from which grace notes may begin in it.
const GRACES_FROM: i32 = 5;
/// Legs through which a note that is tied sounds on, at most.
const MOST_LEGS: usize = 64;

/// A stretch of the road.
pub(super) struct Stretch<'a> {
    pub road: &'a Road,
    pub clock: &'a RoadClock,
    pub from: Quarters,
    pub to: Quarters,
    /// Both in seconds from the beginning of the road.
    pub seconds: (f64, f64),
}

/// A strike on a leg of the road.
pub(super) struct OnLeg<'a> {
    pub strike: &'a Strike,
    pub leg: &'a Leg,
    /// From when to when, in quarter notes from the beginning of the road; the end where it sounds on through the next legs.
    pub from: Quarters,
    pub to: Quarters,
}

impl<'a> Stretch<'a> {
    pub fn new(road: &'a Road, clock: &'a RoadClock, from: Quarters, to: Quarters) -> Self {
        Self { road, clock, from, to, seconds: (clock.seconds(from), clock.seconds(to)) }
    }

    /// All that a staff plays in it.
    pub fn line(&self, line: &Line, found: &mut Vec<PlayedNote>) {
        let until = self.to.plus(Quarters::whole(GRACES_FROM)).unwrap_or(self.to);
        let first = self.road.leg_at(self.from).map_or(0, |(place, _)| place);
        let legs = self.road.legs().iter().enumerate().skip(first);
        for (place, leg) in legs.take_while(|(_, leg)| leg.at < until) {
            // What may sound in this part of the leg, in the times of the score.
            let from = leg.in_score(self.from).unwrap_or(leg.from);
            let to = leg.in_score(until).unwrap_or(leg.to);
            let begins = line.reach.partition_point(|reach| *reach < from);
            let strikes = line.strikes.iter().skip(begins).take_while(|strike| strike.start <= to);
            for strike in strikes {
                if found.len() >= MOST_NOTES {
                    return;
                }
                self.strike(line, (place, leg), strike, found);
            }
        }
    }

    fn strike(&self, line: &Line, (place, leg): (usize, &Leg), strike: &Strike, found: &mut Vec<PlayedNote>) {
        if let How::Grace { place, of } = strike.how {
            self.grace(line.staff, leg, strike, (place, of), found);
            return;
        }
        if strike.start >= leg.to || strike.end <= leg.from {
            return;
        }
        let ends = strike.end.min(leg.to);
        let Some((from, to)) = leg.on_road(strike.start.max(leg.from)).zip(leg.on_road(ends)) else { return };
        let mut on = OnLeg { strike, leg, from, to };
        if strike.how != How::Once {
            self.often(line.staff, &on, found);
            return;
        }
        if strike.end >= leg.to {
            on.to = self.sounds_on(line, place, strike, to);
        }
        let before = place.checked_sub(1).and_then(|before| self.road.legs().get(before));
        let goes_on = goes_on(strike, leg) && before.is_some_and(|before| reaches_end(line, before, strike));
        // What goes on from the leg before is met there, unless the stretch begins behind that leg.
        if goes_on && from > self.from {
            return;
        }
        let held = from < self.from || goes_on;
        if from < self.to && on.to > self.from {
            self.once(line.staff, &on, held, found);
        }
    }

    /// When a strike ends that reaches the end of its leg: it sounds on where the next leg begins with the same sound tied.
    fn sounds_on(&self, line: &Line, place: usize, strike: &Strike, to: Quarters) -> Quarters {
        let mut to = to;
        for leg in self.road.legs().iter().skip(place + 1).take(MOST_LEGS) {
            let begins = line.reach.partition_point(|reach| *reach <= leg.from);
            let mut near = line.strikes.iter().skip(begins).take_while(|other| other.start <= leg.from);
            let tied = near.find(|other| {
                other.end > leg.from
                    && other.how == How::Once
                    && other.sound_alike(&strike.sound)
                    && goes_on(other, leg)
            });
            let Some(tied) = tied else { break };
            to = leg.on_road(tied.end.min(leg.to)).unwrap_or(to);
            if tied.end < leg.to {
                break;
            }
        }
        to
    }
}

/// Whether a strike is under way where a leg begins, or is written as tied to what was before.
fn goes_on(strike: &Strike, leg: &Leg) -> bool {
    strike.start < leg.from || (strike.tied && strike.start == leg.from)
}

/// Whether a leg ends with the sound of a strike.
fn reaches_end(line: &Line, leg: &Leg, strike: &Strike) -> bool {
    let begins = line.reach.partition_point(|reach| *reach < leg.to);
    let mut near = line.strikes.iter().skip(begins).take_while(|other| other.start < leg.to);
    near.any(|other| other.end >= leg.to && other.how == How::Once && other.sound_alike(&strike.sound))
}
