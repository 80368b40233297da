//! Brass that has the principal line: what sounds with it doubles it, holds, repeats, rests, or moves less.

use super::staves::{Line, Staves, Tone, pitches, same_key};
use super::{PlaceKind, ScorePlace, join};

/// Bars of it, at least.
pub const LEADS_BARS: usize = 2;
/// Notes struck in it, at least.
pub const LEADS_NOTES: usize = 4;
/// Different pitches in it, at least.
pub const LEADS_PITCHES: usize = 3;
/// Other staves with lines of their own that move as much, at most; more of them are a tutti.
const RIVALS: usize = 1;

/// Of ten staves that sound, so many may have the line too; of more it is a unison of everybody, and nobody's lead.
const UNISON: usize = 7;

pub(super) fn find(staves: &Staves<'_>) -> Vec<ScorePlace> {
    let mut found: Vec<ScorePlace> = Vec::new();
    for line in &staves.brass {
        let mut from = None;
        for bar in 0..=staves.bars() {
            if bar < staves.bars() && leads(staves, line, bar) {
                from.get_or_insert(bar);
                continue;
            }
            let Some(from) = from.take() else { continue };
            let tones = line.within(from, bar - 1);
            if bar - from < LEADS_BARS || tones.len() < LEADS_NOTES || pitches(tones) < LEADS_PITCHES {
                continue;
            }
            let bars = (from, bar - 1);
            let Some(first) = tones.first() else { continue };
            let staves = vec![line.staff];
            join(&mut found, ScorePlace { kind: PlaceKind::Leads, staves, bars, first: first.id });
        }
    }
    found
}

/// Whether a staff leads in a bar: it moves, and nobody else has a line of his own that moves as much.
fn leads(staves: &Staves<'_>, line: &Line, bar: usize) -> bool {
    let window = (bar.saturating_sub(1), bar + 1);
    let tones = line.within(window.0, window.1);
    if line.sounds.get(bar) != Some(&true) || pitches(tones) < LEADS_PITCHES {
        return false;
    }
    let own = line.moves(window.0, window.1);
    let all = staves.brass.iter().chain(&staves.others).filter(|other| other.staff != line.staff);
    let (mut doubling, mut rivals, mut sounding) = (0, 0, 1);
    for other in all {
        if other.sounds.get(bar) != Some(&true) || other.is_drum {
            continue;
        }
        sounding += 1;
        if share(tones, other) >= 0.6 {
            doubling += 1;
        } else if !is_parallel(tones, other) && other.moves(window.0, window.1) >= own {
            rivals += 1;
        }
    }
    // A unison of everybody is nobody's lead.
    rivals <= RIVALS && doubling * 10 <= sounding * UNISON
}

/// How much of a line another staff has with it, in any octave.
fn share(tones: &[Tone], other: &Line) -> f64 {
    let with = |tone: &&Tone| other.at(tone.start).is_some_and(|with| same_key(with.pitch, tone.pitch));
    tones.iter().filter(with).count() as f64 / tones.len().max(1) as f64
}

/// Whether another staff moves with it, note against note, below it.
fn is_parallel(tones: &[Tone], other: &Line) -> bool {
    let together = |tone: &&Tone| {
        other
            .at(tone.start)
            .is_some_and(|with| with.start == tone.start && with.pitch.semitones() <= tone.pitch.semitones())
    };
    tones.iter().filter(together).count() * 10 >= tones.len() * 8
}
