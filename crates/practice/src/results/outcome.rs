//! What a student did in an exercise.

use super::given::Given;
use crate::exercise::{Exercise, MOST_QUESTIONS, Material};
use core::fmt;
use crc::{CRC_24_OPENPGP, Crc, NoTable};

/// Bytes of the longest name in a code. What is longer is cut between two characters.
pub const LONGEST_NAME: usize = 60;

/// A short checksum of an exercise: equal exercises have equal ones, others hardly ever (one pair in a million).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Fingerprint(pub(super) u32);

/// What a student did in an exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Outcome {
    pub(super) exercise: Fingerprint,
    pub(super) tag: u16,
    pub(super) given: Vec<Given>,
    pub(super) name: Option<String>,
}

/// Why there can be no outcome.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OutcomeError {
    /// No question, or more than an exercise may have.
    Questions,
}

impl fmt::Display for OutcomeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Questions => f.write_str("A result has one to sixty questions."),
        }
    }
}

impl core::error::Error for OutcomeError {}

impl Fingerprint {
    /// Of all that makes an exercise, as bytes.
    #[must_use]
    pub fn of(packed: &[u8]) -> Self {
        Self(Crc::<u32, NoTable>::new(&CRC_24_OPENPGP).checksum(packed) & 0xF_FFFF)
    }

    /// Of an exercise: one about a passage differs with the passage.
    #[must_use]
    pub fn of_exercise(exercise: &Exercise) -> Self {
        let mut bytes = exercise.pack();
        if let Material::Passage(passage) = &exercise.material {
            bytes.extend(crate::canonical::passage(passage).bytes());
        }
        Self::of(&bytes)
    }

    /// As codes had it that were made before the passage counted; the same as [`Fingerprint::of_exercise`] for every
    /// exercise that is about none.
    #[must_use]
    pub fn of_settings(exercise: &Exercise) -> Self {
        Self::of(&exercise.pack())
    }

    /// As a number below 2²⁰, to keep beside what belongs to the exercise.
    #[must_use]
    pub const fn number(self) -> u32 {
        self.0
    }

    /// Of such a number; `None` for a larger one.
    #[must_use]
    pub fn from_number(number: u32) -> Option<Self> {
        (number <= 0xF_FFFF).then_some(Self(number))
    }
}

impl Outcome {
    /// What was given to each question, in order. The tag is any number drawn by chance for this run; its lowest eleven
    /// bits count. Of the name, white space at the ends goes, line breaks and other control characters become
    /// spaces, and what is longer than [`LONGEST_NAME`] bytes is cut; an empty one is none.
    ///
    /// # Errors
    /// Without a question, or with more than [`MOST_QUESTIONS`].
    pub fn new(exercise: Fingerprint, tag: u32, given: Vec<Given>, name: &str) -> Result<Self, OutcomeError> {
        if given.is_empty() || given.len() > usize::from(MOST_QUESTIONS) {
            return Err(OutcomeError::Questions);
        }
        let given = given.into_iter().map(Given::into_told).collect();
        let tag = u16::try_from(tag & 0x7FF).unwrap_or_default();
        Ok(Self { exercise, tag, given, name: clean(name) })
    }

    /// The exercise.
    #[must_use]
    pub const fn exercise(&self) -> Fingerprint {
        self.exercise
    }

    /// What was given, question by question.
    #[must_use]
    pub fn given(&self) -> &[Given] {
        &self.given
    }

    /// The name, if one was typed.
    #[must_use]
    pub fn name(&self) -> Option<&str> {
        self.name.as_deref()
    }

    /// Whether this is the very run of another outcome, with a name. A run in which nothing was given is like any other such.
    pub(super) fn is_signed_run_of(&self, other: &Self) -> bool {
        let same = (self.exercise, self.tag, &self.given) == (other.exercise, other.tag, &other.given);
        same && self.name.is_some() && self.given.iter().any(|given| *given != Given::LeftOut)
    }

    /// How many answers were right.
    #[must_use]
    pub fn right(&self) -> usize {
        self.given.iter().filter(|given| matches!(given, Given::Right(_))).count()
    }
}

fn clean(name: &str) -> Option<String> {
    let spaced: String = name.chars().map(|sign| if sign.is_control() { ' ' } else { sign }).collect();
    let mut cut = String::new();
    for sign in spaced.trim().chars() {
        if cut.len() + sign.len_utf8() > LONGEST_NAME {
            break;
        }
        cut.push(sign);
    }
    let cut = cut.trim_end();
    (!cut.is_empty()).then(|| cut.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_cleaned_and_cut_between_characters() {
        let named = |name: &str| {
            let outcome = Outcome::new(Fingerprint::of(b"x"), 0, vec![Given::LeftOut], name).unwrap();
            outcome.name().map(str::to_owned)
        };
        assert_eq!(named("  "), None);
        assert_eq!(named(" Mira\nTal\t"), Some("Mira Tal".to_owned()));
        let long = "ä".repeat(40);
        assert_eq!(named(&long), Some("ä".repeat(30)));
    }

    #[test]
    fn an_outcome_has_one_to_sixty_questions() {
        let outcome = |count| Outcome::new(Fingerprint::of(b"x"), 0, vec![Given::LeftOut; count], "");
        assert_eq!(outcome(0), Err(OutcomeError::Questions));
        assert!(outcome(1).is_ok() && outcome(60).is_ok());
        assert_eq!(outcome(61), Err(OutcomeError::Questions));
    }

    #[test]
    fn exercises_about_other_pages_are_other_exercises() {
        let about = |label: &str, notes: &[&str]| {
            let mut passage = crookwise_score::Passage::of_staff(label);
            for (column, note) in notes.iter().enumerate() {
                let note = crookwise_score::Event::Note(crookwise_theory::Printed(note.parse().unwrap()));
                passage.set(0, column, 0, note).unwrap();
            }
            Exercise { material: Material::Passage(Box::new(passage)), ..Exercise::default() }
        };
        let of = |exercise: &Exercise| Fingerprint::of_exercise(exercise);
        let first = about("Corni in Es", &["C4", "E4"]);
        assert_eq!(of(&first), of(&about("Corni in Es", &["C4", "E4"])));
        assert_ne!(of(&first), of(&about("Corni in Es", &["C4", "G4"])));
        assert_ne!(of(&first), of(&about("Corni in F", &["C4", "E4"])));
        // Codes of before did not tell them apart.
        let settings = Fingerprint::of_settings(&first);
        assert_eq!(settings, Fingerprint::of_settings(&about("Corni in F", &["C4", "G4"])));
        let plain = Exercise::default();
        assert_eq!(of(&plain), Fingerprint::of_settings(&plain));
    }

    #[test]
    fn fingerprints_tell_exercises_apart() {
        let mut seen: Vec<Fingerprint> = (0..500u16).map(|n| Fingerprint::of(&n.to_be_bytes())).collect();
        seen.sort_unstable();
        seen.dedup();
        assert_eq!(seen.len(), 500);
        assert_eq!(Fingerprint::from_number(seen[3].number()), Some(seen[3]));
        assert_eq!(Fingerprint::from_number(1 << 20), None);
    }
}
