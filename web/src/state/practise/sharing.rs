//! The code a student gives to a teacher.

use crate::state::practise::run::{Run, Verdict};
use crookwise_practice::Pace;
use crookwise_practice::results::{Fingerprint, Given, Outcome};

/// The code of an exercise that is over. Its tag is made of the times, so that two students with equal results stay two
/// and the same run has the same code whenever it is looked at.
#[must_use]
pub fn code(run: &Run, name: &str) -> String {
    let tag = run.outcomes().fold(0_u32, |tag, done| tag.wrapping_mul(31).wrapping_add(done.ms));
    let given = run.questions.iter().zip(run.outcomes()).map(|(question, done)| {
        let pace = Pace::of(question.kind, done.ms);
        match &done.outcome {
            Verdict::Right => Given::Right(pace),
            Verdict::Wrong(missed) => Given::Wrong(pace, missed.clone()),
            Verdict::LeftOut => Given::LeftOut,
        }
    });
    let exercise = Fingerprint::of_exercise(&run.exercise);
    Outcome::new(exercise, tag, given.collect(), name).map(|outcome| outcome.code()).unwrap_or_default()
}
