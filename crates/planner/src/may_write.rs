//! The other way: of the crooks at hand, what may be written; and what stands beside a note that none of them has.

use crate::making::{Making, Weights};
use crookwise_theory::order::in_order;
use crookwise_theory::spelling::as_brass_prints;
use crookwise_theory::{Crook, CrookFamily, Pitch, Production, Sounding, Step, Written};

/// A note that a crook has.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Had {
    /// The crook.
    pub crook: &'static Crook,
    /// What sounds.
    pub sounding: Sounding,
    /// How it is written and made.
    pub making: Making,
}

/// What can be done about a note that no crook at hand has; the nearest first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearby {
    /// What it is.
    pub kind: NearbyKind,
    /// On which crook, and how.
    pub had: Had,
}

/// What can be done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum NearbyKind {
    /// The same note in another octave.
    Octave,
    /// The next note that is had, above or below.
    Neighbour,
    /// The same note on a crook that is not at hand.
    OtherCrook,
}

/// How the twelve notes of an octave are usually written for horn and trumpet: sharps to lead, flats to fall. Common practice.
const WRITTEN: [(Step, i32); 12] = [
    (Step::C, 0),
    (Step::C, 1),
    (Step::D, 0),
    (Step::E, -1),
    (Step::E, 0),
    (Step::F, 0),
    (Step::F, 1),
    (Step::G, 0),
    (Step::A, -1),
    (Step::A, 0),
    (Step::B, -1),
    (Step::B, 0),
];

/// The written octaves that are gone through: from below the second partial to above the highest that is asked of anybody.
const OCTAVES: core::ops::RangeInclusive<i32> = 1..=7;

/// Octaves that are tried for a remedy, the nearest first.
const TRIED: [i32; 4] = [-1, 1, -2, 2];
/// So many crooks that are not at hand are told.
const OTHERS: usize = 2;

/// All notes that a crook has, from low to high, in the spelling of how they are written. None of them is above the highest
/// partial of the weights.
#[must_use]
pub fn had(crook: &'static Crook, weights: &Weights) -> Vec<Had> {
    let written = OCTAVES.flat_map(|octave| {
        WRITTEN.iter().map(move |(step, alter)| Written(Pitch::new(*step, *alter, octave)))
    });
    let of = |written: Written| Had::of(crook, crook.transposition.to_sounding(written), weights);
    written.map(of).filter(Had::is_had).collect()
}

/// A note as a crook has it; `None` where it has it not.
#[must_use]
pub fn on(crook: &'static Crook, sounding: Sounding, weights: &Weights) -> Option<Had> {
    Some(Had::of(crook, sounding, weights)).filter(Had::is_had)
}

/// Who of several crooks has a note best; of equals the first. `None` where none has it.
#[must_use]
pub fn best(crooks: &[&'static Crook], sounding: Sounding, weights: &Weights) -> Option<Had> {
    best_of(crooks.iter().filter_map(|crook| on(crook, sounding, weights)))
}

/// Which of several ways of having a note is worth most; of equals the first.
#[must_use]
pub fn best_of(all: impl IntoIterator<Item = Had>) -> Option<Had> {
    all.into_iter().reduce(|best, other| if other.making.worth > best.making.worth { other } else { best })
}

/// The written note of a key on the keyboard, by its MIDI number.
pub(crate) fn written_at(midi: i32) -> Written {
    let at = usize::try_from(midi.rem_euclid(12)).unwrap_or_default();
    let (step, alter) = WRITTEN.get(at).copied().unwrap_or((Step::C, 0));
    Written(Pitch::new(step, alter, midi.div_euclid(12) - 1))
}

/// What can be done about a note that none of these crooks has; nothing for one that they have.
#[must_use]
pub fn nearby(crooks: &[&'static Crook], sounding: Sounding, weights: &Weights) -> Vec<Nearby> {
    if best(crooks, sounding, weights).is_some() {
        return Vec::new();
    }
    let octave = |octaves: &i32| {
        let Pitch { step, alter, octave } = sounding.0;
        best(crooks, Sounding(Pitch::new(step, alter, octave.saturating_add(*octaves))), weights)
    };
    let octave = TRIED.iter().find_map(octave);
    let all: Vec<Had> = crooks.iter().flat_map(|crook| had(crook, weights)).collect();
    let far = |one: &&Had| (one.sounding.0.midi() - sounding.0.midi()).abs();
    let side = |is: &dyn Fn(i32) -> bool| {
        let own = all.iter().filter(|one| is(one.sounding.0.midi() - sounding.0.midi()));
        own.min_by(|one, other| {
            far(one).cmp(&far(other)).then(other.making.worth.total_cmp(&one.making.worth))
        })
    };
    let neighbours = [side(&|apart| apart < 0), side(&|apart| apart > 0)];
    let told = |kind| move |had: Had| Nearby { kind, had };
    let octave = octave.into_iter().map(told(NearbyKind::Octave));
    let neighbours = neighbours.into_iter().flatten().copied().map(told(NearbyKind::Neighbour));
    let others = others(crooks, sounding, weights).into_iter().map(told(NearbyKind::OtherCrook));
    octave.chain(neighbours).chain(others).collect()
}

/// The crooks of the same families that have a note best.
fn others(crooks: &[&'static Crook], sounding: Sounding, weights: &Weights) -> Vec<Had> {
    let mut families: Vec<_> = crooks.iter().map(|crook| crook.family).collect();
    families.dedup();
    let all = families.into_iter().flat_map(CrookFamily::crooks);
    let all = all.map(|crook| Had::of(crook, sounding, weights)).filter(Had::is_had);
    let mut all = in_order(all, |one| -one.making.worth);
    all.dedup_by_key(|one| one.crook);
    all.truncate(OTHERS);
    all
}

impl Had {
    fn of(crook: &'static Crook, sounding: Sounding, weights: &Weights) -> Self {
        Self { crook, sounding, making: Making::of(crook, sounding, weights) }
    }

    /// As the trade prints it in a part without a signature.
    #[must_use]
    pub fn printed(&self) -> Written {
        as_brass_prints(self.making.written)
    }

    /// Whether the crook has it, and it counts for something.
    fn is_had(&self) -> bool {
        self.making.production != Production::Unavailable && self.making.worth > 0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::request::NamedCrook;

    fn in_d() -> Vec<&'static Crook> {
        [CrookFamily::Horn, CrookFamily::Trumpet]
            .map(|family| NamedCrook::named(family, "D").unwrap().crook)
            .to_vec()
    }

    fn sounding(name: &str) -> Sounding {
        Sounding(name.parse().unwrap())
    }

    #[test]
    fn the_open_notes_are_the_series() {
        let [horn, trumpet] = in_d()[..] else { panic!("two") };
        let open = |crook| {
            let all = had(crook, &Weights::default());
            let open = all.iter().filter(|one| one.making.production == Production::Open);
            open.map(|one| one.sounding.0.to_string()).collect::<Vec<_>>()
        };
        assert!(
            open(horn).starts_with(&["D2".into(), "D3".into(), "A3".into()])
                || open(horn).contains(&"A3".into())
        );
        assert!(open(trumpet).contains(&"F#4".into()), "{:?}", open(trumpet));
        let all = had(horn, &Weights::default());
        assert!(all.is_sorted_by_key(|one| one.sounding.0.midi()) && all.len() > open(horn).len());
        // The hand has what the trumpet has not.
        assert!(all.len() > had(trumpet, &Weights::default()).len());
    }

    #[test]
    fn what_is_out_of_reach_has_remedies() {
        let weights = Weights::default();
        let [_, trumpet] = in_d()[..] else { panic!("two") };
        assert!(best(&in_d(), sounding("A4"), &weights).is_some());
        assert_eq!(nearby(&in_d(), sounding("A4"), &weights), []);
        // Between the second and the third partial a trumpet has nothing.
        let all = nearby(&[trumpet], sounding("F4"), &weights);
        let told = |kind| all.iter().find(|one| one.kind == kind).map(|one| one.had);
        let below = told(NearbyKind::Neighbour).unwrap();
        assert!(below.sounding.0.midi() < 65, "{below:?}");
        let other = told(NearbyKind::OtherCrook).unwrap();
        assert_eq!((other.making.production, other.crook.family), (Production::Open, CrookFamily::Trumpet));
        assert_eq!(best(&[], sounding("A4"), &weights), None);
        assert_eq!(nearby(&[], sounding("A4"), &weights), []);
    }

    #[test]
    fn what_is_printed_is_spelled_as_natural_brass_is() {
        let horn = NamedCrook::named(CrookFamily::Horn, "Eb").unwrap().crook;
        // Strictly D-sharp 5.
        let had = on(horn, sounding("F#4"), &Weights::default()).unwrap();
        assert_eq!(
            (had.making.written.0.to_string(), had.printed().0.to_string()),
            ("D#5".into(), "Eb5".into())
        );
        for midi in 36..=96 {
            assert_eq!(written_at(midi).0.midi(), midi);
        }
    }
}
