//! What a class took for what, where the questions are known: a label for another, a clef for another, one answer for
//! another. Every wrong answer is in one line and counted there once.

use super::class::Class;
use super::given::{Given, Missed};
use super::groups::AskedOn;
use super::taken::taken_for;
use crate::answer::Answer;
use crate::kind::Kind;
use crate::question::Question;
use crookwise_theory::Clef;
use crookwise_theory::order::in_order;

/// Something taken for something else.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Confusion {
    /// What stood there, or was right.
    pub sight: Sight,
    /// What it was taken for.
    pub taken: Taken,
    /// The first question where that happened, counted from 0.
    pub question: usize,
    /// How many answers.
    pub times: u32,
    /// Of how many students.
    pub students: u32,
}

/// What stood on the page, or was right.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Sight {
    /// A staff by its label.
    Staff(AskedOn),
    /// The clef of a staff.
    Clef(Clef),
    /// The right answer to a question that is not about reading a label.
    Answer(Kind, Answer),
    /// A page that is asked about as a whole.
    Page(Kind),
}

/// What something was taken for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Taken {
    /// Another label.
    Label(String),
    /// Another clef.
    Clef(Clef),
    /// Another answer.
    Answer(Answer),
    /// For nothing that has a name of its own: the mistakes, or how far it was off, and then the label on which it would
    /// have been right.
    Missed(Missed, Option<String>),
}

impl Class {
    /// What was taken for what, the commonest first. `questions` are those of the exercise.
    #[must_use]
    pub fn confusions(&self, questions: &[Question]) -> Vec<Confusion> {
        let mut found: Vec<(Confusion, Vec<usize>)> = Vec::new();
        for (number, question) in questions.iter().enumerate() {
            for (student, row) in self.students.iter().enumerate() {
                let Some(Given::Wrong(_, missed)) = row.given.get(number) else { continue };
                let (sight, taken) = taken_for(question, missed);
                let same = |(one, _): &&mut (Confusion, Vec<usize>)| one.sight == sight && one.taken == taken;
                match found.iter_mut().find(same) {
                    Some((known, students)) => {
                        known.times += 1;
                        if !students.contains(&student) {
                            known.students += 1;
                            students.push(student);
                        }
                    }
                    None => {
                        let one = Confusion { sight, taken, question: number, times: 1, students: 1 };
                        found.push((one, vec![student]));
                    }
                }
            }
        }
        let found: Vec<Confusion> = found.into_iter().map(|(confusion, _)| confusion).collect();
        in_order(found, |one: &Confusion| (core::cmp::Reverse((one.times, one.students)), one.question))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exercise::{AskedStaff, Exercise, Marking};
    use crate::mistake::Mistake;
    use crate::off::Off;
    use crate::pace::Pace;
    use crate::question::Spot;
    use crate::results::{Explained, Fingerprint, Outcome, find_all};
    use crookwise_theory::{Degree, Interval, Production};

    fn exercise(kind: Kind, labels: &[&str]) -> Exercise {
        let staves = labels.iter().map(|label| AskedStaff::of(label)).collect();
        Exercise { kinds: vec![kind], staves, questions: 12, seed: 5, ..Exercise::default() }
    }

    /// What a student answers; `None` is right.
    type Answers<'a> = dyn Fn(&Question) -> Option<Answer> + 'a;

    /// What comes back from codes of students who answer so.
    fn confused(exercise: &Exercise, students: &[&Answers<'_>]) -> (Class, Vec<Confusion>) {
        let questions = exercise.questions().unwrap();
        let own = Fingerprint::of_exercise(exercise);
        let codes: Vec<String> = students
            .iter()
            .zip(1..)
            .map(|(answers, tag)| {
                let given = |question: &Question| {
                    let answer = answers(question).unwrap_or_else(|| question.right.clone());
                    Given::of(
                        Pace::Steady,
                        &question.mark(&answer, Marking::default()),
                        question.off(&answer),
                    )
                };
                Outcome::new(own, tag, questions.iter().map(given).collect(), "").unwrap().code()
            })
            .collect();
        let class = Class::of_exercise(exercise, &find_all(&codes.join("\n")));
        let confusions = class.confusions(&questions);
        // Every wrong answer is in one line.
        assert_eq!(confusions.iter().map(|one| one.times).sum::<u32>(), class.all.wrong);
        (class, confusions)
    }

    /// "Corni in Es: Corni in E, 12 by 2".
    fn lines(confusions: &[Confusion]) -> Vec<String> {
        let line = |one: &Confusion| {
            let sight = match &one.sight {
                Sight::Staff(staff) => staff.label.clone(),
                Sight::Clef(clef) => clef.to_string(),
                Sight::Answer(kind, right) => format!("{} {right}", kind.id()),
                Sight::Page(kind) => kind.id().to_owned(),
            };
            let taken = match &one.taken {
                Taken::Label(label) => label.clone(),
                Taken::Clef(clef) => clef.to_string(),
                Taken::Answer(answer) => answer.to_string(),
                Taken::Missed(missed, like) => format!("{:?} {like:?}", missed.named),
            };
            format!("{sight}: {taken}, {} by {}", one.times, one.students)
        };
        confusions.iter().map(line).collect()
    }

    fn moved(question: &Question, by: Interval) -> Option<Answer> {
        match question.right {
            Answer::Note(note) => Some(Answer::Note(note + by)),
            _ => None,
        }
    }

    #[test]
    fn a_label_that_was_read_as_another_is_told_with_both() {
        let exercise = exercise(Kind::Sounds, &["Corni in Es", "Clarinetti in A"]);
        let on = |question: &Question, label: &str| question.passage.staves()[0].label == label;
        let e_for_es = |question: &Question| {
            on(question, "Corni in Es").then(|| moved(question, Interval::new(0, 1)))?
        };
        let other = |question: &Question| {
            on(question, "Clarinetti in A").then(|| moved(question, Interval::new(1, 1)))?
        };
        let (_, confusions) = confused(&exercise, &[&e_for_es, &e_for_es, &other]);
        assert_eq!(
            lines(&confusions),
            ["Corni in Es: Corni in E, 12 by 2", "Clarinetti in A: Clarinetti in B, 6 by 1"]
        );
    }

    #[test]
    fn a_mistake_with_a_name_is_in_one_line_however_far_it_leads() {
        // Two crooks in one pair: as printed, the notes are off by another interval on each.
        let mut exercise = exercise(Kind::Players, &["Corno I in B alto, Corno II in G"]);
        exercise.staves[0].pair = true;
        exercise.kinds.push(Kind::Sounds);
        let printed = |question: &Question| {
            let at =
                |player: usize| Some(crate::ask::note(&question.passage, Spot { player, ..question.at })?.0);
            match question.right {
                Answer::Note(_) => at(question.at.player).map(Answer::Note),
                _ => Some(Answer::Notes(vec![at(0)?, at(1)?])),
            }
        };
        let (_, confusions) = confused(&exercise, &[&printed]);
        let lines = lines(&confusions);
        let named: Vec<&str> =
            lines.iter().filter_map(|line| line.split_once(", ").map(|(head, _)| head)).collect();
        for (at, line) in named.iter().enumerate() {
            assert!(!named[..at].contains(line), "{lines:#?}");
        }
        assert!(lines.iter().any(|line| line.contains("One(NotTransposed)")), "{lines:#?}");
    }

    #[test]
    fn what_must_be_written_is_read_the_other_way() {
        let exercise = exercise(Kind::Writes, &["Corni in E"]);
        let (_, confusions) = confused(&exercise, &[&|question| moved(question, Interval::new(0, 1))]);
        assert_eq!(lines(&confusions)[0], "Corni in E: Corni in Es, 12 by 1");
    }

    #[test]
    fn an_octave_that_slipped_in_what_must_be_written_is_no_other_label() {
        let exercise = exercise(Kind::Writes, &["Corni in B basso"]);
        for octave in [Interval::OCTAVE, -Interval::OCTAVE] {
            let (_, confusions) = confused(&exercise, &[&|question| moved(question, octave)]);
            assert!(confusions.iter().all(|one| !matches!(one.taken, Taken::Label(_))), "{confusions:?}");
        }
    }

    #[test]
    fn a_code_that_tells_no_distance_tells_the_label_by_its_mistake() {
        let exercise = exercise(Kind::Sounds, &["Corni in Es"]);
        let questions = exercise.questions().unwrap();
        let named = Explained::OneOrBoth(Mistake::Quality, Mistake::EForEs);
        let given = vec![Given::Wrong(Pace::Slow, Missed { named, off: None }); 12];
        let own = Fingerprint::of_exercise(&exercise);
        let code = Outcome::new(own, 1, given, "").unwrap().code();
        let class = Class::of_exercise(&exercise, &find_all(&code));
        assert_eq!(lines(&class.confusions(&questions)), ["Corni in Es: Corni in E, 12 by 1"]);
    }

    #[test]
    fn the_wrong_direction_is_no_other_label_and_what_has_no_name_says_how_far() {
        let exercise = exercise(Kind::Sounds, &["Trombe in D"]);
        let wrong_way = |question: &Question| moved(question, Interval::new(-2, -4));
        let (_, confusions) = confused(&exercise, &[&wrong_way]);
        assert_eq!(lines(&confusions), ["Trombe in D: One(Direction) None, 12 by 1"]);
        let step = |question: &Question| moved(question, Interval::new(2, 3));
        let (_, confusions) = confused(&exercise, &[&step]);
        assert_eq!(lines(&confusions), ["Trombe in D: Nothing Some(\"Trombe in F\"), 12 by 1"]);
        let Taken::Missed(missed, _) = &confusions[0].taken else { panic!() };
        assert_eq!(missed.off, Some(Off::Note(Interval::new(2, 3))));
    }

    #[test]
    fn a_clef_that_was_read_as_another_is_told_with_both() {
        let exercise = exercise(Kind::Sounds, &["Viole"]);
        // What stands on a line of the alto clef, read in the treble clef.
        let treble = |question: &Question| {
            let Answer::Note(note) = question.right else { return None };
            let there = Clef::TREBLE.pitch_at(Clef::ALTO.position(note));
            Some(Answer::Note(crookwise_theory::Pitch { alter: note.alter, ..there }))
        };
        let (_, confusions) = confused(&exercise, &[&treble]);
        let told = lines(&confusions);
        assert!(told[0].starts_with(&format!("{}: {}, ", Clef::ALTO, Clef::TREBLE)), "{told:?}");
    }

    #[test]
    fn what_was_said_instead_of_a_partial_a_hand_or_a_degree_is_told() {
        let take = |kind, wrong: &Answers<'_>| {
            let (_, confusions) = confused(&exercise(kind, &["Corni in Es"]), &[wrong]);
            for one in &confusions {
                let Sight::Answer(_, right) = &one.sight else { panic!("{one:?}") };
                let question = &exercise(kind, &["Corni in Es"]).questions().unwrap()[one.question];
                assert_eq!(*right, question.right);
                assert_eq!(Some(&one.taken), wrong(question).map(Taken::Answer).as_ref(), "{one:?}");
            }
            assert!(!confusions.is_empty());
        };
        take(Kind::Partial, &|question| match question.right {
            Answer::Partial(Some(number)) => Some(Answer::Partial(Some(number + 1))),
            _ => None,
        });
        take(Kind::Made, &|question| match question.right {
            Answer::Made(Production::Open) => Some(Answer::Made(Production::ThreeQuarter)),
            _ => None,
        });
        take(Kind::Degree, &|question| match question.right {
            Answer::Degree(degree) => {
                Some(Answer::Degree(Degree { number: degree.number % 7 + 1, alter: -1 }))
            }
            _ => None,
        });
    }

    #[test]
    fn every_wrong_answer_of_every_kind_is_counted_once() {
        for kind in Kind::ALL {
            let mut exercise = Exercise {
                in_hand: Some("Horn in F".into()),
                choices: true,
                ..exercise(kind, &["Corni in Es", "Trombe in D", "Violini", "Viole"])
            };
            if kind == Kind::Players {
                exercise.staves.iter_mut().for_each(|staff| staff.pair = true);
            }
            let questions = exercise.questions().unwrap_or_else(|error| panic!("{kind:?} {error}"));
            // Whatever is offered and wrong, one after the other.
            let choose = |nth: usize| {
                move |question: &Question| {
                    let mut wrong =
                        question.choices.iter().filter(|one| !question.is_right(one, Marking::default()));
                    let column = (question.right != Answer::Column(0)).then_some(Answer::Column(0));
                    wrong.nth(nth).cloned().or(column.filter(|_| kind == Kind::WrongNote))
                }
            };
            let (class, _) = confused(&exercise, &[&choose(0), &choose(1), &choose(2)]);
            assert!(class.all.wrong > 0 || questions.iter().all(|one| one.choices.is_empty()), "{kind:?}");
        }
    }
}
