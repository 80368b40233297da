//! Places worth hearing in the brass: where it enters after long rests, stands alone, is exposed, leads; and the patterns that
//! the trade names: horn fifths, fanfares on the triad, pedals, octaves of horns with trumpets.
//!
//! Every threshold has a name and stands in the file of its kind. They are our own, and were written down with a musician's
//! list of places before the code; how far the two agree is held by the tests.

mod doubling;
mod entry;
mod exposed;
mod fanfare;
mod fifths;
mod leads;
mod loudness;
mod pedal;
mod solo;
mod staves;

pub use doubling::{DOUBLING_NOTES, DOUBLING_PITCHES};
pub use entry::{LONG_REST_BARS, LONG_REST_QUARTERS};
pub use exposed::{EXPOSED_BARS, EXPOSED_OTHERS};
pub use fanfare::{FANFARE_BARS, FANFARE_LEAPS, FANFARE_NOTES, FANFARE_REST};
pub use fifths::{FIFTHS_CORE_PAIRS, FIFTHS_PAIRS};
pub use leads::{LEADS_BARS, LEADS_NOTES, LEADS_PITCHES};
pub use pedal::{PEDAL_BARS, PEDAL_CHANGE, PEDAL_CHORDS, PEDAL_EDGES, PEDAL_QUARTERS, PEDAL_REST};
pub use solo::{SOLO_BARS, SOLO_NOTES, SOLO_PITCHES};

use crate::harmony::ScoreHarmony;
use crate::score::{NoteId, Score, Sounded, StaffId};
use crookwise_theory::order::put_in_order;
use staves::Staves;

/// What a place is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PlaceKind {
    /// An entry after a long rest.
    Entry,
    /// Brass with hardly anybody beside it.
    Exposed,
    /// One line of brass that nobody doubles.
    Solo,
    /// Brass that has the principal line.
    Leads,
    /// Two horns or trumpets through sixth, fifth and third.
    HornFifths,
    /// A line on the notes of the triad alone.
    Fanfare,
    /// A note that lies while chords change.
    Pedal,
    /// Horns and trumpets in octaves.
    OctaveDoubling,
}

impl PlaceKind {
    /// All of them.
    pub const ALL: [Self; 8] = [
        Self::Entry,
        Self::Exposed,
        Self::Solo,
        Self::Leads,
        Self::HornFifths,
        Self::Fanfare,
        Self::Pedal,
        Self::OctaveDoubling,
    ];
}

/// A place in a score.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScorePlace {
    /// What it is.
    pub kind: PlaceKind,
    /// The staves of brass that make it, in score order.
    pub staves: Vec<StaffId>,
    /// Its first and its last bar, counted from 0.
    pub bars: (usize, usize),
    /// Its first note.
    pub first: NoteId,
}

/// The places of a score, kind by kind, each by when it begins; `sounded` is what it sounds ([`Score::sounded`]).
#[must_use]
pub fn places(score: &Score, sounded: &[Sounded<'_>], harmonies: &[ScoreHarmony]) -> Vec<ScorePlace> {
    let staves = Staves::of(score, sounded);
    let mut all = entry::find(&staves);
    all.extend(exposed::find(&staves));
    all.extend(solo::find(&staves));
    all.extend(leads::find(&staves));
    all.extend(fifths::find(&staves));
    all.extend(fanfare::find(&staves, harmonies));
    all.extend(pedal::find(&staves, harmonies));
    all.extend(doubling::find(&staves));
    put_in_order(&mut all, |place| (place.kind, place.bars));
    all
}

/// Adds a place, or joins it to the one of the same kind that shares bars with it: what several staves do together is one
/// place.
fn join(found: &mut Vec<ScorePlace>, place: ScorePlace) {
    let (from, to) = place.bars;
    match found.iter_mut().find(|other| other.bars.0 <= to && from <= other.bars.1) {
        Some(other) => {
            other.bars = (other.bars.0.min(from), other.bars.1.max(to));
            for staff in place.staves {
                if !other.staves.contains(&staff) {
                    other.staves.push(staff);
                }
            }
        }
        None => found.push(place),
    }
}
