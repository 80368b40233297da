//! The sounding reduction: all that sounds in a column on a grand staff of two.
//!
//! - From middle C up notes stand on the upper staff, below it on the lower one, by their sound: B♯ below middle C is
//!   middle C and stands above, C♭ over it is B and stands below.
//! - What several voices sound on one key of the keyboard is one note.
//! - Letters are those of the harmony of the column ([`crate::chord`]): the movement's key, and the chord within it.
//!   What differs from the strict spelling of a voice is marked.
//! - A note that every one of its voices holds from the column before is tied to it and keeps its letter; where one of
//!   them strikes it anew it is a new note.

use crate::chord::Harmony;
use crate::passage::Passage;
use crate::sounding::{Sounds, Voice};
use crookwise_theory::Pitch;

/// One of the two staves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Hand {
    /// The upper staff, in the treble clef.
    Upper,
    /// The lower staff, in the bass clef.
    Lower,
}

/// A note of the reduction.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReducedNote {
    /// As it is spelled there.
    pub pitch: Pitch,
    /// The voices that sound it: places in the list they were taken from.
    pub voices: Vec<usize>,
    /// Whether one of them has another letter in its strict spelling.
    pub respelled: bool,
    /// Whether it is held from the column before.
    pub tied: bool,
}

/// A column of the reduction.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ReducedColumn {
    /// Its notes from the lowest up.
    pub notes: Vec<ReducedNote>,
}

impl Hand {
    /// The staff a sound stands on.
    #[must_use]
    pub fn of(pitch: Pitch) -> Self {
        if pitch.midi() >= 60 { Self::Upper } else { Self::Lower }
    }
}

impl ReducedColumn {
    /// The voices of a column, spelled as in their harmony; `before` is the column before.
    #[must_use]
    pub fn of(voices: &[Voice], harmony: &Harmony, before: Option<&Self>) -> Self {
        let mut notes: Vec<ReducedNote> = Vec::new();
        for (place, (voice, letter)) in voices.iter().zip(&harmony.letters).enumerate() {
            let height = letter.pitch.semitones();
            let at = notes.iter().position(|note| note.pitch.semitones() >= height).unwrap_or(notes.len());
            match notes.get_mut(at).filter(|note| note.pitch.semitones() == height) {
                Some(note) => {
                    note.voices.push(place);
                    note.tied &= voice.held;
                }
                None => notes.insert(
                    at,
                    ReducedNote {
                        pitch: letter.pitch,
                        voices: vec![place],
                        respelled: false,
                        tied: voice.held,
                    },
                ),
            }
        }
        for note in &mut notes {
            let held =
                before.and_then(|before| before.notes.iter().find(|old| old.pitch.same_key(note.pitch)));
            match held {
                Some(old) if note.tied => note.pitch = old.pitch,
                _ => note.tied = false,
            }
            let strict = |&place: &usize| voices.get(place).map(|voice| voice.sounding.0);
            note.respelled = note.voices.iter().filter_map(strict).any(|strict| strict != note.pitch);
        }
        Self { notes }
    }

    /// The notes on one of the two staves, from the lowest up.
    pub fn on(&self, hand: Hand) -> impl Iterator<Item = &ReducedNote> {
        self.notes.iter().filter(move |note| Hand::of(note.pitch) == hand)
    }
}

/// The reduction of a whole passage, a column each; `sounds` is what the passage sounds.
#[must_use]
pub fn reduce(passage: &Passage, sounds: &Sounds) -> Vec<ReducedColumn> {
    let mut columns: Vec<ReducedColumn> = Vec::with_capacity(passage.columns().len());
    for column in 0..passage.columns().len() {
        let sounding = sounds.voices(column);
        let harmony = Harmony::of_voices(&sounding, passage.movement_at(column));
        let next = ReducedColumn::of(&sounding, &harmony, columns.last());
        columns.push(next);
    }
    columns
}
