//! From what a page means to tones: a note, a column, a passage, and two of them in turn.

use crate::tone::{Colour, MOST_TONES, Tone};
use crookwise_theory::{Instrument, Reading};

/// By whose right a note sounds as high as it does.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Manner {
    /// As the tube gives it: the natural partial, not corrected.
    Tube,
    /// As the tuning wants it: corrected by hand and lip.
    #[default]
    Tuning,
}

/// Frequency in Hz of a note that was read. What no partial gives, and what is not natural brass, sounds as the
/// tuning wants it in either manner.
#[must_use]
pub fn hz(reading: &Reading, manner: Manner) -> f64 {
    let natural = reading.making.and_then(|making| making.natural_hz);
    match (manner, natural) {
        (Manner::Tube, Some(natural)) => natural,
        _ => reading.target_hz,
    }
}

/// How tones are played.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Touch {
    /// Loudness of each, 0 to 1.
    pub level: f64,
    /// Their character.
    pub colour: Colour,
}

impl Default for Touch {
    fn default() -> Self {
        Self { level: 0.7, colour: Colour::Brass }
    }
}

impl Touch {
    /// As usual, in the character of an instrument.
    #[must_use]
    pub fn of(instrument: &Instrument) -> Self {
        Self { colour: Colour::of(instrument), ..Self::default() }
    }
}

/// One note from the beginning on, so many seconds long.
#[must_use]
pub const fn note(hz: f64, seconds: f64, touch: Touch) -> Tone {
    Tone { hz, start: 0.0, length: seconds, level: touch.level, swell: 1.0, colour: touch.colour }
}

/// Several notes at once, each in Hz, so many seconds long.
#[must_use]
pub fn column(all_hz: &[f64], seconds: f64, touch: Touch) -> Vec<Tone> {
    all_hz.iter().map(|&hz| note(hz, seconds, touch)).collect()
}

/// What one player does in a column.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Act {
    /// Begins a note of so many Hz, played so.
    Note(f64, Touch),
    /// Holds the note before, without a new start; silent if there is none.
    Held,
    /// Is silent.
    Rest,
}

/// One moment of a passage.
#[derive(Clone, Debug, PartialEq)]
pub struct SoundColumn {
    /// How long it is, in seconds.
    pub seconds: f64,
    /// What each player does, always in the same order; a player not listed rests.
    pub acts: Vec<Act>,
}

/// Columns one after the other. A held note is one tone through all its columns.
#[must_use]
pub fn passage(columns: &[SoundColumn]) -> Vec<Tone> {
    let players = columns.iter().map(|column| column.acts.len()).max().unwrap_or(0);
    let mut tones: Vec<Tone> = Vec::new();
    // The place in `tones` of what each player has begun and may still hold.
    let mut open: Vec<Option<usize>> = vec![None; players];
    let mut start = 0.0;
    for column in columns {
        for (player, open) in open.iter_mut().enumerate() {
            match column.acts.get(player).unwrap_or(&Act::Rest) {
                Act::Note(hz, touch) => {
                    *open = Some(tones.len());
                    tones.push(Tone { start, ..note(*hz, column.seconds, *touch) });
                }
                Act::Held => {
                    if let Some(tone) = open.and_then(|place| tones.get_mut(place)) {
                        tone.length = start + column.seconds - tone.start;
                    }
                }
                Act::Rest => *open = None,
            }
        }
        start += column.seconds;
    }
    tones
}

/// Two notes, columns or passages in turn, the first one first, so many times each (at least once), with a gap
/// of so many seconds after each: as the tube gives it, as the tuning wants it. Turns that would make more than
/// [`MOST_TONES`] tones are left out.
#[must_use]
pub fn alternate(first: &[Tone], second: &[Tone], times: usize, gap: f64) -> Vec<Tone> {
    let length = |tones: &[Tone]| tones.iter().map(Tone::end).fold(0.0, f64::max);
    let most = MOST_TONES / (first.len() + second.len()).max(1);
    let mut start = 0.0;
    let mut all = Vec::new();
    for _ in 0..times.min(most).max(1) {
        for tones in [first, second] {
            all.extend(tones.iter().map(|tone| Tone { start: tone.start + start, ..*tone }));
            start += length(tones) + gap;
        }
    }
    all
}
