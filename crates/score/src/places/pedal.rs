//! Pedals: a written C or G that lies or repeats while chords change.

use super::staves::{Line, Staves, Tone, rest};
use super::{PlaceKind, ScorePlace};
use crate::harmony::ScoreHarmony;
use crate::score::Quarters;
use crookwise_theory::Step;

/// Bars, at least …
pub const PEDAL_BARS: usize = 4;
/// … of which so much may be wanting at its ends, as a part of a bar: a pedal may begin behind the beat and end before one.
pub const PEDAL_EDGES: f64 = 0.5;
/// And quarter notes.
pub const PEDAL_QUARTERS: f64 = 8.0;
/// The longest rest within, in quarter notes; nor is it longer than a bar.
pub const PEDAL_REST: f64 = 2.0;
/// Different chords over it, at least: each has a note that the other has not, since one seventh chord is one chord whether
/// all of its notes sound or not.
pub const PEDAL_CHORDS: usize = 2;
/// What sounds with it besides the chord that sounds longest, in bars, at least: a note that only reaches into the next chord
/// stays while nothing changes.
pub const PEDAL_CHANGE: f64 = 1.0;

/// A pedal of one part.
struct Found {
    place: ScorePlace,
    /// The key of the keyboard within the octave, which all parts of a place have.
    key: i32,
}

pub(super) fn find(staves: &Staves<'_>, harmonies: &[ScoreHarmony]) -> Vec<ScorePlace> {
    let mut found: Vec<Found> = Vec::new();
    for line in staves.brass.iter().filter(|line| line.family.is_some()) {
        for (bars, first) in of_line(staves, line, harmonies) {
            let staves = vec![line.staff];
            let place = ScorePlace { kind: PlaceKind::Pedal, staves, bars, first: first.id };
            join(&mut found, Found { place, key: first.pitch.semitones().rem_euclid(12) });
        }
    }
    found.into_iter().map(|found| found.place).collect()
}

/// Adds a pedal, or joins it to those on the same note that share bars with it.
fn join(found: &mut Vec<Found>, mut new: Found) {
    while let Some(at) = found.iter().position(|other| {
        let (own, bars) = (new.place.bars, other.place.bars);
        other.key == new.key && bars.0 <= own.1 && own.0 <= bars.1
    }) {
        let Found { place, key } = found.remove(at);
        let (own, bars) = (new.place.bars, place.bars);
        let mut staves = place.staves;
        staves
            .extend(new.place.staves.into_iter().filter(|staff| !staves.contains(staff)).collect::<Vec<_>>());
        let first = if bars.0 <= own.0 { place.first } else { new.place.first };
        let bars = (bars.0.min(own.0), bars.1.max(own.1));
        new = Found { place: ScorePlace { staves, bars, first, ..place }, key };
    }
    found.push(new);
}

fn of_line(staves: &Staves<'_>, line: &Line, harmonies: &[ScoreHarmony]) -> Vec<((usize, usize), Tone)> {
    let mut found = Vec::new();
    let mut run: Vec<Tone> = Vec::new();
    for tone in line.notes.iter().map(Some).chain([None]) {
        let longest_rest = tone.map_or(0.0, |tone| bar_length(staves, tone).min(PEDAL_REST));
        let goes_on = tone.zip(run.last()).is_some_and(|(tone, last)| {
            tone.written.step == last.written.step
                && tone.written.alter == last.written.alter
                && rest(last, tone) <= longest_rest
        });
        if !goes_on {
            if let (Some(first), Some(last)) = (run.first(), run.last())
                && is_pedal(staves, first, last, harmonies)
            {
                found.push(((first.bar, last.last_bar), *first));
            }
            run.clear();
        }
        let Some(tone) = tone else { break };
        if tone.written.alter == 0 && matches!(tone.written.step, Step::C | Step::G) {
            run.push(*tone);
        }
    }
    found
}

/// How long the bar of a note is, in quarter notes.
fn bar_length(staves: &Staves<'_>, tone: &Tone) -> f64 {
    staves.length(tone.bar, tone.bar + 1)
}

fn is_pedal(staves: &Staves<'_>, first: &Tone, last: &Tone, harmonies: &[ScoreHarmony]) -> bool {
    let bar = bar_length(staves, first);
    let length = last.end.minus(first.start).map_or(0.0, Quarters::decimal);
    let least = (PEDAL_BARS as f64 - PEDAL_EDGES) * bar;
    if length < least.max(PEDAL_QUARTERS) {
        return false;
    }
    let chords = chords(first, last, harmonies);
    let longest = chords.iter().map(|(_, time)| *time).fold(0.0, f64::max);
    let all: f64 = chords.iter().map(|(_, time)| time).sum();
    chords.len() >= PEDAL_CHORDS && all - longest >= PEDAL_CHANGE * bar
}

/// The different chords while it lies, as keys of the keyboard within the octave, and how long each sounds in quarter notes.
/// Whatever three notes or more make is one, whether it has a name or not.
fn chords(first: &Tone, last: &Tone, harmonies: &[ScoreHarmony]) -> Vec<(u16, f64)> {
    let mut chords: Vec<(u16, f64)> = Vec::new();
    for harmony in harmonies.iter().filter(|one| one.to > first.start && one.from < last.end) {
        let members = &harmony.harmony.members;
        let keys = members.iter().fold(0_u16, |keys, member| {
            keys | 1 << (member.note.step.semitones() + member.note.alter).rem_euclid(12)
        });
        let time =
            harmony.to.min(last.end).minus(harmony.from.max(first.start)).map_or(0.0, Quarters::decimal);
        if keys.count_ones() < 3 {
            continue;
        }
        match chords.iter_mut().find(|(other, _)| other & keys == keys || other & keys == *other) {
            Some((other, sum)) => {
                *other |= keys;
                *sum += time;
            }
            None => chords.push((keys, time)),
        }
    }
    chords
}
