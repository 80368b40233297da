//! Pedals: a written C or G that lies or repeats while chords change.

use super::staves::{Line, Staves, Tone, rest};
use super::{PlaceKind, ScorePlace, join};
use crate::chord::HarmonyKind;
use crate::harmony::ScoreHarmony;
use crate::score::Quarters;
use crookwise_theory::Step;

/// Bars, at least.
pub const PEDAL_BARS: usize = 4;
/// And quarter notes.
pub const PEDAL_QUARTERS: f64 = 8.0;
/// The longest rest within, in quarter notes.
pub const PEDAL_REST: f64 = 2.0;
/// Different chords over it, at least.
pub const PEDAL_CHORDS: usize = 2;
/// The shortest chord that counts, in quarter notes.
pub const PEDAL_CHORD: f64 = 1.0;

pub(super) fn find(staves: &Staves<'_>, harmonies: &[ScoreHarmony]) -> Vec<ScorePlace> {
    let mut found: Vec<ScorePlace> = Vec::new();
    for line in staves.brass.iter().filter(|line| line.family.is_some()) {
        for (bars, first) in of_line(line, harmonies) {
            let staves = vec![line.staff];
            join(&mut found, ScorePlace { kind: PlaceKind::Pedal, staves, bars, first: first.id });
        }
    }
    found
}

fn of_line(line: &Line, harmonies: &[ScoreHarmony]) -> Vec<((usize, usize), Tone)> {
    let mut found = Vec::new();
    let mut run: Vec<Tone> = Vec::new();
    for tone in line.notes.iter().map(Some).chain([None]) {
        let goes_on = tone.zip(run.last()).is_some_and(|(tone, last)| {
            tone.written.step == last.written.step
                && tone.written.alter == last.written.alter
                && rest(last, tone) <= PEDAL_REST
        });
        if !goes_on {
            if let (Some(first), Some(last)) = (run.first(), run.last()) {
                let bars = (first.bar, last.last_bar);
                let length = last.end.minus(first.start).map_or(0.0, Quarters::decimal);
                let long = bars.1 + 1 - bars.0 >= PEDAL_BARS && length >= PEDAL_QUARTERS;
                if long && chords(first, last, harmonies) >= PEDAL_CHORDS {
                    found.push((bars, *first));
                }
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

/// Different chords while it lies.
fn chords(first: &Tone, last: &Tone, harmonies: &[ScoreHarmony]) -> usize {
    let mut roots = Vec::new();
    for harmony in harmonies.iter().filter(|one| one.to > first.start && one.from < last.end) {
        if let HarmonyKind::Chord(chord) | HarmonyKind::Pedal { chord, .. } = &harmony.harmony.kind
            && !roots.contains(&chord.root)
            && harmony
                .to
                .min(last.end)
                .minus(harmony.from.max(first.start))
                .is_some_and(|time| time.decimal() >= PEDAL_CHORD)
        {
            roots.push(chord.root);
        }
    }
    roots.len()
}
