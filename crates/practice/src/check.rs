//! Whether an exercise is complete, and set as scores are printed.

use crate::error::ExerciseError;
use crate::exercise::{Exercise, MOST_ASKED, MOST_KEYS, MOST_QUESTIONS, Material};
use crookwise_score::{ChangeTo, Choice, Passage, Settings, SignatureSource};
use crookwise_theory::{Key, Signature};

/// Letters that an instrument may sound away from its part: four octaves.
const FARTHEST: u32 = 28;
/// Flats or sharps that a transposition may have beyond its plain interval.
const MOST_ALTERED: u32 = 12;

/// What is wrong with an exercise before anything is drawn.
pub(crate) fn check(exercise: &Exercise) -> Result<(), ExerciseError> {
    let passage = match &exercise.material {
        Material::Passage(passage) => Some(passage),
        _ => None,
    };
    match () {
        () if exercise.kinds.is_empty() => Err(ExerciseError::NoKinds),
        () if exercise.staves.is_empty() && passage.is_none() => Err(ExerciseError::NoStaves),
        () if exercise.staves.len() > MOST_ASKED => Err(ExerciseError::TooManyStaves),
        () if exercise.keys.len() > MOST_KEYS => Err(ExerciseError::TooManyKeys),
        () if !(1..=MOST_QUESTIONS).contains(&exercise.questions) => Err(ExerciseError::Questions),
        () if !exercise.keys.iter().all(is_key) => Err(ExerciseError::Key),
        () => match passage {
            Some(passage) => check_passage(passage),
            None => {
                let odd = exercise.staves.iter().position(|staff| !is_set(staff.choice, staff.settings));
                odd.map_or(Ok(()), |staff| Err(ExerciseError::Setting { staff }))
            }
        },
    }
}

fn check_passage(passage: &Passage) -> Result<(), ExerciseError> {
    let later = passage.columns().iter().filter_map(|column| column.movement);
    if !passage.movement.into_iter().chain(later).all(|key| is_key(&key)) {
        return Err(ExerciseError::Key);
    }
    let odd = passage.staves().iter().position(|staff| {
        let changes = staff.changes().iter().all(|change| match &change.to {
            ChangeTo::Signature(source) => is_signature(*source),
            _ => true,
        });
        let crooks = staff.crooks().iter().flatten().all(is_choice);
        !(is_set(staff.choice, staff.settings) && crooks && changes)
    });
    odd.map_or(Ok(()), |staff| Err(ExerciseError::Setting { staff }))
}

/// At most seven signs.
fn is_key(key: &Key) -> bool {
    is_signed(key.signature())
}

fn is_signed(signature: Signature) -> bool {
    (-7..=7).contains(&signature.0)
}

fn is_signature(source: SignatureSource) -> bool {
    match source {
        SignatureSource::Typed(signature) => is_signed(signature),
        _ => true,
    }
}

fn is_set(choice: Option<Choice>, settings: Settings) -> bool {
    choice.as_ref().is_none_or(is_choice) && settings.signature.is_none_or(is_signature)
}

fn is_choice(choice: &Choice) -> bool {
    let by = choice.transposition.0;
    by.steps.unsigned_abs() <= FARTHEST && by.fifths().unsigned_abs() <= MOST_ALTERED
}
