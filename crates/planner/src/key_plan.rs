//! A plan of keys as a request: of each key the chords that a movement turns on, their members wanted in any octave. Only horns and trumpets of the
//! crooked kind are planned so.

use crate::key_table::{chords, degrees};
use crate::request::WantedNote;
use crate::ticks::Ticks;
use crookwise_theory::{Key, Pitch};

/// A stretch of a movement in one key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct KeyStretch {
    /// The key.
    pub key: Key,
    /// How many bars.
    pub bars: u32,
}

/// Quarter notes of a bar.
const BAR: i64 = 4;

/// In which bars of eight each chord stands, by its place among those of the key: the first, fourth and fifth degree as a
/// phrase has them. A guide of our own; common practice has no figure.
const PHRASE: [usize; 8] = [0, 0, 2, 0, 1, 0, 2, 0];

/// How much the root, third and fifth of a chord count. The third makes the key, the fifth is had from others.
const MEMBERS: [f64; 3] = [1.0, 1.0, 0.5];

/// The notes that a plan of keys wants: in each bar the members of its chord, each for anybody. The last quarter of a stretch's
/// last bar is a rest, and between two keys lie so many bars of rest.
#[must_use]
pub fn wanted(stretches: &[KeyStretch], rest_between: u32) -> Vec<WantedNote> {
    let mut notes = Vec::new();
    let mut bar = 0;
    for stretch in stretches {
        let degrees = degrees(stretch.key);
        let chords = chords(stretch.key);
        for at in 0..stretch.bars as usize {
            let chord = chords[PHRASE[at % PHRASE.len()]];
            for (member, weight) in chord.members.iter().zip(MEMBERS) {
                let Some(degree) = degrees.get(*member) else { continue };
                let pitch = Pitch::new(degree.tonic.step, degree.tonic.alter, 4);
                let (from, to) = (quarters(bar * BAR), quarters((bar + 1) * BAR));
                notes.push(WantedNote { weight, any_octave: true, ..WantedNote::free(from, to, pitch) });
            }
            bar += 1;
        }
        bar += i64::from(rest_between);
    }
    notes
}

fn quarters(many: i64) -> Ticks {
    Ticks::of_fraction(many, 1).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{CrookPlayer, NamedCrook, Request, Weights, plan};
    use crookwise_theory::CrookFamily;
    use std::collections::BTreeSet;

    /// The crooks of the best plans for horns in pairs, through these keys and back to the first.
    fn crooks(keys: &[&str], players: u32) -> Vec<BTreeSet<&'static str>> {
        let keys = keys.iter().chain(&keys[..1]);
        let stretches: Vec<_> = keys.map(|key| KeyStretch { key: key.parse().unwrap(), bars: 24 }).collect();
        let horn = |player: u32| CrookPlayer {
            family: CrookFamily::Horn,
            crooks: NamedCrook::all(CrookFamily::Horn),
            pair: Some(player / 2),
        };
        let request = Request {
            notes: wanted(&stretches, 0),
            players: (0..players).map(horn).collect(),
            change_time: quarters(40),
            together: true,
            weights: Weights::default(),
        };
        let plans = plan(&request).unwrap().plans;
        let of = |plan: &crate::Plan| plan.stretches.iter().map(|stretch| stretch.crook.name).collect();
        plans.iter().map(of).collect()
    }

    fn best(keys: &[&str]) -> Vec<&'static str> {
        crooks(keys, 4).remove(0).into_iter().collect()
    }

    /// Crooks of minor keys with two pairs, each key with the one that its movements go to.
    #[test]
    fn minor_keys_take_the_crooks_of_practice() {
        // Mozart K. 183/i has two in B-flat and two in G (counted in an open score); Haydn 39 the same (from memory).
        assert_eq!(best(&["G minor", "Bb major"]), ["B-flat alto", "G"]);
        // Brahms 1/i has C and E-flat (counted in an open score).
        assert_eq!(best(&["C minor", "Eb major"]), ["C alto", "E-flat"]);
        // Beethoven 9/i has D and B-flat basso (counted in an open score).
        let d_minor = best(&["D minor"]);
        assert!(
            d_minor.contains(&"D") && d_minor.iter().any(|name| name.starts_with("B-flat")),
            "{d_minor:?}"
        );
        // With one pair the crook of the keynote.
        assert_eq!(crooks(&["G major", "D major"], 2)[0], BTreeSet::from(["G"]));
    }
}
