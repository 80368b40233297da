//! What is played: the notes of a stretch of the road, with onset and length in seconds, pitch, strength, and how natural brass
//! makes them.
//!
//! How a score is played is common practice, and every number has a name here or in [`strength`](crate::strength) and
//! [`tempo`](crate::tempo): notes that are tied are one; a tremolo has its written rate, without a measure [`ROLL`] strokes a second; dots
//! and wedges shorten; grace notes come before the beat; a trill goes to and fro with the next note of the key above. What has
//! no pitch of its own is told apart. Not played: turns and mordents (their main note sounds), arpeggios, mutes and plucked strings.
//!
//! All is reckoned from exact times ([`RoadClock`]) and never from what came before: a stretch that is played again
//! is the same.

mod begun;
mod gather;
mod strike;
mod struck;

pub use strike::{Natural, PlayedSound};

use crate::road::Road;
use crate::score::{NoteId, Quarters, Score, Sounded, StaffId};
use crate::tempo::{RoadClock, Tempi};
use crookwise_theory::order::put_in_order;
use strike::Line;

/// Strokes a second of a tremolo or a roll without a measure, and notes a second of a trill.
pub const ROLL: f64 = 12.0;
/// Seconds of a grace note.
pub const GRACE: f64 = 0.09;
/// Seconds of all grace notes before a note, at most.
pub const GRACES: f64 = 0.5;
/// How much of its length a note under a dot sounds.
pub const STACCATO: f64 = 0.5;
/// Under a wedge.
pub const STACCATISSIMO: f64 = 0.3;
/// Under a line with a dot.
pub const DETACHED: f64 = 0.75;
/// How much stronger a note under an accent begins, of 127.
pub const ACCENT: f64 = 16.0;
/// Under an upright accent, and at "sf" and the like.
pub const STRONG_ACCENT: f64 = 22.0;
/// Seconds of the shortest note.
pub const SHORTEST: f64 = 0.03;
/// Notes of one answer, at most: more are of a file that is broken in its numbers.
pub const MOST_NOTES: usize = 1_000_000;

/// A score ready to be played.
#[derive(Clone, Debug)]
pub struct Performance {
    road: Road,
    tempi: Tempi,
    clock: RoadClock,
    lines: Vec<Line>,
}

/// A note that is played.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlayedNote {
    /// Its staff.
    pub staff: StaffId,
    /// The note as written; of several that are tied the first.
    pub note: NoteId,
    /// When it begins, in seconds from the beginning of the stretch.
    pub onset: f64,
    /// How long it sounds, in seconds; it may sound on behind the end of the stretch.
    pub length: f64,
    /// What sounds.
    pub sound: PlayedSound,
    /// How strong it begins, 1 to 127.
    pub strength: u8,
    /// How strong it ends.
    pub strength_end: u8,
    /// Whether it began before the stretch: what is left of it sounds from the beginning. Who comes from before leaves it out.
    pub held: bool,
    /// Whether it is one of the strokes of a tremolo or a trill behind the first.
    pub stroke: bool,
}

impl Performance {
    /// A score made ready; `sounded` is what it sounds ([`Score::sounded`]).
    #[must_use]
    pub fn of(score: &Score, sounded: &[Sounded<'_>]) -> Self {
        let (road, tempi) = (Road::of(score), Tempi::of(score));
        let clock = RoadClock::of(&road, &tempi);
        Self { road, tempi, clock, lines: gather::lines(score, sounded) }
    }

    /// The road it is played along.
    #[must_use]
    pub const fn road(&self) -> &Road {
        &self.road
    }

    /// Its tempi.
    #[must_use]
    pub const fn tempi(&self) -> &Tempi {
        &self.tempi
    }

    /// The seconds along the road.
    #[must_use]
    pub const fn clock(&self) -> &RoadClock {
        &self.clock
    }

    /// How many written notes of a staff are played in one pass, those that are tied counted each.
    #[must_use]
    pub fn count(&self, staff: StaffId) -> usize {
        let own = self.lines.iter().filter(|line| line.staff == staff).flat_map(|line| &line.strikes);
        own.map(|strike| 1 + usize::from(strike.ties)).sum()
    }

    /// What these staves play between two times of the road in quarter notes, by when it begins. Notes that began before sound on as
    /// [`PlayedNote::held`].
    #[must_use]
    pub fn between(&self, staves: &[StaffId], from: Quarters, to: Quarters) -> Vec<PlayedNote> {
        let mut found = Vec::new();
        if to <= from {
            return found;
        }
        let stretch = begun::Stretch::new(&self.road, &self.clock, from, to);
        for line in self.lines.iter().filter(|line| staves.contains(&line.staff)) {
            stretch.line(line, &mut found);
        }
        // None begins before the stretch, and such numbers are in the order of their bits.
        put_in_order(&mut found, |note| note.onset.to_bits());
        found
    }
}
