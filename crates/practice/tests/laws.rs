//! What holds for every exercise, sensible or not: as many questions as asked for or an error with a sentence, the same
//! questions for the same seed, nothing twice in succession, choices that leave no doubt.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

mod kit;

use crookwise_practice::{Answer, Exercise, Kind, Marking, Material, Question};
use crookwise_score::{Event, Staff};
use kit::{any_exercise, any_passage, asked, likely_exercise, set_exercises};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{Config, RngSeed, TestRunner};
use std::collections::BTreeMap;

const CASES: u32 = 128;

fn texts(questions: &[Question]) -> Vec<String> {
    questions.iter().map(Question::canonical).collect()
}

/// All that must hold for the questions of an exercise.
fn sound(exercise: &Exercise) -> Result<(), TestCaseError> {
    let questions = match exercise.questions() {
        Ok(questions) => questions,
        Err(error) => {
            let sentence = error.to_string();
            prop_assert!(sentence.len() > 15 && !sentence.contains("  "), "{error:?}: {sentence}");
            return Ok(());
        }
    };
    prop_assert_eq!(questions.len(), usize::from(exercise.questions));
    for pair in questions.windows(2) {
        prop_assert_ne!(pair[0].canonical(), pair[1].canonical());
    }
    for question in &questions {
        prop_assert!(exercise.kinds.contains(&question.kind));
        let text = question.canonical();
        let mark = question.mark(&question.right, exercise.marking);
        prop_assert!(mark.right && mark.explained.is_empty(), "{text}");
        let strict = Marking::default();
        for also in &question.also {
            prop_assert!(question.mark(also, strict).right, "{text}{also}");
            prop_assert_ne!(also, &question.right);
        }
        choices(question, exercise.marking)?;
        prop_assert!(!prints_its_answer(question), "{text}");
        for mistake in question.choices.iter().flat_map(|one| question.mark(one, exercise.marking).explained)
        {
            prop_assert_ne!(Some(mistake.mistake), mistake.with, "{}", text);
        }
    }
    Ok(())
}

/// Whether what must be written stands in the part of another player of the staff.
fn prints_its_answer(question: &Question) -> bool {
    let at = question.at;
    let players = question.passage.staves().get(at.staff).map_or(0, Staff::players);
    question.kind == Kind::Writes
        && (0..players).any(|player| match question.passage.event(at.staff, at.column, player) {
            Some(Event::Note(printed)) => question.right == Answer::Note(printed.0),
            _ => false,
        })
}

/// The right answer stands among the choices once, no other choice is right, and no two are alike.
fn choices(question: &Question, marking: Marking) -> Result<(), TestCaseError> {
    let text = question.canonical();
    if question.choices.is_empty() {
        return Ok(());
    }
    prop_assert!((2..=4).contains(&question.choices.len()), "{text}");
    let right: Vec<&Answer> = question.choices.iter().filter(|one| **one == question.right).collect();
    prop_assert_eq!(right.len(), 1, "{}", text);
    let accepted = question.choices.iter().filter(|one| question.mark(one, marking).right).count();
    prop_assert_eq!(accepted, 1, "{}", text);
    for (at, one) in question.choices.iter().enumerate() {
        prop_assert!(!question.choices[at + 1..].contains(one), "{text}");
    }
    Ok(())
}

fn config() -> Config {
    Config { cases: CASES, rng_seed: RngSeed::Fixed(4), failure_persistence: None, ..Config::default() }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn any_exercise_gives_its_questions_or_an_error(exercise in any_exercise()) {
        sound(&exercise)?;
    }

    #[test]
    fn likely_exercises_give_their_questions_or_an_error(exercise in likely_exercise()) {
        sound(&exercise)?;
    }

    #[test]
    fn any_passage_gives_its_questions_or_an_error(exercise in likely_exercise(), passage in any_passage()) {
        sound(&Exercise { material: Material::Passage(Box::new(passage)), ..exercise })?;
    }

    #[test]
    fn any_answer_to_any_question_is_marked(
        exercise in likely_exercise(), step in -40i32..60, alter in any::<i32>(), number in any::<u8>(),
    ) {
        let note = crookwise_theory::Pitch::from_diatonic(step, alter);
        for question in exercise.questions().into_iter().flatten() {
            for answer in [
                Answer::Note(note),
                Answer::Name(note.tonic()),
                Answer::Key(number),
                Answer::Notes(vec![note, note]),
                Answer::Notes(Vec::new()),
                Answer::Partial(Some(number)),
                Answer::Column(number),
                Answer::Staff(number),
            ] {
                let mark = question.mark(&answer, exercise.marking);
                prop_assert!(!mark.right || mark.explained.is_empty());
            }
        }
    }
}

/// The laws above would hold of nothing at all: most likely exercises can be made, and of all kinds.
#[test]
fn most_likely_exercises_can_be_made() {
    let mut runner = TestRunner::deterministic();
    let mut kinds: BTreeMap<Kind, u32> = BTreeMap::new();
    let mut made = 0;
    for _ in 0..300 {
        let exercise = likely_exercise().new_tree(&mut runner).unwrap().current();
        if exercise.questions().is_ok() {
            made += 1;
            exercise.kinds.iter().for_each(|kind| *kinds.entry(*kind).or_default() += 1);
        }
    }
    assert!(made > 150, "{made} of 300: {kinds:?}");
    assert_eq!(kinds.len(), Kind::ALL.len(), "{kinds:?}");
}

#[test]
fn what_a_teacher_sets_gives_its_questions() {
    for exercise in set_exercises() {
        for seed in 0..12 {
            let exercise = Exercise { seed, ..exercise.clone() };
            assert!(exercise.questions().is_ok(), "{exercise:?}: {:?}", exercise.questions().err());
            sound(&exercise).unwrap();
            let choices =
                Exercise { choices: true, marking: Marking { enharmonics: true, octave: false }, ..exercise };
            sound(&choices).unwrap();
        }
    }
}

#[test]
fn the_same_seed_gives_the_same_and_another_others() {
    for exercise in set_exercises() {
        let of = |seed| texts(&Exercise { seed, ..exercise.clone() }.questions().unwrap());
        assert_eq!(of(5), of(5));
        let seeds: Vec<Vec<String>> = (0..20).map(of).collect();
        for (at, one) in seeds.iter().enumerate() {
            assert!(!seeds[at + 1..].contains(one), "{exercise:?}");
        }
    }
}

#[test]
fn a_phrase_is_a_pattern_of_the_trade() {
    for seed in 0..40 {
        let exercise = Exercise {
            staves: vec![asked("Corni in D")],
            material: Material::Phrases(Vec::new()),
            questions: 4,
            seed,
            ..Exercise::default()
        };
        for question in exercise.questions().unwrap() {
            let columns = question.passage.columns().len();
            assert!((3..=8).contains(&columns), "{}", question.canonical());
            assert!(
                (0..columns)
                    .all(|column| matches!(question.passage.event(0, column, 0), Some(Event::Note(_))))
            );
        }
    }
}
