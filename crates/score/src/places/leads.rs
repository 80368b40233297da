//! Brass that has the principal line: what sounds with it doubles it, moves with it below, holds, repeats, rests, moves less, or
//! is marked softer; or it has the line of the highest staff, whatever goes on beneath.

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

/// How much of a line, from 0 to 1, another staff has that doubles it.
const SHARE: f64 = 0.6;
/// Steps from one mark of loudness to the next (p, mp, mf, f) by which a staff is softer that only accompanies.
const SOFTER: i8 = 2;

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
        if shares(tones, other) {
            doubling += 1;
        } else if !is_parallel(tones, other)
            && other.moves(window.0, window.1) >= own
            && !is_softer(staves, line, other, bar)
        {
            rivals += 1;
        }
    }
    // A unison of everybody is nobody's lead.
    (rivals <= RIVALS || has_top(staves, line, window)) && doubling * 10 <= sounding * UNISON
}

/// Whether it has the line of the highest staff in some octave, note for note: each has most of the other's notes. A part that
/// only joins in some of them does not.
fn has_top(staves: &Staves<'_>, line: &Line, (from, to): (usize, usize)) -> bool {
    let height = |other: &Line| {
        let tones = other.within(from, to);
        let sum: i32 = tones.iter().map(|tone| tone.pitch.semitones()).sum();
        (!tones.is_empty()).then(|| f64::from(sum) / tones.len() as f64)
    };
    let all = staves.brass.iter().chain(&staves.others).filter(|other| !other.is_drum);
    let high = all.filter_map(|other| Some((other, height(other)?)));
    let top = high.max_by(|one, other| one.1.total_cmp(&other.1)).filter(|(top, _)| top.staff != line.staff);
    top.is_some_and(|(top, _)| shares(line.within(from, to), top) && shares(top.within(from, to), line))
}

/// Whether another staff is marked so much softer that it accompanies.
fn is_softer(staves: &Staves<'_>, line: &Line, other: &Line, bar: usize) -> bool {
    let Some(end) = staves.score.bars().get(bar).and_then(|bar| bar.start.plus(bar.length)) else {
        return false;
    };
    let marked = line.loudness.at(end).zip(other.loudness.at(end));
    marked.is_some_and(|(own, other)| own - other >= SOFTER)
}

/// Whether another staff has so much of a line with it, in any octave, that it doubles it.
fn shares(tones: &[Tone], other: &Line) -> bool {
    let is_enough = |count: usize| count as f64 / tones.len().max(1) as f64 >= SHARE;
    let with = |tone: &Tone| other.at(tone.start).is_some_and(|with| same_key(with.pitch, tone.pitch));
    let mut shared = 0;
    for (at, tone) in tones.iter().enumerate() {
        // Where all that is left would not be enough, the rest need not be looked at; nor where there is enough already.
        if is_enough(shared) || !is_enough(shared + tones.len() - at) {
            break;
        }
        shared += usize::from(with(tone));
    }
    is_enough(shared)
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
