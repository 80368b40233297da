//! One line of brass that nobody doubles.

use super::staves::{Line, Staves, Tone, pitches, same_key};
use super::{PlaceKind, ScorePlace};

/// Bars of it, at least.
pub const SOLO_BARS: usize = 2;
/// Notes of the line, at least; one that is repeated counts once.
pub const SOLO_NOTES: usize = 4;
/// Different pitches in it, at least.
pub const SOLO_PITCHES: usize = 3;

/// How often another part of the brass may go to another pitch in a bar and those beside it: held notes may change under a solo,
/// with the harmony.
pub const SOLO_OTHERS: usize = 1;

pub(super) fn find(staves: &Staves<'_>) -> Vec<ScorePlace> {
    let mut found: Vec<ScorePlace> = Vec::new();
    for line in &staves.brass {
        let alone = |bar: usize| {
            let beside = (bar.saturating_sub(1), bar + 1);
            line.sounds.get(bar) == Some(&true)
                && line.moves(beside.0, beside.1) > 0
                && staves.brass.iter().filter(|other| other.staff != line.staff).all(|other| {
                    other.moves(beside.0, beside.1) <= SOLO_OTHERS || goes_with(line.within(bar, bar), other)
                })
        };
        let mut from = None;
        for bar in 0..=staves.bars() {
            if bar < staves.bars() && alone(bar) {
                from.get_or_insert(bar);
                continue;
            }
            let Some(from) = from.take() else { continue };
            let tones = line.within(from, bar - 1);
            let long = bar - from >= SOLO_BARS
                && line.moves(from, bar - 1) + 1 >= SOLO_NOTES
                && pitches(tones) >= SOLO_PITCHES;
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

/// Whether a staff outside the brass strikes more than half of the notes too while they sound, in any octave: also in
/// syncopation, in a tremolo or in figures.
fn is_doubled(tones: &[Tone], others: &[Line]) -> bool {
    others.iter().any(|other| {
        let with = |tone: &&Tone| other.strikes(tone);
        tones.iter().filter(with).count() * 2 > tones.len()
    })
}
