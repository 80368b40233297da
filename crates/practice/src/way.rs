//! The way to the right answer, as values: who reads what on the staff asked about, what a wrong copy should have, what
//! was played wrong, what a chord is made of.

use crate::answer::Answer;
use crate::ask::{note, place, resolved, write_at};
use crate::chords;
use crate::kind::Kind;
use crate::off::nearest;
use crate::question::{Question, QuestionSound, Spot};
use crate::setting::named;
use crate::slips::hand_interval;
use crookwise_score::{Harmony, Voice};
use crookwise_theory::{Intonation, Pitch, Printed, Reading, Sounding};

/// A note of a copy that is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Miscopied {
    /// What stands in the staff that was copied.
    pub source: Printed,
    /// What it sounds.
    pub sounding: Sounding,
    /// What stands in the copy.
    pub stands: Printed,
    /// What that sounds.
    pub heard: Sounding,
    /// What should stand there.
    pub should: Printed,
}

/// A note of a page that was played wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Misplayed {
    /// Where it stands.
    pub at: Spot,
    /// As printed.
    pub printed: Printed,
    /// What it sounds.
    pub sounding: Sounding,
    /// What was heard instead.
    pub heard: Sounding,
}

impl Question {
    /// Whether drums are asked about: what is printed on them stands for the drums that the label names.
    #[must_use]
    pub fn is_of_drums(&self) -> bool {
        place(&self.passage, self.at).is_some_and(|place| !place.staff.drums.is_empty())
    }

    /// What each player of the staff asked about reads in its column, with his number.
    #[must_use]
    pub fn players_read(&self) -> Vec<(u32, Reading)> {
        let Some(staff) = self.passage.staves().get(self.at.staff) else { return Vec::new() };
        let Some(resolved) = resolved(&self.passage, self.at.staff) else { return Vec::new() };
        let one = |player: usize| {
            let at = Spot { player, ..self.at };
            let reading =
                place(&self.passage, at)?.read(note(&self.passage, at)?, Intonation::default(), None);
            Some((resolved.number(player), reading))
        };
        (0..staff.players()).filter_map(one).collect()
    }

    /// What the staves make together where a chord is asked for, with the voices that make it.
    #[must_use]
    pub fn harmony(&self) -> Option<(Harmony, Vec<Voice>)> {
        if self.kind != Kind::Chord {
            return None;
        }
        let voices = chords::sounding(&self.passage, self.at.column);
        Some((Harmony::of_voices(&voices, self.passage.movement_at(self.at.column)), voices))
    }

    /// The wrong note of a copy and what should stand there.
    #[must_use]
    pub fn miscopied(&self) -> Option<Miscopied> {
        if self.kind != Kind::WrongNote {
            return None;
        }
        let above = Spot { staff: 0, ..self.at };
        let (source, stands) = (note(&self.passage, above)?, note(&self.passage, self.at)?);
        let read = |at: Spot, printed: Printed| {
            Some(place(&self.passage, at)?.read(printed, Intonation::default(), None).sounding)
        };
        let sounding = read(above, source)?;
        let writing = write_at(&place(&self.passage, self.at)?, sounding);
        Some(Miscopied {
            source,
            sounding,
            stands,
            heard: read(self.at, stands)?,
            should: writing.also_printed.unwrap_or(writing.strict.printed),
        })
    }

    /// The first note that was played wrong.
    #[must_use]
    pub fn misplayed(&self) -> Option<Misplayed> {
        let Some(QuestionSound::Page(played)) = &self.heard else { return None };
        played.iter().find_map(|one| {
            let printed = note(&self.passage, one.at)?;
            let reading = place(&self.passage, one.at)?.read(printed, Intonation::default(), None);
            let off = one.sounding.0.midi() != reading.sounding.0.midi();
            let misplayed =
                Misplayed { at: one.at, printed, sounding: reading.sounding, heard: one.sounding };
            off.then_some(misplayed)
        })
    }

    /// What a note of an answer sounds: written on the staff asked about, read on the instrument in hand, or as it is.
    #[must_use]
    pub fn sounds(&self, note: Pitch) -> Option<Sounding> {
        match self.kind {
            Kind::Writes => {
                let place = place(&self.passage, self.at)?;
                Some(place.read(Printed(note), Intonation::default(), None).sounding)
            }
            Kind::InHand => Some(Sounding(note + hand_interval(&named(self.in_hand.as_deref()?)?))),
            _ => Some(Sounding(note)),
        }
    }

    /// The note that is right where a note is asked for, and the one an answer gives: to be seen and heard beside each
    /// other. Of several notes those of the first player that differ.
    #[must_use]
    pub fn beside(&self, answer: &Answer) -> Option<(Pitch, Pitch)> {
        match (&self.right, answer) {
            (Answer::Note(right), Answer::Note(given)) => Some((*given, *right)),
            (Answer::Note(right), Answer::Name(given)) => {
                Some((*right + nearest(right.tonic(), *given), *right))
            }
            (Answer::Notes(right), Answer::Notes(given)) => right
                .iter()
                .zip(given)
                .find(|(right, given)| right != given)
                .map(|(right, given)| (*given, *right)),
            _ => None,
        }
    }
}
