//! One place on a staff: who reads it and how it is printed there. Where clef, signature, crook and key of the movement
//! stay the same, the place is the same.

use crookwise_theory::label::StaffLabel;
use crookwise_theory::{
    Habits, Intonation, Key, Notation, Pitch, Printed, Reading, Signature, Situation, Sounding, Tonic,
    Transposition, Writing, read_among, write_among,
};
use std::sync::Arc;

/// One place on a staff: who reads it, and how it is printed there.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// The staff as its label names it.
    pub staff: StaffLabel,
    /// How it is printed.
    pub habits: Habits,
    /// The signature printed on it.
    pub signature: Signature,
    /// The movement's key.
    pub movement: Option<Key>,
    /// Letters printed anywhere on the staff, each once: they decide how drums are read. None for all other staves.
    pub(crate) letters: Arc<[Tonic]>,
}

impl Place {
    /// Everything around a note of this place.
    #[must_use]
    pub fn situation<'a>(&'a self, intonation: Intonation, in_hand: Option<&'a StaffLabel>) -> Situation<'a> {
        Situation {
            staff: &self.staff,
            habits: self.habits,
            signature: self.signature,
            movement: self.movement,
            in_hand,
            intonation,
        }
    }

    /// A printed note read here, the letters of the whole staff considered.
    #[must_use]
    pub fn read(&self, printed: Printed, intonation: Intonation, in_hand: Option<&StaffLabel>) -> Reading {
        let letters = self.letters.iter().copied().chain([printed.0.tonic()]);
        read_among(&self.situation(intonation, in_hand), printed, letters)
    }

    /// What must be printed here for a sound, the letters of the whole staff considered.
    #[must_use]
    pub fn write(&self, sounding: Sounding, intonation: Intonation, in_hand: Option<&StaffLabel>) -> Writing {
        write_among(&self.situation(intonation, in_hand), sounding, self.letters.iter().copied())
    }

    /// How the staff is read here.
    #[must_use]
    pub fn notation(&self) -> Notation {
        Notation::of(&self.staff, self.habits).for_letters(&self.staff, self.letters.iter().copied())
    }

    /// The same place where another staff is read.
    #[must_use]
    pub fn read_by(&self, staff: &StaffLabel) -> Self {
        Self { staff: staff.clone(), ..self.clone() }
    }

    /// From what is written here to what sounds, as it holds for all notes. `None` where that is open yet: drums for whose
    /// notes C and G may stand, before anything is printed.
    #[must_use]
    pub fn transposition(&self) -> Option<Transposition> {
        let drums = !self.staff.drums.is_empty() && self.staff.transposition != Transposition::NONE;
        (!drums || !self.letters.is_empty()).then(|| self.notation().transposition)
    }

    /// Who reads it and what his notes do here: "Horn in E-flat — sounds a major sixth lower". Keys are named by `key_name`.
    #[must_use]
    pub fn words_by(&self, key_name: &dyn Fn(Tonic) -> String) -> String {
        match self.transposition() {
            Some(transposition) => StaffLabel { transposition, ..self.staff.clone() }.words_by(key_name),
            None => self.staff.name_by(key_name),
        }
    }

    /// The signature of what sounds: the movement's, or the printed one transposed where no movement is named.
    #[must_use]
    pub fn sounding_signature(&self) -> Signature {
        match self.movement {
            Some(key) => key.signature(),
            None => self.signature.transposed(self.notation().printed_to_sounding()).practical(),
        }
    }

    /// The note that a place on the printed staff means, the signature counted.
    #[must_use]
    pub fn printed_at(&self, place: crookwise_theory::StaffPosition) -> Printed {
        let natural = self.habits.clef.pitch_at(place);
        Printed(Pitch { alter: self.signature.alteration(natural.step), ..natural })
    }
}
