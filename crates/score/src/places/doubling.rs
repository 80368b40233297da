//! Horns and trumpets in octaves.

use super::staves::{Line, Staves, Tone, pitches, rest, same_key};
use super::{PlaceKind, ScorePlace, join};
use crookwise_theory::CrookFamily;

/// Notes struck together running, at least.
pub const DOUBLING_NOTES: usize = 6;
/// Different pitches among them, at least.
pub const DOUBLING_PITCHES: usize = 2;

pub(super) fn find(staves: &Staves<'_>) -> Vec<ScorePlace> {
    let mut found: Vec<ScorePlace> = Vec::new();
    let of = |family: CrookFamily| staves.brass.iter().filter(move |line| line.family == Some(family));
    for horn in of(CrookFamily::Horn) {
        for trumpet in of(CrookFamily::Trumpet) {
            for (bars, first) in of_pair(staves, horn, trumpet) {
                let staves = vec![horn.staff, trumpet.staff];
                join(
                    &mut found,
                    ScorePlace { kind: PlaceKind::OctaveDoubling, staves, bars, first: first.id },
                );
            }
        }
    }
    found
}

fn of_pair(staves: &Staves<'_>, horn: &Line, trumpet: &Line) -> Vec<((usize, usize), Tone)> {
    let mut found = Vec::new();
    let mut run: Vec<Tone> = Vec::new();
    let mut close = |run: &mut Vec<Tone>| {
        if let (Some(first), Some(last)) = (run.first(), run.last())
            && run.len() >= DOUBLING_NOTES
            && pitches(run) >= DOUBLING_PITCHES
        {
            found.push(((first.bar, last.last_bar), *first));
        }
        run.clear();
    };
    for tone in &trumpet.notes {
        let bar = staves.score.bars().get(tone.bar).map_or(4.0, |bar| bar.length.decimal());
        if run.last().is_some_and(|last| rest(last, tone) > bar) {
            close(&mut run);
        }
        let with = horn.at(tone.start).filter(|with| with.start == tone.start);
        let octaves = with.is_some_and(|with| {
            same_key(with.pitch, tone.pitch) && with.pitch.semitones() != tone.pitch.semitones()
        });
        if octaves { run.push(*tone) } else { close(&mut run) }
    }
    close(&mut run);
    found
}
