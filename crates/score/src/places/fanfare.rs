//! Fanfares: one part's own line over the notes of its triad alone, while that triad sounds.

use super::staves::{Staves, Tone, rest};
use super::{PlaceKind, ScorePlace, join};
use crate::chord::HarmonyKind;
use crate::harmony::ScoreHarmony;
use crookwise_theory::{Pitch, Step};

/// Notes struck, at least, and no others among them.
pub const FANFARE_NOTES: usize = 4;
/// Changes of pitch, at least.
pub const FANFARE_LEAPS: usize = 3;
/// The longest rest within, in quarter notes.
pub const FANFARE_REST: f64 = 2.0;
/// The bars within which the first four notes have all three letters.
pub const FANFARE_BARS: usize = 4;

pub(super) fn find(staves: &Staves<'_>, harmonies: &[ScoreHarmony]) -> Vec<ScorePlace> {
    let mut found: Vec<ScorePlace> = Vec::new();
    for line in staves.brass.iter().filter(|line| line.family.is_some()) {
        let mut run: Vec<Tone> = Vec::new();
        let mut close = |run: &mut Vec<Tone>| {
            if let Some(bars) = place_of(run)
                && let Some(first) = run.first()
            {
                let staves = vec![line.staff];
                join(&mut found, ScorePlace { kind: PlaceKind::Fanfare, staves, bars, first: first.id });
            }
            run.clear();
        };
        for tone in &line.notes {
            let triad = tone.written.alter == 0 && matches!(tone.written.step, Step::C | Step::E | Step::G);
            let goes_on = run.last().is_none_or(|last| rest(last, tone) <= FANFARE_REST);
            if !goes_on {
                close(&mut run);
            }
            if triad && is_tonic_of_crook(tone, harmonies) {
                run.push(*tone);
            } else {
                close(&mut run);
            }
        }
        close(&mut run);
    }
    found
}

fn place_of(run: &[Tone]) -> Option<(usize, usize)> {
    let letters = |tones: &[Tone]| {
        let has = |step: Step| tones.iter().any(|tone| tone.written.step == step);
        [Step::C, Step::E, Step::G].iter().filter(|step| has(**step)).count()
    };
    let changes = run.windows(2).filter(|two| two[0].written != two[1].written).count();
    let (first, last) = (run.first()?, run.last()?);
    // The line begins to be one within so many bars.
    let soon: Vec<Tone> =
        run.iter().copied().take_while(|tone| tone.bar < first.bar + FANFARE_BARS).collect();
    let holds =
        run.len() >= FANFARE_NOTES && changes >= FANFARE_LEAPS && letters(run) == 3 && letters(&soon) == 3;
    holds.then_some((first.bar, last.last_bar))
}

/// Whether what sounds is the triad of the crook's own C, or its root, fifth or third alone.
fn is_tonic_of_crook(tone: &Tone, harmonies: &[ScoreHarmony]) -> bool {
    let after = harmonies.partition_point(|one| one.from <= tone.start);
    let Some(harmony) = after.checked_sub(1).and_then(|at| harmonies.get(at)) else { return true };
    // Where written C sounds, from where this note does.
    let up = tone.written.semitones() - Pitch::natural(Step::C, 4).semitones();
    let crook = (tone.pitch.semitones() - up).rem_euclid(12);
    match &harmony.harmony.kind {
        HarmonyKind::Chord(chord) | HarmonyKind::Pedal { chord, .. } => chord.root.pitch_class() == crook,
        HarmonyKind::OpenFifth { root, .. } => root.pitch_class() == crook,
        _ => true,
    }
}
