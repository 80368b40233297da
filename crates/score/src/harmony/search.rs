//! The harmonies of a score sought piece by piece, so that who seeks them can do other things between.

use super::ScoreHarmony;
use super::segments::{Row, Segment};
use super::slices::{self, Slice};
use crate::chord::{Harmony, Heard};
use crate::score::{Moment, NoteId, Score, Sounded};
use crookwise_theory::Pitch;

/// So much is looked at in a piece: slices of the music, then harmonies to be named. Some hundredths of a second on a telephone.
const PIECE: usize = 200;

/// A search under way.
#[derive(Debug)]
pub struct HarmonySearch {
    /// What sounds, as far as it matters here.
    tones: Vec<Tone>,
    slices: Vec<Slice>,
    row: Row,
    /// The best row, once it is known, the last first.
    unnamed: Option<Vec<Segment>>,
    found: Vec<ScoreHarmony>,
}

/// A note that sounds.
#[derive(Clone, Copy, Debug)]
struct Tone {
    id: NoteId,
    heard: Heard,
    is_drum: bool,
}

impl HarmonySearch {
    /// Nothing has been found; `sounded` is what the score sounds ([`Score::sounded`]).
    #[must_use]
    pub fn begin(score: &Score, sounded: &[Sounded<'_>]) -> Self {
        let tone = |note: &Sounded<'_>| Tone {
            id: note.id,
            heard: Heard { pitch: note.pitch, spells: note.making.is_none() },
            is_drum: note.is_drum,
        };
        let slices = slices::cut(score, sounded);
        Self {
            tones: sounded.iter().map(tone).collect(),
            row: Row::of(slices.len()),
            slices,
            unnamed: None,
            found: Vec::new(),
        }
    }

    /// Looks at the next piece; whether there is more. `score` is the one it began with, unchanged.
    pub fn go_on(&mut self, score: &Score) -> bool {
        if self.row.go_on(&self.slices, PIECE) {
            return true;
        }
        let mut unnamed = self.unnamed.take().unwrap_or_else(|| {
            let mut row = self.row.best(&self.slices);
            row.reverse();
            row
        });
        for segment in unnamed.split_off(unnamed.len().saturating_sub(PIECE)).into_iter().rev() {
            self.name(score, &segment);
        }
        let is_more = !unnamed.is_empty();
        self.unnamed = Some(unnamed);
        is_more
    }

    /// What has been found; all harmonies, when there is no more.
    #[must_use]
    pub fn found(self) -> Vec<ScoreHarmony> {
        self.found
    }

    /// Names the next harmony, or has the one before go on where they are alike.
    fn name(&mut self, score: &Score, segment: &Segment) {
        let Some(within) = self.slices.get(segment.from..segment.to) else { return };
        let (Some(first), Some(last)) = (within.first(), within.last()) else { return };
        let bar = score.bar_at(first.from);
        let key = score.movement_at(Moment::measured(first.from));
        let (heard, notes, drums) = self.members(segment, within);
        let harmony = Harmony::of(&heard, key);
        let (from, to) = (first.from, last.to);
        match self.found.last_mut() {
            Some(before) if before.harmony.kind == harmony.kind && before.key == key => before.to = to,
            _ => self.found.push(ScoreHarmony { from, to, bar, key, harmony, notes, drums }),
        }
    }

    /// The notes of a harmony: all of its chord, and a bass that lies under it throughout.
    fn members(&self, segment: &Segment, within: &[Slice]) -> (Vec<Heard>, Vec<NoteId>, Vec<Pitch>) {
        let (mut found, mut drums) = (Vec::new(), Vec::new());
        let mut seen: Vec<usize> = Vec::new();
        let pedal = segment.pedal(within);
        // The bass is what lies lowest for the longest time, not what touches the depth once.
        let bass = segment.bass(within).unwrap_or(i32::MIN);
        for &at in within.iter().flat_map(|slice| &slice.notes) {
            let Some(tone) = self.tones.get(at).filter(|_| !seen.contains(&at)) else { continue };
            seen.push(at);
            let pitch = tone.heard.pitch;
            let semitones = pitch.semitones();
            let class = semitones.rem_euclid(12);
            if tone.is_drum {
                if !drums.contains(&pitch) {
                    drums.push(pitch);
                }
            } else if semitones >= bass && (segment.has(class) || pedal == Some(class)) {
                found.push((tone.heard, tone.id));
            }
        }
        let (heard, notes) = found.into_iter().unzip();
        (heard, notes, drums)
    }
}
