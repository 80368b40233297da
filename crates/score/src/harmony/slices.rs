//! The music cut where anything begins or ends.

use crate::score::{Quarters, Score, Sounded};
use crookwise_theory::order::put_in_order;

/// A stretch in which nothing begins or ends.
#[derive(Clone, Debug)]
pub(super) struct Slice {
    pub from: Quarters,
    pub to: Quarters,
    /// How long, in beats.
    pub length: f64,
    /// What sounds, as places in the list of notes.
    pub notes: Vec<usize>,
    /// How much each of the twelve keys weighs; all together as much as it is long.
    pub weights: [f64; 12],
    /// How many keys sound.
    pub classes: usize,
    /// The lowest sound, drums left out, in semitones.
    pub bass: Option<i32>,
    /// How strong its beginning is in the bar.
    pub strength: Strength,
}

/// Where in a bar something begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Strength {
    /// Off the beat.
    Off,
    /// On a half of a beat.
    Half,
    /// On a beat.
    Beat,
    /// Where a bar begins.
    Bar,
}

/// A bass counts as so many voices more.
const BASS: f64 = 1.0;

/// Cuts a score. Grace notes take no time; drums weigh nothing.
pub(super) fn cut(score: &Score, sounded: &[Sounded<'_>]) -> Vec<Slice> {
    let timed: Vec<(usize, Quarters, Quarters)> = sounded
        .iter()
        .enumerate()
        .filter(|(_, note)| !note.note.grace)
        .map(|(at, note)| (at, note.note.start.time, note.note.end.time))
        .collect();
    let mut times: Vec<Quarters> = timed.iter().flat_map(|(_, from, to)| [*from, *to]).collect();
    times.extend(score.bars().iter().map(|bar| bar.start));
    put_in_order(&mut times, |time| *time);
    times.dedup();
    let mut slices = Vec::new();
    let mut sounding: Vec<(usize, Quarters)> = Vec::new();
    let mut next = timed.iter().peekable();
    for pair in times.windows(2) {
        let &[from, to] = pair else { continue };
        sounding.retain(|(_, end)| *end > from);
        while let Some((at, start, end)) = next.peek() {
            if *start > from {
                break;
            }
            sounding.push((*at, *end));
            next.next();
        }
        let notes: Vec<usize> = sounding.iter().map(|(at, _)| *at).collect();
        slices.push(slice(score, (from, to), notes, sounded));
    }
    slices
}

fn slice(
    score: &Score,
    (from, to): (Quarters, Quarters),
    notes: Vec<usize>,
    sounded: &[Sounded<'_>],
) -> Slice {
    let beat = beat(score, score.bar_at(from));
    let length = to.minus(from).map_or(0.0, Quarters::decimal) / beat;
    let pitches = notes.iter().filter_map(|at| sounded.get(*at)).filter(|note| !note.is_drum);
    let mut counts = [0.0_f64; 12];
    let mut bass: Option<i32> = None;
    for note in pitches {
        let semitones = note.pitch.semitones();
        if let Some(count) =
            usize::try_from(semitones.rem_euclid(12)).ok().and_then(|class| counts.get_mut(class))
        {
            *count += 1.0;
        }
        let low = semitones - if note.doubled_below { 12 } else { 0 };
        bass = Some(bass.map_or(low, |bass| bass.min(low)));
    }
    let classes = counts.iter().filter(|count| **count > 0.0).count();
    // Many voices on one note say little more than a few.
    let mut weights = counts.map(f64::sqrt);
    if let Some(count) =
        bass.and_then(|bass| weights.get_mut(usize::try_from(bass.rem_euclid(12)).unwrap_or(0)))
    {
        *count += BASS;
    }
    let sum: f64 = weights.iter().sum();
    if sum > 0.0 {
        weights = weights.map(|weight| weight * length / sum);
    }
    Slice { from, to, length, notes, weights, classes, bass, strength: strength(score, from) }
}

/// The beat of a bar in quarter notes: the lower number of its time signature; of three eighths in a group it is the group.
fn beat(score: &Score, bar: usize) -> f64 {
    let time = score.bars().get(..=bar).and_then(|before| before.iter().rev().find_map(|bar| bar.time));
    time.map_or(1.0, |time| {
        let value = 4.0 / f64::from(time.value.max(1));
        if time.value >= 8 && time.beats % 3 == 0 && time.beats > 3 { value * 3.0 } else { value }
    })
}

fn strength(score: &Score, at: Quarters) -> Strength {
    let number = score.bar_at(at);
    let Some(bar) = score.bars().get(number) else { return Strength::Off };
    if bar.start == at {
        return Strength::Bar;
    }
    let within = at.minus(bar.start).map_or(0.0, Quarters::decimal) / beat(score, number);
    let on = |parts: f64| ((within * parts).round() - within * parts).abs() < 1e-6;
    match (on(1.0), on(2.0)) {
        (true, _) => Strength::Beat,
        (_, true) => Strength::Half,
        _ => Strength::Off,
    }
}
