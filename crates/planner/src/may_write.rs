//! The other way: of the crooks at hand, what may be written; and of a passage typed by names of notes, what is out of reach.

use crate::making::{Making, Weights};
use crookwise_theory::{Crook, CrookFamily, Pitch, Production, Sounding, Step, Tonic, Written};

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

/// A word of a passage that was typed.
#[derive(Clone, Debug, PartialEq)]
pub struct TypedNote {
    /// As it was typed.
    pub text: String,
    /// The note; `None` where the word names none.
    pub sounding: Option<Sounding>,
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

/// So many words of a typed passage are read.
pub const MOST_TYPED: usize = 200;

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

/// Who of several crooks has a note best; of equals the first. `None` where none has it.
#[must_use]
pub fn best(crooks: &[&'static Crook], sounding: Sounding, weights: &Weights) -> Option<Had> {
    let all = crooks.iter().map(|crook| Had::of(crook, sounding, weights)).filter(Had::is_had);
    all.reduce(|best, other| if other.making.worth > best.making.worth { other } else { best })
}

/// The words of a passage: names of notes with blanks, commas or bars between them, sharps as `#` or `s`, flats as `b`. A name
/// without an octave is the one nearest to the note before; the first stands nearest to G4.
///
/// ```
/// use crookwise_planner::may_write::typed;
/// let names: Vec<String> =
///     typed("d4 F# a, D5 | x Bb3").iter().map(|one| one.sounding.map_or("?".into(), |one| one.0.to_string())).collect();
/// assert_eq!(names, ["D4", "F#4", "A4", "D5", "?", "Bb3"]);
/// ```
#[must_use]
pub fn typed(text: &str) -> Vec<TypedNote> {
    let words = text.split(|letter: char| letter.is_whitespace() || ",;|".contains(letter));
    let mut before = Pitch::natural(Step::G, 4);
    let note = |word: &str| {
        let pitch = pitch(word, before);
        before = pitch.unwrap_or(before);
        TypedNote { text: word.to_owned(), sounding: pitch.map(Sounding) }
    };
    words.filter(|word| !word.is_empty()).take(MOST_TYPED).map(note).collect()
}

/// The note of a word.
fn pitch(word: &str, before: Pitch) -> Option<Pitch> {
    let mut letters = word.chars();
    let step = Step::from_letter(letters.next()?)?;
    let rest = letters.as_str();
    let signs = rest.trim_end_matches(|letter: char| letter.is_ascii_digit());
    let octave = rest.get(signs.len()..)?;
    let alter = signs.chars().try_fold(0, |alter, sign| match sign {
        '#' | '♯' | 's' => Some(alter + 1),
        'b' | '♭' => Some(alter - 1),
        _ => None,
    })?;
    let tonic = Tonic::new(step, alter);
    let pitch = if octave.is_empty() {
        nearest(tonic, before)
    } else {
        Pitch::new(step, alter, octave.parse().ok().filter(|octave| *octave <= 9)?)
    };
    (alter.abs() <= 3).then_some(pitch)
}

/// A letter in the octave nearest to a note.
fn nearest(tonic: Tonic, to: Pitch) -> Pitch {
    let all = (-1..=1).map(|octaves| Pitch::new(tonic.step, tonic.alter, to.octave.saturating_add(octaves)));
    all.min_by_key(|pitch| (pitch.midi() - to.midi()).abs()).unwrap_or(to)
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
    let mut all: Vec<Had> = all.map(|crook| Had::of(crook, sounding, weights)).filter(Had::is_had).collect();
    all.sort_by(|one, other| other.making.worth.total_cmp(&one.making.worth));
    all.dedup_by_key(|one| one.crook);
    all.truncate(OTHERS);
    all
}

impl Had {
    fn of(crook: &'static Crook, sounding: Sounding, weights: &Weights) -> Self {
        Self { crook, sounding, making: Making::of(crook, sounding, weights) }
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
    fn words_that_are_no_notes_are_kept_as_they_are() {
        let all = typed("D4 hello F####4 G99 ♭ C-1 é");
        let notes: Vec<bool> = all.iter().map(|one| one.sounding.is_some()).collect();
        assert_eq!(notes, [true, false, false, false, false, false, false]);
        assert_eq!(typed(&"C ".repeat(500)).len(), MOST_TYPED);
        assert_eq!(typed("Eb").first().unwrap().sounding, Some(sounding("Eb4")));
    }
}
