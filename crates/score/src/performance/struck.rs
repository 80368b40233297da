//! Strikes as notes in seconds: once, as grace notes, over and over.

use super::begun::{OnLeg, Stretch};
use super::strike::{How, PlayedSound, Strike};
use super::{GRACE, GRACES, MOST_NOTES, PlayedNote, ROLL, SHORTEST};
use crate::road::Leg;
use crate::score::{Quarters, StaffId};
use crookwise_theory::Pitch;

impl Stretch<'_> {
    /// A note of a strike from when to when, in seconds from the beginning of the road; what lies before the stretch is cut off.
    fn note(&self, staff: StaffId, strike: &Strike, (from, to): (f64, f64)) -> PlayedNote {
        let onset = (from - self.seconds.0).max(0.0);
        PlayedNote {
            staff,
            note: strike.note,
            onset,
            length: to - self.seconds.0 - onset,
            sound: strike.sound,
            strength: strike.strength,
            strength_end: strike.strength_end,
            held: from < self.seconds.0,
            stroke: false,
        }
    }

    /// What is struck once.
    pub fn once(&self, staff: StaffId, on: &OnLeg<'_>, held: bool, found: &mut Vec<PlayedNote>) {
        let (from, to) = (self.clock.seconds(on.from), self.clock.seconds(on.to));
        let sounds = ((to - from) * on.strike.share).max(SHORTEST);
        let mut note = self.note(staff, on.strike, (from, from + sounds));
        if note.length <= 0.0 {
            return;
        }
        if held {
            note.held = true;
            note.strength = on.strike.strength_at((self.seconds.0 - from) / sounds);
        }
        found.push(note);
    }

    /// A grace note: before the beat of what it graces, one after the other.
    pub fn grace(
        &self,
        staff: StaffId,
        leg: &Leg,
        strike: &Strike,
        (place, of): (u16, u16),
        found: &mut Vec<PlayedNote>,
    ) {
        let bar = usize::try_from(strike.bar).unwrap_or(usize::MAX);
        if bar < leg.bars.0 || leg.bars.1 < bar {
            return;
        }
        let Some(main) = leg.on_road(strike.start) else { return };
        let length = GRACE.min(GRACES / f64::from(of.max(1)));
        // Before the beginning of the road there is no time.
        let from = (self.clock.seconds(main) - f64::from(place) * length).max(0.0);
        let begins = self.seconds.0 <= from && from < self.seconds.1;
        let is_held = from < self.seconds.0 && self.from <= main && main < self.to;
        if begins || is_held {
            let mut note = self.note(staff, strike, (from, from + length));
            note.length = note.length.max(SHORTEST);
            found.push(note);
        }
    }

    /// What is struck over and over.
    pub fn often(&self, staff: StaffId, on: &OnLeg<'_>, found: &mut Vec<PlayedNote>) {
        match on.strike.how {
            How::Strokes { apart, first, every } => self.measured(staff, on, (apart, first, every), found),
            How::Trill(other) => self.fast(staff, on, Some(other), found),
            _ => self.fast(staff, on, None, found),
        }
    }

    /// Strokes at their written rate.
    fn measured(
        &self,
        staff: StaffId,
        on: &OnLeg<'_>,
        (apart, first, every): (Quarters, u8, u8),
        found: &mut Vec<PlayedNote>,
    ) {
        let (strike, leg) = (on.strike, on.leg);
        let from = leg.in_score(self.from).unwrap_or(leg.from).max(leg.from);
        let all = strike.end.minus(strike.start).map_or(0.0, Quarters::decimal);
        // A stroke or two early: what lies before is left out by its exact time.
        let gone = from.minus(strike.start).map_or(0.0, Quarters::decimal) / apart.decimal();
        let mut stroke = ((gone.max(0.0) as i64) - 2).max(0);
        while stroke % i64::from(every.max(1)) != i64::from(first) {
            stroke += 1;
        }
        while found.len() < MOST_NOTES {
            let at = apart.scaled((stroke, 1)).and_then(|since| strike.start.plus(since));
            let Some(at) = at.filter(|at| *at < strike.end.min(leg.to)) else { break };
            let Some(road) = leg.on_road(at) else {
                stroke += i64::from(every);
                if at < leg.from { continue } else { break }
            };
            if road >= self.to {
                break;
            }
            let begun = stroke > i64::from(first);
            stroke += i64::from(every);
            if at < from || road < self.from {
                continue;
            }
            let ends = road.plus(apart).unwrap_or(road);
            let seconds = (self.clock.seconds(road), self.clock.seconds(ends));
            let mut note = self.note(staff, strike, seconds);
            let part = at.minus(strike.start).map_or(0.0, Quarters::decimal) / all.max(f64::MIN_POSITIVE);
            note.strength = strike.strength_at(part);
            note.strength_end = note.strength;
            note.stroke = begun;
            found.push(note);
        }
    }

    /// As fast as can be; a trill ends on its own note.
    fn fast(&self, staff: StaffId, on: &OnLeg<'_>, other: Option<Pitch>, found: &mut Vec<PlayedNote>) {
        let (from, to) = (self.clock.seconds(on.from), self.clock.seconds(on.to));
        let mut count = ((to - from) * ROLL).round().max(1.0);
        if other.is_some() {
            count = ((count - 1.0) / 2.0).floor().max(1.0) * 2.0 + 1.0;
        }
        let apart = (to - from) / count;
        if apart <= 0.0 {
            return;
        }
        let mut stroke = ((self.seconds.0 - from) / apart).floor().max(0.0);
        while stroke < count && found.len() < MOST_NOTES {
            let at = from + stroke * apart;
            if at >= self.seconds.1 {
                break;
            }
            if at >= self.seconds.0 {
                let mut note = self.note(staff, on.strike, (at, at + apart));
                note.strength = on.strike.strength_at(stroke / count);
                note.strength_end = note.strength;
                note.stroke = stroke > 0.0;
                if let Some(other) = other.filter(|_| stroke % 2.0 != 0.0)
                    && let PlayedSound::Pitched { pitch, natural, .. } = &mut note.sound
                {
                    (*pitch, *natural) = (other, None);
                }
                found.push(note);
            }
            stroke += 1.0;
        }
    }
}
