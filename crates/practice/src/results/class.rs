//! A class: by student, by question, and the mistakes of all.

use super::find::{Found, FoundCode};
use super::given::Given;
use super::outcome::{Fingerprint, Outcome};
use super::tally::Tally;
use crate::exercise::Exercise;

/// What a class did in one exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Class {
    /// The exercise.
    pub exercise: Fingerprint,
    /// The students: those with a name by rising name, then those without in the order of their codes.
    pub students: Vec<Student>,
    /// The questions, in order.
    pub questions: Vec<Tally>,
    /// All answers.
    pub all: Tally,
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
    /// The same counted.
    pub tally: Tally,
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
        let mine = Self::once_each(mine);
        let questions = mine.iter().map(|code| code.outcome.given().len()).max().unwrap_or_default();
        let mut students: Vec<Student> = mine.iter().map(|code| student(&code.outcome, questions)).collect();
        students.sort_by(|one, other| rank(one).cmp(&rank(other)));
        let names: Vec<Option<String>> = students.iter().map(|student| student.name.clone()).collect();
        for student in &mut students {
            let same = names.iter().filter(|name| name.is_some() && **name == student.name);
            student.again = same.count() > 1;
        }
        let question = |number| Tally::of(students.iter().filter_map(|student| student.given.get(number)));
        Self {
            exercise,
            questions: (0..questions).map(question).collect(),
            all: Tally::of(students.iter().flat_map(|student| &student.given)),
            students,
            others: others.into_iter().cloned().collect(),
        }
    }

    /// Codes without those of a run that is there under a name as well: the student sent it before typing the name.
    #[must_use]
    pub fn once_each<'a>(codes: impl IntoIterator<Item = &'a FoundCode>) -> Vec<&'a FoundCode> {
        let codes: Vec<&FoundCode> = codes.into_iter().collect();
        let signed = |outcome: &Outcome| {
            outcome.name().is_none() && codes.iter().any(|other| other.outcome.is_signed_run_of(outcome))
        };
        codes.iter().copied().filter(|code| !signed(&code.outcome)).collect()
    }
}

/// Those with a name come first, by their names.
fn rank(student: &Student) -> (bool, &Option<String>) {
    (student.name.is_none(), &student.name)
}

fn student(outcome: &Outcome, questions: usize) -> Student {
    let left_out = core::iter::repeat(Given::LeftOut);
    let given: Vec<Given> = outcome.given().iter().cloned().chain(left_out).take(questions).collect();
    let tally = Tally::of(&given);
    Student { name: outcome.name().map(str::to_owned), again: false, given, tally }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mistake::Mistake;
    use crate::pace::Pace;
    use crate::results::{Explained, find_all};

    #[test]
    fn a_small_class_is_counted() {
        let exercise = Fingerprint::of(b"x");
        let third = Given::wrong(Pace::VerySlow, &[Mistake::ThirdForSixth]);
        let both = Given::wrong(Pace::Fluent, &[Mistake::ThirdForSixth, Mistake::Octave]);
        let right = Given::Right(Pace::Fluent);
        let code = |tag, given: &[Given], name: &str| {
            Outcome::new(exercise, tag, given.to_vec(), name).unwrap().code()
        };
        let foreign = Outcome::new(Fingerprint::of(b"y"), 0, vec![right.clone()], "Guest").unwrap().code();
        let text = [
            code(1, &[right.clone(), third.clone(), right.clone()], ""),
            code(2, &[right.clone(), both, Given::LeftOut], "Zoe"),
            code(3, &[third.clone(), right.clone()], "Ann"),
            code(4, &[right.clone(), right.clone(), right.clone()], "Zoe"),
            foreign,
        ]
        .join(" / ");
        let class = Class::of(exercise, &find_all(&text));
        let names: Vec<_> = class.students.iter().map(|s| (s.name.as_deref(), s.again)).collect();
        assert_eq!(names, [(Some("Ann"), false), (Some("Zoe"), true), (Some("Zoe"), true), (None, false)]);
        assert_eq!(class.others.len(), 1);
        assert_eq!(class.students[0].given, [third, right, Given::LeftOut]);
        assert_eq!((class.students[1].tally.right, class.students[1].tally.wrong), (1, 1));
        let counts: Vec<_> = class.questions.iter().map(|q| (q.right, q.wrong, q.left_out)).collect();
        assert_eq!(counts, [(3, 1, 0), (2, 2, 0), (2, 0, 2)]);
        let missed =
            |tally: &Tally| tally.missed.iter().map(|one| (one.missed.named, one.count)).collect::<Vec<_>>();
        let third = Explained::One(Mistake::ThirdForSixth);
        let either = Explained::Either(Mistake::Octave, Mistake::ThirdForSixth);
        assert_eq!(missed(&class.all), [(third, 2), (either, 1)]);
        assert_eq!(missed(&class.questions[1]), [(third, 1), (either, 1)]);
        assert_eq!(class.questions[0].pace, Some(Pace::Fluent));
        assert_eq!(class.all.pace, Some(Pace::Fluent));
    }

    #[test]
    fn no_code_no_class() {
        let class = Class::of(Fingerprint::of(b"x"), &Found::default());
        assert!(class.students.is_empty() && class.questions.is_empty() && class.all == Tally::default());
    }

    #[test]
    fn a_run_sent_without_and_with_its_name_is_one() {
        let exercise = Fingerprint::of(b"x");
        let given = [Given::Right(Pace::Slow), Given::wrong(Pace::Slow, &[Mistake::Octave])];
        let code = |tag, given: &[Given], name: &str| {
            Outcome::new(exercise, tag, given.to_vec(), name).unwrap().code()
        };
        let text = [code(5, &given, ""), code(5, &given, "Ann"), code(6, &given, "")].join(" ");
        let class = Class::of(exercise, &find_all(&text));
        let names: Vec<_> = class.students.iter().map(|student| student.name.as_deref()).collect();
        assert_eq!(names, [Some("Ann"), None]);
        assert_eq!((class.all.right, class.all.wrong), (2, 2));
        // Whoever gave nothing has no times, and so no tag: two of them are two.
        let nothing = [Given::LeftOut, Given::LeftOut];
        let text = [code(0, &nothing, ""), code(0, &nothing, "Ann")].join(" ");
        assert_eq!(Class::of(exercise, &find_all(&text)).students.len(), 2);
    }
}
