//! What is to be heard of a question, as tones.

use crookwise_practice::{Question, QuestionSound, Spot, Which};
use crookwise_score::ResolvedStaff;
use crookwise_sound::{Act, Manner, SoundColumn, Tone, Touch, alternate, hz, note, passage};
use crookwise_theory::label::DecodeOptions;
use crookwise_theory::{Pitch, Tuning};

/// Seconds of a note of a page, of one of two notes, and of the pause between them.
const BEAT: f64 = 0.8;
const ALONE: f64 = 1.4;
const PAUSE: f64 = 0.4;

/// The tones of what a question lets be heard; none for what is only seen.
#[must_use]
pub fn tones(question: &Question) -> Vec<Tone> {
    match &question.heard {
        Some(QuestionSound::Page(played)) => {
            let tuning = Tuning::default();
            let columns = (0..question.passage.columns().len()).map(|at| SoundColumn {
                seconds: BEAT,
                acts: played
                    .iter()
                    .filter(|note| note.at.column == at)
                    .map(|note| Act::Note(tuning.frequency(note.sounding.0), touch(question, note.at)))
                    .collect(),
            });
            passage(&columns.collect::<Vec<_>>())
        }
        Some(QuestionSound::Two { natural }) => {
            let Some(reading) = question.reading() else { return Vec::new() };
            let one = |manner| vec![note(hz(&reading, manner), ALONE, touch(question, question.at))];
            let (tube, tuning) = (one(Manner::Tube), one(Manner::Tuning));
            match natural {
                Which::First => alternate(&tube, &tuning, 1, PAUSE),
                Which::Second => alternate(&tuning, &tube, 1, PAUSE),
            }
        }
        None => Vec::new(),
    }
}

/// A note of an answer as it sounds: what was given, or what is right.
#[must_use]
pub fn answered(question: &Question, pitch: Pitch) -> Vec<Tone> {
    let sounding = question.sounds(pitch);
    let hz = sounding.map(|sounding| Tuning::default().frequency(sounding.0));
    hz.map(|hz| note(hz, ALONE, touch(question, question.at))).into_iter().collect()
}

/// What a question asks about as it sounds, once it has been revealed.
#[must_use]
pub fn right(question: &Question) -> Vec<Tone> {
    let reading = question.reading();
    reading.map(|reading| note(reading.target_hz, ALONE, touch(question, question.at))).into_iter().collect()
}

/// The character of the instrument at a place of the page.
fn touch(question: &Question, at: Spot) -> Touch {
    let staff = ResolvedStaff::of(&question.passage, at.staff, DecodeOptions::default());
    staff
        .place_at(at.column, at.player)
        .map_or_else(Touch::default, |place| Touch::of(place.staff.instrument))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_practice::{AskedStaff, Exercise, Kind};
    use crookwise_sound::Colour;

    #[test]
    fn the_natural_one_of_two_is_off_the_tuning() {
        let staves = vec![AskedStaff::of("Corni in Es")];
        let exercise = Exercise { kinds: vec![Kind::Natural], staves, ..Exercise::default() };
        for question in exercise.questions().unwrap() {
            let tones = tones(&question);
            assert_eq!(tones.len(), 2);
            let target = question.reading().unwrap().target_hz;
            let Some(QuestionSound::Two { natural }) = question.heard else { panic!() };
            let (tube, tuned) = if natural == Which::First { (0, 1) } else { (1, 0) };
            assert!((tones[tuned].hz - target).abs() < 1e-9);
            assert!((tones[tube].hz - target).abs() > 1.0);
        }
    }

    #[test]
    fn a_written_answer_is_heard_as_it_sounds() {
        for kind in [Kind::Sounds, Kind::Writes, Kind::InHand] {
            let exercise = Exercise {
                kinds: vec![kind],
                staves: vec![AskedStaff::of("Corni in Es")],
                in_hand: Some("Clarinet in B-flat".into()),
                ..Exercise::default()
            };
            for question in exercise.questions().unwrap() {
                let crookwise_practice::Answer::Note(right) = question.right else { panic!() };
                let tones = answered(&question, right);
                assert!((tones[0].hz - question.reading().unwrap().target_hz).abs() < 1e-6, "{kind:?}");
            }
        }
    }

    #[test]
    fn a_page_is_heard_column_by_column() {
        let staves = ["Violino", "Corno in F", "Viola"].map(AskedStaff::of).into();
        let exercise =
            Exercise { kinds: vec![Kind::WrongStaff], staves, questions: 3, ..Exercise::default() };
        for question in exercise.questions().unwrap() {
            let tones = tones(&question);
            let columns = question.passage.columns().len();
            assert!(columns > 1 && tones.len() >= 2 * columns, "{columns} columns, {} tones", tones.len());
            for colour in [Colour::String, Colour::Brass] {
                assert!(tones.iter().any(|tone| tone.colour == colour), "{colour:?}");
            }
        }
    }
}
