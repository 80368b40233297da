//! A class: by student, by question, and the mistakes of all.

use super::find::{Found, FoundCode};
use super::outcome::{Fingerprint, Given, Outcome};
use crate::exercise::Exercise;
use crate::mistake::Mistake;
use crate::pace::Pace;

/// What a class did in one exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Class {
    /// The exercise.
    pub exercise: Fingerprint,
    /// The students: those with a name by rising name, then those without in the order of their codes.
    pub students: Vec<Student>,
    /// The questions, in order.
    pub questions: Vec<QuestionTally>,
    /// The mistakes of the class, each with how many answers it explains, the commonest first.
    pub mistakes: Vec<(Mistake, u32)>,
    /// The pace in the middle of all answers.
    pub pace: Option<Pace>,
    /// Codes of other exercises.
    pub others: Vec<FoundCode>,
}

/// One run of one student.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Student {
    /// The name, if one was typed.
    pub name: Option<String>,
    /// Whether another code has the same name: the exercise was worked again, or two share the name.
    pub again: bool,
    /// What was given to each question of the class; what a shorter code does not reach is left out.
    pub given: Vec<Given>,
    /// Right answers.
    pub right: u32,
    /// Wrong answers.
    pub wrong: u32,
    /// Questions left out.
    pub left_out: u32,
    /// The pace in the middle of the answers.
    pub pace: Option<Pace>,
    /// The mistakes, the commonest first.
    pub mistakes: Vec<(Mistake, u32)>,
}

/// One question over all students.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct QuestionTally {
    /// Right answers.
    pub right: u32,
    /// Wrong answers.
    pub wrong: u32,
    /// How often it was left out.
    pub left_out: u32,
    /// The pace in the middle of the answers.
    pub pace: Option<Pace>,
    /// The mistakes, the commonest first.
    pub mistakes: Vec<(Mistake, u32)>,
}

/// Counts of a row or a column of the table.
#[derive(Default)]
struct Counts {
    right: u32,
    wrong: u32,
    left_out: u32,
    paces: Vec<Pace>,
    mistakes: Vec<u32>,
}

impl Class {
    /// The class whose codes were found, for one exercise.
    #[must_use]
    pub fn of(exercise: Fingerprint, found: &Found) -> Self {
        Self::of_either(exercise, exercise, found)
    }

    /// The class of an exercise that is at hand. Codes made before the passage counted in a fingerprint are among
    /// them: they were made with the same settings.
    #[must_use]
    pub fn of_exercise(exercise: &Exercise, found: &Found) -> Self {
        let (own, before) = (Fingerprint::of_exercise(exercise), Fingerprint::of_settings(exercise));
        Self::of_either(own, before, found)
    }

    fn of_either(exercise: Fingerprint, before: Fingerprint, found: &Found) -> Self {
        let (mine, others): (Vec<&FoundCode>, Vec<&FoundCode>) =
            found.codes.iter().partition(|code| [exercise, before].contains(&code.outcome.exercise()));
        let questions = mine.iter().map(|code| code.outcome.given().len()).max().unwrap_or_default();
        let mut students: Vec<Student> = mine.iter().map(|code| student(&code.outcome, questions)).collect();
        students.sort_by(|one, other| rank(one).cmp(&rank(other)));
        let names: Vec<Option<String>> = students.iter().map(|student| student.name.clone()).collect();
        for student in &mut students {
            let same = names.iter().filter(|name| name.is_some() && **name == student.name);
            student.again = same.count() > 1;
        }
        let tallies = (0..questions).map(|question| {
            let mut counts = Counts::default();
            students
                .iter()
                .filter_map(|student| student.given.get(question))
                .for_each(|one| counts.add(*one));
            let pace = Pace::median(&counts.paces);
            let mistakes = counts.ranked();
            QuestionTally {
                right: counts.right,
                wrong: counts.wrong,
                left_out: counts.left_out,
                pace,
                mistakes,
            }
        });
        let questions = tallies.collect();
        let mut all = Counts::default();
        students.iter().flat_map(|student| &student.given).for_each(|given| all.add(*given));
        Self {
            exercise,
            questions,
            mistakes: all.ranked(),
            pace: Pace::median(&all.paces),
            students,
            others: others.into_iter().cloned().collect(),
        }
    }
}

/// Those with a name come first, by their names.
fn rank(student: &Student) -> (bool, &Option<String>) {
    (student.name.is_none(), &student.name)
}

fn student(outcome: &Outcome, questions: usize) -> Student {
    let left_out = core::iter::repeat(Given::LeftOut);
    let given: Vec<Given> = outcome.given().iter().copied().chain(left_out).take(questions).collect();
    let mut counts = Counts::default();
    given.iter().for_each(|one| counts.add(*one));
    Student {
        name: outcome.name().map(str::to_owned),
        again: false,
        right: counts.right,
        wrong: counts.wrong,
        left_out: counts.left_out,
        pace: Pace::median(&counts.paces),
        mistakes: counts.ranked(),
        given,
    }
}

impl Counts {
    fn add(&mut self, given: Given) {
        match given {
            Given::LeftOut => self.left_out += 1,
            Given::Right(_) => self.right += 1,
            Given::Wrong(..) => self.wrong += 1,
        }
        self.paces.extend(given.pace());
        self.mistakes.resize(Mistake::ALL.len(), 0);
        for mistake in given.mistakes() {
            if let Some(count) = self.mistakes.get_mut(mistake as usize) {
                *count += 1;
            }
        }
    }

    /// The mistakes that were made, the commonest first, of equally many the lower number.
    fn ranked(&self) -> Vec<(Mistake, u32)> {
        let mut made: Vec<(Mistake, u32)> = Vec::new();
        for (mistake, count) in Mistake::ALL.into_iter().zip(self.mistakes.iter().copied()) {
            if count > 0 {
                made.push((mistake, count));
            }
        }
        made.sort_by_key(|(_, count)| core::cmp::Reverse(*count));
        made
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::results::find_all;

    #[test]
    fn a_small_class_is_counted() {
        let exercise = Fingerprint::of(b"x");
        let third = Given::wrong(Pace::VerySlow, &[Mistake::ThirdForSixth]);
        let both = Given::wrong(Pace::Fluent, &[Mistake::ThirdForSixth, Mistake::Octave]);
        let right = Given::Right(Pace::Fluent);
        let code = |tag, given: &[Given], name: &str| {
            Outcome::new(exercise, tag, given.to_vec(), name).unwrap().code()
        };
        let foreign = Outcome::new(Fingerprint::of(b"y"), 0, vec![right], "Guest").unwrap().code();
        let text = [
            code(1, &[right, third, right], ""),
            code(2, &[right, both, Given::LeftOut], "Zoe"),
            code(3, &[third, right], "Ann"),
            code(4, &[right, right, right], "Zoe"),
            foreign,
        ]
        .join(" / ");
        let class = Class::of(exercise, &find_all(&text));
        let names: Vec<_> = class.students.iter().map(|s| (s.name.as_deref(), s.again)).collect();
        assert_eq!(names, [(Some("Ann"), false), (Some("Zoe"), true), (Some("Zoe"), true), (None, false)]);
        assert_eq!(class.others.len(), 1);
        assert_eq!(class.students[0].given, [third, right, Given::LeftOut]);
        assert_eq!((class.students[1].right, class.students[1].wrong, class.students[1].left_out), (1, 1, 1));
        let counts: Vec<_> = class.questions.iter().map(|q| (q.right, q.wrong, q.left_out)).collect();
        assert_eq!(counts, [(3, 1, 0), (2, 2, 0), (2, 0, 2)]);
        assert_eq!(class.mistakes, [(Mistake::ThirdForSixth, 3), (Mistake::Octave, 1)]);
        assert_eq!(class.questions[1].mistakes, [(Mistake::ThirdForSixth, 2), (Mistake::Octave, 1)]);
        assert_eq!(class.questions[0].pace, Some(Pace::Fluent));
        assert_eq!(class.pace, Some(Pace::Fluent));
    }

    #[test]
    fn no_code_no_class() {
        let class = Class::of(Fingerprint::of(b"x"), &Found::default());
        assert!(class.students.is_empty() && class.questions.is_empty() && class.pace.is_none());
    }
}
