//! One line of brass that nobody doubles.

use super::staves::{Line, Staves, Tone, pitches, same_key};
use super::{PlaceKind, ScorePlace};

/// Bars of it, at least.
pub const SOLO_BARS: usize = 2;
/// Notes struck in it, at least.
pub const SOLO_NOTES: usize = 4;
/// Different pitches in it, at least.
pub const SOLO_PITCHES: usize = 3;

pub(super) fn find(staves: &Staves<'_>) -> Vec<ScorePlace> {
    let mut found: Vec<ScorePlace> = Vec::new();
    for line in &staves.brass {
        let alone = |bar: usize| {
            line.sounds.get(bar) == Some(&true)
                && staves
                    .brass
                    .iter()
                    .filter(|other| other.staff != line.staff)
                    .all(|other| other.moves(bar, bar) == 0 || goes_with(line.within(bar, bar), other))
        };
        let mut from = None;
        for bar in 0..=staves.bars() {
            if bar < staves.bars() && alone(bar) {
                from.get_or_insert(bar);
                continue;
            }
            let Some(from) = from.take() else { continue };
            let tones = line.within(from, bar - 1);
            let long = bar - from >= SOLO_BARS && tones.len() >= SOLO_NOTES && pitches(tones) >= SOLO_PITCHES;
            if !long || is_doubled(tones, &staves.others) {
                continue;
            }
            let bars = (from, bar - 1);
            match found.iter_mut().find(|place| place.bars == bars) {
                Some(place) => place.staves.push(line.staff),
                None => {
                    let Some(first) = tones.first() else { continue };
                    found.push(ScorePlace {
                        kind: PlaceKind::Solo,
                        staves: vec![line.staff],
                        bars,
                        first: first.id,
                    });
                }
            }
        }
    }
    found
}

/// Whether another staff plays the same line in unison or octaves.
fn goes_with(tones: &[Tone], other: &Line) -> bool {
    !tones.is_empty()
        && tones.iter().all(|tone| other.at(tone.start).is_some_and(|with| same_key(with.pitch, tone.pitch)))
}

/// Whether a staff outside the brass has more than half of the notes, in any octave.
fn is_doubled(tones: &[Tone], others: &[Line]) -> bool {
    others.iter().any(|other| {
        let with = |tone: &&Tone| {
            other
                .at(tone.start)
                .is_some_and(|with| with.start == tone.start && same_key(with.pitch, tone.pitch))
        };
        tones.iter().filter(with).count() * 2 > tones.len()
    })
}
