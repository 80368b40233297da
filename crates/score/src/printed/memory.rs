//! The bar's memory of accidentals: a sign holds for its line to the end of the bar, in all voices of the staff. A note tied
//! over the bar line needs none, and leaves none for those after it. Where the same letter was altered in another octave, the
//! sign is printed again (common practice).

use super::{PrintedBar, PrintedEvent, PrintedNote};
use crookwise_theory::order::put_in_order;
use crookwise_theory::{Signature, Step};

/// What was last said of a letter in an octave.
struct Said {
    step: Step,
    octave: i32,
    alter: i32,
}

/// Gives the notes of a bar the signs they need under its signature.
pub(super) fn remember(bar: &mut PrintedBar) {
    let signature = bar.signature;
    let mut said: Vec<Said> = Vec::new();
    let mut events: Vec<&mut PrintedEvent> = bar.voices.iter_mut().flatten().collect();
    put_in_order(&mut events, |event| event.at);
    for event in events {
        for note in event.graces.iter_mut().flat_map(|grace| &mut grace.notes) {
            sign(note, signature, &mut said);
        }
        for note in &mut event.notes {
            sign(note, signature, &mut said);
        }
    }
}

fn sign(note: &mut PrintedNote, signature: Signature, said: &mut Vec<Said>) {
    note.accidental = None;
    if note.unpitched || note.tied {
        return;
    }
    let pitch = note.pitch;
    let known = said.iter().position(|old| (old.step, old.octave) == (pitch.step, pitch.octave));
    let holds = known.and_then(|at| said.get(at)).map_or(signature.alteration(pitch.step), |old| old.alter);
    let elsewhere = said
        .iter()
        .any(|old| old.step == pitch.step && old.octave != pitch.octave && old.alter != pitch.alter);
    if holds != pitch.alter || known.is_none() && elsewhere {
        note.accidental = i8::try_from(pitch.alter).ok();
    }
    if holds != pitch.alter {
        match known.and_then(|at| said.get_mut(at)) {
            Some(old) => old.alter = pitch.alter,
            None => said.push(Said { step: pitch.step, octave: pitch.octave, alter: pitch.alter }),
        }
    }
}
