//! Which step of the course an exercise came from.

use crookwise_practice::Exercise;
use crookwise_practice::course::CourseStep;

/// An exercise of a step.
#[derive(Clone, Debug, PartialEq)]
pub struct OfStep {
    /// Which step, from 0.
    pub step: usize,
    /// The exercise after it in the same step; `None` for the last.
    pub next: Option<Exercise>,
}

impl OfStep {
    /// The step that asks this, whatever the seed and the edition: the course asks anew each time. `None` where none does.
    #[must_use]
    pub fn of(exercise: &Exercise) -> Option<Self> {
        CourseStep::ALL.iter().enumerate().find_map(|(step, one)| {
            let mut own = one.exercises().into_iter();
            own.by_ref().find(|own| {
                let Exercise { seed, edition, .. } = *exercise;
                Exercise { seed, edition, ..own.clone() }.asks_the_same(exercise)
            })?;
            Some(Self { step, next: own.next() })
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_practice::Edition;

    #[test]
    fn an_exercise_of_the_course_leads_back_to_its_step_and_on_to_the_next() {
        for (step, one) in CourseStep::ALL.iter().enumerate() {
            let exercises = one.exercises();
            for (at, exercise) in exercises.iter().enumerate() {
                let edition = if at % 2 == 0 { Edition::NOW } else { Edition::Third };
                let asked = Exercise { seed: 4_711, edition, ..exercise.clone() };
                let next = exercises.get(at + 1).cloned();
                assert_eq!(OfStep::of(&asked), Some(OfStep { step, next }), "step {} at {at}", step + 1);
            }
        }
        assert_eq!(OfStep::of(&crate::state::practise::setting::first(3)), None);
    }
}
