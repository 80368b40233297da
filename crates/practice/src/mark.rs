//! Marking: what a musician would accept, and what explains the rest.

use crate::answer::Answer;
use crate::exercise::Marking;
use crate::mistake::{Explanation, Mark, Mistake};
use crate::question::Question;
use crate::wrong::wrong_answers;
use crookwise_theory::order::in_order;
use crookwise_theory::{Clef, Pitch, Tonic};

impl Question {
    /// Marks an answer.
    #[must_use]
    pub fn mark(&self, answer: &Answer, marking: Marking) -> Mark {
        if self.is_right(answer, marking) {
            return Mark { right: true, explained: Vec::new() };
        }
        Mark { right: false, explained: explain(self, answer, marking) }
    }

    /// Whether a musician would accept an answer.
    #[must_use]
    pub fn is_right(&self, answer: &Answer, marking: Marking) -> bool {
        core::iter::once(&self.right).chain(&self.also).any(|right| accepts(right, answer, marking))
    }
}

/// How many explanations are given at most.
const RIVALS: usize = 2;

/// What explains a wrong answer: single mistakes that lead to it; where none does, the likeliest pairs. Spelled as it was
/// given first, then by the keys of the keyboard where spelling does not count. Of several those that tell most.
fn explain(question: &Question, answer: &Answer, marking: Marking) -> Vec<Explanation> {
    if let Some(counted) = miscounted(question, answer, marking) {
        return vec![Explanation::single(counted)];
    }
    let wrong = wrong_answers(question);
    let strict = Marking { enharmonics: false, ..marking };
    for pairs in [false, true] {
        for by in [strict, marking] {
            let fits = |one: &&crate::wrong::Wrong| {
                one.told
                    && one.explanation.with.is_some() == pairs
                    && accepts(&one.answer, answer, by)
                    && !question.is_right(&one.answer, marking)
            };
            let cheapest = wrong.iter().filter(fits).map(|one| one.cost).min();
            let mut found: Vec<Explanation> = Vec::new();
            for one in wrong.iter().filter(fits) {
                let dear = pairs && Some(one.cost) != cheapest;
                if !dear && !found.contains(&one.explanation) {
                    found.push(one.explanation);
                }
            }
            if !found.is_empty() {
                let mut telling = in_order(found, |one| one.place());
                // Two mistakes made together are a long story already.
                telling.truncate(if pairs { 1 } else { RIVALS });
                return telling;
            }
        }
    }
    Vec::new()
}

/// One note for both counted as two, or only one of two notes given.
fn miscounted(question: &Question, answer: &Answer, marking: Marking) -> Option<Mistake> {
    let (Answer::Notes(right), given) = (&question.right, notes(answer)?) else { return None };
    let is_right = |note: &Pitch| right.iter().any(|own| same_note(*own, *note, marking));
    match (right.len(), given) {
        (1, [_, _]) => given.iter().any(is_right).then_some(Mistake::ATwo),
        (2, [only]) => is_right(only).then_some(Mistake::NoteMissing),
        _ => None,
    }
}

/// The notes of an answer that gives them for the players of a staff.
fn notes(answer: &Answer) -> Option<&[Pitch]> {
    match answer {
        Answer::Notes(notes) => Some(notes),
        Answer::Note(note) => Some(core::slice::from_ref(note)),
        _ => None,
    }
}

/// Whether an answer is as good as a right one.
pub(crate) fn accepts(right: &Answer, answer: &Answer, marking: Marking) -> bool {
    match (right, answer) {
        (Answer::Note(right), Answer::Note(given)) => same_note(*right, *given, marking),
        (Answer::Note(right), Answer::Name(given)) => same_name(right.tonic(), *given, marking),
        (Answer::Note(right), Answer::Key(given)) => {
            let apart = i64::from(right.midi()) - i64::from(*given);
            if marking.octave { apart == 0 } else { apart % 12 == 0 }
        }
        (Answer::Notes(right), Answer::Notes(given)) => same_notes(right, given, marking),
        // Who hears one sound may say so with one note or with two.
        (Answer::Notes(right), Answer::Note(given)) => same_notes(right, &[*given], marking),
        (
            Answer::Clef { clef, octaves, fifths },
            Answer::Clef { clef: given, octaves: given_octaves, fifths: given_fifths },
        ) => {
            let line =
                |clef: &Clef, octaves: i32| i64::from(clef.bottom_line().diatonic()) + 7 * i64::from(octaves);
            let apart = line(clef, *octaves) - line(given, *given_octaves);
            fifths == given_fifths && if marking.octave { apart == 0 } else { apart % 7 == 0 }
        }
        (Answer::Chord(right), Answer::Chord(given)) => {
            right.quality == given.quality
                && right.bass == given.bass
                && same_name(right.root, given.root, marking)
        }
        (right, given) => right == given,
    }
}

fn same_note(right: Pitch, given: Pitch, marking: Marking) -> bool {
    let apart = i64::from(right.semitones()) - i64::from(given.semitones());
    let near = if marking.octave { apart == 0 } else { apart % 12 == 0 };
    let letters = (i64::from(right.diatonic()) - i64::from(given.diatonic())) % 7 == 0;
    near && (marking.enharmonics || letters)
}

fn same_name(right: Tonic, given: Tonic, marking: Marking) -> bool {
    right == given || (marking.enharmonics && right.pitch_class() == given.pitch_class())
}

/// Notes of several players, in any order; one sound of several may be given once or for each.
fn same_notes(right: &[Pitch], given: &[Pitch], marking: Marking) -> bool {
    let once = |notes: &[Pitch]| {
        let mut each: Vec<Pitch> = Vec::new();
        for note in notes {
            if !each.iter().any(|known| same_note(*known, *note, marking)) {
                each.push(*note);
            }
        }
        each
    };
    let (right, given) = (once(right), once(given));
    right.len() == given.len()
        && right.iter().all(|note| given.iter().any(|other| same_note(*note, *other, marking)))
}
