//! A plan as it is heard: of each key its first chord, its fifth and the first again; of notes their course.

use super::{ShownPlan, setting};
use crookwise_planner::{Planned, PlayedNote, WantedNote};
use crookwise_share::crooks::{CrooksLink, CrooksWanted};
use crookwise_sound::{Tone, Touch, note};
use crookwise_theory::Tuning;

/// The bars of a key that are heard, counted from 0, and the seconds of each.
const BARS: [u32; 3] = [0, 2, 0];
const BAR: f64 = 1.1;
/// Seconds of a quarter note, and of all that is heard of notes.
const QUARTER: f64 = 0.6;
const LONGEST: f64 = 60.0;

/// The tones of a plan; none where nothing of it sounds.
#[must_use]
pub fn tones(asked: &CrooksLink, plans: &Planned, shown: &ShownPlan, tuning: &Tuning) -> Vec<Tone> {
    let both = plans.request.notes.iter().zip(&shown.plan.notes);
    let played = both.filter_map(|(wanted, played)| Some((wanted, played.as_ref()?)));
    let tone = |played: &PlayedNote, start: f64, seconds: f64| Tone {
        start,
        ..note(tuning.frequency(played.sounding.0), seconds, Touch::default())
    };
    match &asked.wanted {
        CrooksWanted::Keys(_) => {
            let bars = heard_bars(asked);
            let of = |(wanted, played): (&WantedNote, &PlayedNote)| {
                let bar = (wanted.from.quarters() / setting::bars_of_rest(1).quarters()) as u32;
                let at = bars.iter().enumerate().filter(move |(_, heard)| **heard == bar);
                let played = *played;
                at.map(move |(at, _)| tone(&played, at as f64 * BAR, BAR)).collect::<Vec<_>>()
            };
            played.flat_map(of).collect()
        }
        CrooksWanted::Notes(_) => {
            let first = plans.request.notes.iter().map(|one| one.from).min().unwrap_or_default();
            let of = |(wanted, played): (&WantedNote, &PlayedNote)| {
                let start = (wanted.from - first).quarters() * QUARTER;
                let seconds = (wanted.to - wanted.from).quarters() * QUARTER;
                (start < LONGEST).then(|| tone(played, start, seconds.min(LONGEST)))
            };
            played.filter_map(of).collect()
        }
    }
}

/// The bars that are heard one after the other, counted from 0.
fn heard_bars(asked: &CrooksLink) -> Vec<u32> {
    let mut first = 0;
    let mut all = Vec::new();
    for stretch in setting::keys(asked) {
        all.extend(BARS.iter().filter(|bar| **bar < stretch.bars).map(|bar| first + bar));
        first += stretch.bars;
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::crooks::Crooks;
    use crate::state::crooks::setting::first;
    use leptos::prelude::Owner;

    #[test]
    fn every_key_is_heard_with_what_is_held_of_it() {
        let owner = Owner::new();
        owner.set();
        let crooks = Crooks::new(first());
        let (plans, shown) = (crooks.plans.get().unwrap(), crooks.shown.get().unwrap());
        let all = tones(&first(), &plans, &shown, &Tuning::default());
        // Three chords of five keys: at least two notes of each.
        let starts: std::collections::BTreeSet<u32> =
            all.iter().map(|tone| (tone.start * 10.0).round() as u32).collect();
        assert_eq!(starts.len(), 15);
        assert!(all.len() >= 30, "{}", all.len());
    }
}
