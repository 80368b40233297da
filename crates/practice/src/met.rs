//! What is met in parts and scores: notes as they are spelled, instruments as they are built.

use crate::answer::Answer;
use crate::kind::Kind;
use crate::question::Question;
use crate::setting::named;
use crate::usage::is_in_range;
use crookwise_score::Choice;
use crookwise_theory::order::in_order;
use crookwise_theory::tables::INSTRUMENTS;
use crookwise_theory::{Instrument, Pitch, Step, Transposition};

/// Whether an answer names something that is met: no E-sharp where nothing is written so, no note that the instrument
/// in hand lacks, no instrument that nobody builds. At first that was not asked.
pub(crate) fn is_met(answer: &Answer, question: &Question) -> bool {
    let odd = |note: &Pitch| {
        let natural = matches!((note.step, note.alter), (Step::E | Step::B, 1) | (Step::C | Step::F, -1));
        natural && !names(&question.right).iter().any(|right| right.tonic() == note.tonic())
    };
    let reached = |note: &Pitch| match question.in_hand.as_deref().and_then(named) {
        Some(hand) if question.kind == Kind::InHand => is_in_range(&hand, *note),
        _ => true,
    };
    match answer {
        Answer::Label(choice) => is_built(*choice, question),
        _ => names(answer).iter().all(|note| !odd(note) && reached(note)),
    }
}

/// The notes of an answer.
fn names(answer: &Answer) -> &[Pitch] {
    match answer {
        Answer::Note(note) => core::slice::from_ref(note),
        Answer::Notes(notes) => notes,
        _ => &[],
    }
}

/// Whether there is such an instrument, or it is the one of the label taken the wrong way or by another octave.
fn is_built(choice: Choice, question: &Question) -> bool {
    let sounds = |choice: Choice| (Pitch::natural(Step::C, 4) + choice.transposition.0).tonic();
    let row = choice.instrument;
    let crook = row.crooks.is_some_and(|family| {
        family.crooks().iter().any(|crook| crook.transposition == choice.transposition)
    });
    let kin = |other: &&Instrument| other.id == row.id || (row.kind.is_some() && other.kind == row.kind);
    let built = INSTRUMENTS.iter().filter(kin).any(|other| other.transposition == Some(choice.transposition));
    let same = matches!(&question.right, Answer::Label(right) if right.instrument == row && sounds(*right) == sounds(choice));
    crook || built || (same && row.transposition != Some(Transposition::NONE))
}

/// Instruments that are taken for each other: of one kind, then the usual one of every other kind of the family, as they
/// stand near each other in the score.
pub(crate) fn kin(choice: Choice) -> Vec<Answer> {
    let own = choice.instrument;
    let at = INSTRUMENTS.iter().position(|row| row == own).unwrap_or_default();
    let first = |row: &Instrument| {
        INSTRUMENTS
            .iter()
            .filter(|other| other.kind == row.kind)
            .min_by_key(|row| (row.rank, row.transposition.map_or(0, |by| by.0.fifths().unsigned_abs())))
    };
    let other = |(place, row): (usize, &'static Instrument)| {
        let same = row.kind == own.kind;
        let taken = row.family == own.family && row.kind.is_some() && row.is_usual() && place != at;
        let known = row.crooks.is_none() && row.systems.is_none() && (same || first(row) == Some(row));
        let transposition = row.transposition.filter(|_| taken && known)?;
        Some((
            usize::from(!same),
            place.abs_diff(at),
            Answer::Label(Choice { instrument: row, transposition }),
        ))
    };
    let found: Vec<(usize, usize, Answer)> = INSTRUMENTS.iter().enumerate().filter_map(other).collect();
    in_order(found, |(other, far, _)| (*other, *far)).into_iter().map(|(.., answer)| answer).collect()
}
