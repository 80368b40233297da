//! The harmony in its course through a score: at every change the chord, its degree in the movement's key, who holds what.
//!
//! The music is cut where anything begins or ends ([`slices`]). Each row of slices that may be one harmony is held against every
//! chord ([`fit`]): what belongs to the chord speaks for it, by how long it sounds and in how many voices, the bass twice;
//! what does not speaks against it. A change costs something, least where a bar begins and most off the beat. The row of
//! harmonies with the best sum is taken ([`segments`]): so a passing or neighbour note, which is short and off the beat, makes
//! no chord, and a suspension is heard as what it resolves into. Of each harmony the notes that belong to it are then named
//! by [`Harmony::of`](crate::chord::Harmony), as a column of a page is.
//!
//! Our own rules, held against a musician's labels of real movements; what they say is a reading, and others are possible.

mod fit;
mod segments;
mod slices;

use crate::chord::{Harmony, Heard};
use crate::score::{Moment, NoteId, Quarters, Score, Sounded};
use crookwise_theory::{Key, Pitch};
use segments::Segment;
use slices::Slice;

/// A harmony of a score.
#[derive(Clone, Debug, PartialEq)]
pub struct ScoreHarmony {
    /// When it begins, in quarter notes from the beginning.
    pub from: Quarters,
    /// When the next one begins.
    pub to: Quarters,
    /// The bar in which it begins, counted from 0.
    pub bar: usize,
    /// The movement's key there.
    pub key: Option<Key>,
    /// What it is. Its voices are places in `notes`.
    pub harmony: Harmony,
    /// The notes that belong to it, in score order.
    pub notes: Vec<NoteId>,
    /// What the drums add beside it.
    pub drums: Vec<Pitch>,
}

/// The harmonies of a score, from its beginning to its end; a rest of all parts belongs to the harmony before it. `sounded` is
/// what it sounds ([`Score::sounded`]).
#[must_use]
pub fn harmonies(score: &Score, sounded: &[Sounded<'_>]) -> Vec<ScoreHarmony> {
    let slices = slices::cut(score, sounded);
    let mut all: Vec<ScoreHarmony> = Vec::new();
    for segment in segments::best(&slices) {
        let Some(within) = slices.get(segment.from..segment.to) else { continue };
        let (Some(first), Some(last)) = (within.first(), within.last()) else { continue };
        let bar = score.bar_at(first.from);
        let key = score.movement_at(Moment::measured(first.from));
        let (heard, notes, drums) = members(&segment, within, sounded);
        let harmony = Harmony::of(&heard, key);
        let (from, to) = (first.from, last.to);
        match all.last_mut() {
            Some(before) if before.harmony.kind == harmony.kind && before.key == key => before.to = to,
            _ => all.push(ScoreHarmony { from, to, bar, key, harmony, notes, drums }),
        }
    }
    all
}

/// The notes of a harmony: all of its chord, and a bass that lies under it throughout.
fn members(
    segment: &Segment,
    within: &[Slice],
    sounded: &[Sounded<'_>],
) -> (Vec<Heard>, Vec<NoteId>, Vec<Pitch>) {
    let (mut found, mut drums) = (Vec::new(), Vec::new());
    let mut seen: Vec<usize> = Vec::new();
    let pedal = segment.pedal(within);
    // The bass is what lies lowest for the longest time, not what touches the depth once.
    let bass = segment.bass(within).unwrap_or(i32::MIN);
    for &at in within.iter().flat_map(|slice| &slice.notes) {
        let Some(note) = sounded.get(at).filter(|_| !seen.contains(&at)) else { continue };
        seen.push(at);
        let semitones = note.pitch.semitones();
        let class = semitones.rem_euclid(12);
        if note.is_drum {
            if !drums.contains(&note.pitch) {
                drums.push(note.pitch);
            }
        } else if semitones >= bass && (segment.has(class) || pedal == Some(class)) {
            found.push((Heard { pitch: note.pitch, spells: note.making.is_none() }, note.id));
        }
    }
    let (heard, notes) = found.into_iter().unzip();
    (heard, notes, drums)
}
