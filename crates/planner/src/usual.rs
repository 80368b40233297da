//! What is usually written for the horn: what a plan of keys, which names no notes, has to go by.

use crate::key_table::Given;
use crate::making::{Making, Weights};
use crookwise_theory::{Crook, Pitch, Sounding, Tonic, Written};

/// How often written notes stand among the attacks of all horns in Beethoven's nine symphonies, in hundredths, by MIDI number.
/// Counted in an open corpus of scores (32,111 attacks); what is rarer is left out.
const SHARES: [(i32, f64); 19] = [
    (48, 0.4),
    (54, 0.23),
    (55, 7.2),
    (60, 10.3),
    (63, 0.1),
    (64, 6.1),
    (67, 18.2),
    (69, 0.12),
    (70, 1.4),
    (71, 0.17),
    (72, 17.9),
    (74, 13.7),
    (75, 1.6),
    (76, 10.5),
    (77, 4.9),
    (78, 0.07),
    (79, 6.6),
    (81, 0.05),
    (84, 0.05),
];

/// The share of all G's, which stand most often.
const MOST: f64 = 32.0;

/// The octaves in which horn and trumpet sound.
const OCTAVES: core::ops::RangeInclusive<i32> = 1..=6;

/// A note, which may stand in any octave, where a crook has it most usually; its worth is that of its making, less the more
/// seldom the written note stands anywhere. `None` where the crook does not have it.
pub(crate) fn most_usual(crook: &Crook, note: Tonic, weights: &Weights) -> Option<Given> {
    let of = |octave| {
        let sounding = Sounding(Pitch::new(note.step, note.alter, octave));
        let making = Making::of(crook, sounding, weights);
        let worth = making.worth * all_octaves(making.written) / MOST;
        (share(making.written), Given { sounding, making: Making { worth, ..making } })
    };
    let all = OCTAVES.map(of).filter(|(_, given)| given.making.worth > 0.0);
    all.max_by(|(one, _), (other, _)| one.total_cmp(other)).map(|(_, given)| given)
}

fn share(written: Written) -> f64 {
    let midi = written.0.midi();
    SHARES.iter().find(|(one, _)| *one == midi).map_or(0.0, |(_, share)| *share)
}

fn all_octaves(written: Written) -> f64 {
    let class = written.0.midi().rem_euclid(12);
    SHARES.iter().filter(|(midi, _)| midi.rem_euclid(12) == class).map(|(_, share)| share).sum()
}
