//! What a crook gives of a key, and what two give together: for each degree how it is made, where it is made best.

use crate::making::{Making, Weights};
use crookwise_theory::{Crook, Interval, Key, Mode, Pitch, Sounding, Tonic};

/// A degree of a key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Degree {
    /// From 1 to 7.
    pub number: u8,
    /// Whether it is raised: the leading note of minor.
    pub is_raised: bool,
    /// The note.
    pub tonic: Tonic,
}

/// What is had of a degree, in the octave where it is worth most; of several the one nearest to written C5.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Given {
    /// As it sounds.
    pub sounding: Sounding,
    /// How it is written and made.
    pub making: Making,
}

/// A chord of a key: a triad on one of its degrees.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct KeyChord {
    /// The degree it stands on, 1 to 7.
    pub root: u8,
    /// The places of its members in the list of degrees.
    pub members: [usize; 3],
}

/// Steps and semitones above the keynote.
const MAJOR: [(i32, i32); 7] = [(0, 0), (1, 2), (2, 4), (3, 5), (4, 7), (5, 9), (6, 11)];
const MINOR: [(i32, i32); 7] = [(0, 0), (1, 2), (2, 3), (3, 5), (4, 7), (5, 8), (6, 10)];
const LEADING_NOTE: (i32, i32) = (6, 11);

/// The octaves in which horn and trumpet sound.
const OCTAVES: core::ops::RangeInclusive<i32> = 1..=6;
/// MIDI number of written C5, in the middle of what is written for them.
const MIDDLE: i32 = 72;

/// The degrees of a key, from the first to the seventh; in minor the leading note stands after the natural seventh.
#[must_use]
pub fn degrees(key: Key) -> Vec<Degree> {
    let first = Pitch::new(key.tonic.step, key.tonic.alter, 4);
    let of = |(steps, semitones): &(i32, i32), is_raised| Degree {
        // Seven at most.
        number: *steps as u8 + 1,
        is_raised,
        tonic: (first + Interval::new(*steps, *semitones)).tonic(),
    };
    match key.mode {
        Mode::Major => MAJOR.iter().map(|step| of(step, false)).collect(),
        Mode::Minor => MINOR.iter().map(|step| of(step, false)).chain([of(&LEADING_NOTE, true)]).collect(),
    }
}

/// The triads on the first, fourth and fifth degrees; that on the fifth of a minor key has the leading note. Common practice.
#[must_use]
pub fn chords(key: Key) -> [KeyChord; 3] {
    let third_of_fifth = match key.mode {
        Mode::Major => 6,
        Mode::Minor => 7,
    };
    [
        KeyChord { root: 1, members: [0, 2, 4] },
        KeyChord { root: 4, members: [3, 5, 0] },
        KeyChord { root: 5, members: [4, third_of_fifth, 1] },
    ]
}

/// What a crook gives of each of these notes; `None` for what it does not give in any octave.
#[must_use]
pub fn given(crook: &Crook, notes: &[Tonic], weights: &Weights) -> Vec<Option<Given>> {
    notes.iter().map(|note| best_octave(crook, *note, weights)).collect()
}

/// What two crooks give of the same notes together: of each the better.
#[must_use]
pub fn given_together(one: &[Option<Given>], other: &[Option<Given>]) -> Vec<Option<Given>> {
    let better = |(one, other): (&Option<Given>, &Option<Given>)| match (one, other) {
        (Some(one), Some(other)) if other.making.worth > one.making.worth => Some(*other),
        (Some(one), _) => Some(*one),
        (None, other) => *other,
    };
    one.iter().zip(other).map(better).collect()
}

/// A note in every octave in which a crook has it, from low to high.
pub(crate) fn in_every_octave(crook: &Crook, note: Tonic, weights: &Weights) -> impl Iterator<Item = Given> {
    let in_octave = move |octave| {
        let sounding = Sounding(Pitch::new(note.step, note.alter, octave));
        Given { sounding, making: Making::of(crook, sounding, weights) }
    };
    OCTAVES.map(in_octave).filter(|given| given.making.worth > 0.0)
}

fn best_octave(crook: &Crook, note: Tonic, weights: &Weights) -> Option<Given> {
    let far = |given: &Given| (given.making.written.0.midi() - MIDDLE).abs();
    in_every_octave(crook, note, weights)
        .min_by(|one, other| other.making.worth.total_cmp(&one.making.worth).then(far(one).cmp(&far(other))))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::request::NamedCrook;
    use crookwise_theory::{CrookFamily, Production};

    fn row(crook: &str, key: &str) -> Vec<Option<Given>> {
        let notes: Vec<Tonic> = degrees(key.parse().unwrap()).iter().map(|degree| degree.tonic).collect();
        given(NamedCrook::named(CrookFamily::Horn, crook).unwrap().crook, &notes, &Weights::default())
    }

    fn open(row: &[Option<Given>]) -> Vec<bool> {
        row.iter()
            .map(|given| given.is_some_and(|given| given.making.production == Production::Open))
            .collect()
    }

    #[test]
    fn a_minor_key_takes_two_crooks() {
        let (g, b_flat) = (row("G", "G minor"), row("Bb alto", "G minor"));
        // The third is no open note of the horn in G, but the keynote of the other.
        assert_eq!((open(&g)[0], open(&g)[2], open(&g)[4]), (true, false, true));
        assert!(open(&b_flat)[2]);
        let both = given_together(&g, &b_flat);
        assert!(chords("G minor".parse().unwrap())[0].members.iter().all(|at| open(&both)[*at]));
        assert_eq!(degrees("G minor".parse().unwrap()).len(), 8);
    }

    #[test]
    fn its_own_key_is_open() {
        let row = row("Eb", "Eb major");
        assert_eq!(open(&row)[..3], [true; 3]);
        assert_eq!(row[0].unwrap().making.written.0.to_string(), "C5");
    }
}
