//! A plan of keys as a request: of each key the chords that a movement turns on, their members wanted in any octave. Only horns and trumpets of the
//! crooked kind are planned so.

use crate::key_table::{chords, degrees};
use crate::request::{MOST_NOTES, WantedNote};
use crate::ticks::Ticks;
use crookwise_theory::Key;

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

/// In which bars of sixteen each chord stands, by its place among those of the key: horns and trumpets are there for the first
/// and the fifth degree, and the fourth is passed by. A guide of our own, set by what scores take for minor keys (the test
/// below); common practice has no figure.
const PHRASE: [usize; 16] = [0, 0, 2, 0, 0, 0, 2, 0, 0, 0, 2, 0, 1, 0, 2, 0];

/// How much the root, third and fifth of a chord count. The third makes the key, the fifth is had from others.
pub(crate) const MEMBERS: [f64; 3] = [1.0, 1.0, 0.5];

/// Which of the chords of a key stands in a bar of its stretch, counted from 0.
pub(crate) const fn chord_of_bar(bar: u32) -> usize {
    PHRASE[bar as usize % PHRASE.len()]
}

/// The notes that a plan of keys wants: in each bar the members of its chord, each for anybody. Between two keys lie so many
/// bars of rest. Bars beyond [`MOST_NOTES`] notes are not gone through: no plan is sought for so many.
#[must_use]
pub fn wanted(stretches: &[KeyStretch], rest_between: u32) -> Vec<WantedNote> {
    let mut notes = Vec::new();
    let mut bar = 0;
    for stretch in stretches {
        let degrees = degrees(stretch.key);
        let chords = chords(stretch.key);
        for at in 0..stretch.bars {
            if notes.len() > MOST_NOTES {
                return notes;
            }
            let chord = chords[chord_of_bar(at)];
            for (member, weight) in chord.members.iter().zip(MEMBERS) {
                let Some(degree) = degrees.get(*member) else { continue };
                let (from, to) = (quarters(bar * BAR), quarters((bar + 1) * BAR));
                notes.push(WantedNote { weight, ..WantedNote::in_any_octave(from, to, degree.tonic) });
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

    /// The keys of the crooks in the best plan for horns in pairs, through these keys and back to the first. Which of two octaves
    /// a crook has is all one where any octave of a note will do.
    fn crooks(keys: &[&str], players: u32) -> BTreeSet<String> {
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
        let best = plan(&request).unwrap().plans.remove(0);
        best.stretches.iter().map(|stretch| stretch.crook.tonic.to_string()).collect()
    }

    /// Minor keys with two pairs; that of G and that of C with the key that their movements go to.
    #[test]
    fn minor_keys_take_the_crooks_of_practice() {
        let is = |keys: &[&str], players, expected: &[&str]| {
            let expected: BTreeSet<String> = expected.iter().map(|key| (*key).to_owned()).collect();
            assert_eq!(crooks(keys, players), expected, "{keys:?}");
        };
        // Mozart K. 183/i has two in B-flat and two in G (counted in an open score); Haydn 39 the same (from memory).
        is(&["G minor", "Bb major"], 4, &["Bb", "G"]);
        // Brahms 1/i has C and E-flat (counted in an open score).
        is(&["C minor", "Eb major"], 4, &["C", "Eb"]);
        // Beethoven 9/i has D and B-flat basso (counted in an open score).
        is(&["D minor"], 4, &["Bb", "D"]);
        // With one pair the crook of the keynote.
        is(&["G major", "D major"], 2, &["G"]);
    }
}
