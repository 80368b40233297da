//! The code a student gives to a teacher, and what a teacher reads out of many.

use crate::state::practise::run::{Run, Verdict};
use crate::words;
use crookwise_practice::results::{
    ByPage, Class, Confusion, Fingerprint, Found, Given, Outcome, Term, find_all,
};
use crookwise_practice::{Exercise, Pace, Question};

/// The code of an exercise that is over. Its tag is made of the times, so that two students with equal results stay two
/// and the same run has the same code whenever it is looked at.
#[must_use]
pub fn code(run: &Run, name: &str) -> String {
    let tag = run.done.iter().fold(0_u32, |tag, done| tag.wrapping_mul(31).wrapping_add(done.ms));
    let given = run.questions.iter().zip(&run.done).map(|(question, done)| {
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

/// What was found in a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Read {
    /// All codes and all that is damaged.
    pub found: Found,
    /// The class, for the exercise most codes belong to.
    pub class: Class,
    /// Whether that is the exercise which is set.
    pub same_exercise: bool,
    /// The questions of that exercise; none where another one was worked, which nobody here knows.
    pub questions: Vec<Question>,
    /// The class by staff and by clef, where the questions are known.
    pub page: ByPage,
    /// What was taken for what, where the questions are known.
    pub confusions: Vec<Confusion>,
    /// Who did what in one exercise after the other.
    pub term: Term,
}

impl Read {
    /// How many codes were found, in a sentence.
    #[must_use]
    pub fn sentence(&self) -> String {
        let count = self.class.students.len();
        if self.same_exercise {
            words::results::found_of_the_set(count)
        } else {
            words::results::found_of_another(count)
        }
    }
}

/// Reads a whole mail or chat.
#[must_use]
pub fn read(text: &str, set: &Exercise) -> Read {
    let found = find_all(text);
    let own = [Fingerprint::of_exercise(set), Fingerprint::of_settings(set)];
    let other = found.commonest().filter(|commonest| !own.contains(commonest));
    let class = match other {
        Some(other) => Class::of(other, &found),
        None => Class::of_exercise(set, &found),
    };
    let known = other.is_none() && !class.students.is_empty();
    let questions = if known { set.questions().unwrap_or_default() } else { Vec::new() };
    let (page, term) = (class.by_page(&questions), Term::of(&found));
    let confusions = class.confusions(&questions);
    Read { class, same_exercise: other.is_none(), found, questions, page, confusions, term }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::practise::setting;

    #[test]
    fn results_about_different_pages_are_told_apart_and_old_codes_still_count() {
        let about = |notes: &str| {
            let link = format!("/read?staff=Corni+in+Es&notes={notes}");
            let Ok(Some(crookwise_share::Link::Read(page))) = crookwise_share::Link::decode(&link) else {
                panic!("{link}")
            };
            let mut exercise = setting::first(3);
            exercise.staves.clear();
            exercise.keys.clear();
            exercise.questions = 3;
            exercise.material = crookwise_practice::Material::Passage(Box::new(page.passage));
            exercise
        };
        let (mine, other) = (about("C5.E5.G5"), about("C5.E5.D5"));
        let done = |exercise: &Exercise| {
            let mut run = Run::begin(exercise.clone()).unwrap();
            run.stop();
            code(&run, "Ann")
        };
        let found = read(&done(&mine), &mine);
        assert!(found.same_exercise && found.class.students.len() == 1);
        assert!(!read(&done(&other), &mine).same_exercise);
        // A code of before, whose number knew the settings only.
        let before =
            Outcome::new(Fingerprint::of(&mine.pack()), 1, vec![Given::LeftOut], "Bo").unwrap().code();
        let found = read(&format!("{} {before}", done(&mine)), &mine);
        assert!(found.same_exercise && found.class.students.len() == 2, "{found:?}");
    }

    #[test]
    fn what_a_student_sends_a_teacher_reads() {
        let mut run = Run::begin(setting::first(3)).unwrap();
        let right = run.question().unwrap().right.clone();
        run.answer(Some(right), 2_000);
        run.go_on();
        run.answer(None, 500);
        run.stop();
        let text = format!("Hello,\nhere is mine: {}\nBest", code(&run, "Ann"));
        let read = read(&text, &run.exercise);
        assert!(read.same_exercise);
        let student = &read.class.students[0];
        assert_eq!(
            (student.name.as_deref(), student.tally.right, student.tally.left_out),
            (Some("Ann"), 1, 9)
        );
        assert_eq!(student.given[0], Given::Right(Pace::Fluent));
        assert!(read.class.all.missed.is_empty());
        // The exercise is known, so its staves are.
        assert_eq!(read.questions, run.questions);
        assert_eq!(read.page.staves.iter().map(|(_, tally)| tally.asked()).sum::<u32>(), 10);
        assert_eq!((read.term.exercises.len(), read.term.lines.len()), (1, 1));
        let unknown = super::read(&text, &setting::first(4));
        assert!(!unknown.same_exercise && unknown.questions.is_empty() && unknown.page.staves.is_empty());
    }
}
