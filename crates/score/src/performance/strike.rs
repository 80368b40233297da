//! What is struck once, or over and over, as the score has it.

use crate::score::{NoteId, Quarters, StaffId};
use crookwise_theory::{CrookFamily, Interval, Intonation, Partial, Pitch, Production, Step, Transposition};

/// What sounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PlayedSound {
    /// A pitch.
    Pitched {
        /// As it sounds, in the strict spelling.
        pitch: Pitch,
        /// How natural brass has it.
        natural: Option<Natural>,
        /// Whether the octave below sounds too.
        below: bool,
    },
    /// A drum with a pitch.
    Drum(Pitch),
    /// Something without a pitch of its own; where it is printed.
    Unpitched(Pitch),
}

/// A note of natural brass: with it the note can be tuned as the tube gives it, in any tuning.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Natural {
    /// Horn or trumpet.
    pub family: CrookFamily,
    /// The partial it is; `None` off the series, where it is bent to its pitch.
    pub partial: Option<Partial>,
    /// How it is made.
    pub production: Production,
    /// What the crook's own written C4 sounds, its fourth partial.
    pub crook: Pitch,
}

impl PlayedSound {
    /// Its frequency in Hz: natural brass on the series as its tube gives it where `as_tube`, all else in the tuning; `None` of what has
    /// no pitch.
    #[must_use]
    pub fn hz(&self, intonation: &Intonation, as_tube: bool) -> Option<f64> {
        match *self {
            Self::Pitched { pitch, natural, .. } => {
                let tube = natural.filter(|_| as_tube).and_then(|natural| {
                    let crook = Transposition(Interval::between(Pitch::natural(Step::C, 4), natural.crook));
                    Some(intonation.natural_hz(natural.partial?, crook))
                });
                Some(tube.unwrap_or_else(|| intonation.tuning.frequency(pitch)))
            }
            Self::Drum(pitch) => Some(intonation.tuning.frequency(pitch)),
            Self::Unpitched(_) => None,
        }
    }
}

/// The strikes of a staff.
#[derive(Clone, Debug)]
pub(super) struct Line {
    pub staff: StaffId,
    /// By when they begin.
    pub strikes: Vec<Strike>,
    /// When the longest of all up to here ends.
    pub reach: Vec<Quarters>,
}

/// What is struck as one, with all that is tied to it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Strike {
    pub note: NoteId,
    /// From when to when, in quarter notes from the beginning of the score.
    pub start: Quarters,
    pub end: Quarters,
    pub bar: u32,
    pub voice: u8,
    pub sound: PlayedSound,
    pub strength: u8,
    pub strength_end: u8,
    /// How much of its length it sounds.
    pub share: f64,
    pub how: How,
    /// Whether it is written as tied to something before that the score does not have.
    pub tied: bool,
    /// How many notes are tied to it.
    pub ties: u16,
}

/// How something is struck.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum How {
    /// Once.
    Once,
    /// As a grace note, that many before of so many.
    Grace { place: u16, of: u16 },
    /// Again and again at equal times: of the strokes so far apart every so many, from that one on.
    Strokes { apart: Quarters, first: u8, every: u8 },
    /// As fast as can be.
    Roll,
    /// To and fro with another.
    Trill(Pitch),
}

impl Strike {
    /// How strong it is at a part of its way, 0 to 1.
    pub fn strength_at(&self, part: f64) -> u8 {
        let (from, to) = (f64::from(self.strength), f64::from(self.strength_end));
        (from + (to - from) * part.clamp(0.0, 1.0)).round().clamp(1.0, 127.0) as u8
    }
}
