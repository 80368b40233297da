//! What holds for every exercise, sensible or not: as many questions as asked for or an error with a sentence, the same
//! questions for the same seed, nothing twice in succession, choices that leave no doubt.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

mod kit;

use crookwise_practice::{Answer, Exercise, Kind, Marking, Material, NoteRange, Question};
use crookwise_score::Event;
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
        for mistake in question.choices.iter().flat_map(|one| question.mark(one, exercise.marking).explained)
        {
            prop_assert_ne!(Some(mistake.mistake), mistake.with, "{}", text);
        }
    }
    Ok(())
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
fn every_kind_gets_its_turn() {
    let exercise =
        set_exercises().into_iter().find(|exercise| exercise.kinds.len() == Kind::ALL.len()).unwrap();
    let questions = exercise.questions().unwrap();
    for kind in Kind::ALL {
        assert_eq!(questions.iter().filter(|question| question.kind == kind).count(), 2, "{kind:?}");
    }
}

/// Horns are asked what horns play: by the attacks counted in nine symphonies nine of ten notes are open ones from G3 up
/// to G5, and no more than a few are made with the hand.
#[test]
fn notes_come_as_parts_use_them() {
    let mut counts: BTreeMap<i32, u32> = BTreeMap::new();
    for seed in 0..400 {
        let exercise =
            Exercise { staves: vec![asked("Corni in Es")], questions: 1, seed, ..Exercise::default() };
        let question = &exercise.questions().unwrap()[0];
        let written = question.reading().unwrap().written.0.midi();
        *counts.entry(written).or_default() += 1;
    }
    let of = |notes: &[i32]| notes.iter().filter_map(|note| counts.get(note)).sum::<u32>();
    let open = of(&[55, 60, 64, 67, 72, 74, 76, 77, 79]);
    assert!(open > 350, "{counts:?}");
    // Counts of the table: G4 5850, C5 5743, D5 4404 of 32,131 attacks, two fifths to a half of all.
    let usual = of(&[67, 72, 74]);
    assert!((160..240).contains(&usual), "{counts:?}");
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

#[test]
fn partials_outside_the_range_are_not_asked() {
    let exercise = Exercise {
        staves: vec![asked("Corni in F"), asked("Trombe in D")],
        range: NoteRange::Partials(5, 8),
        kinds: vec![Kind::Partial],
        questions: 20,
        ..Exercise::default()
    };
    for question in exercise.questions().unwrap() {
        assert!(matches!(question.right, Answer::Partial(Some(5..=8))), "{}", question.canonical());
    }
}

/// What the score's columns hold is asked as it stands there.
#[test]
fn a_passage_is_asked_as_it_stands() {
    let mut passage = crookwise_score::Passage::of_staff("Corni in Es");
    passage.movement = Some("Eb major".parse().unwrap());
    let notes = ["C5", "D5", "E5", "G5"];
    for (column, note) in notes.iter().enumerate() {
        passage.set(0, column, 0, Event::Note(crookwise_theory::Printed(note.parse().unwrap()))).unwrap();
    }
    let exercise = Exercise {
        material: Material::Passage(Box::new(passage.clone())),
        questions: 4,
        ..Exercise::default()
    };
    let mut asked = Vec::new();
    for question in exercise.questions().unwrap() {
        assert_eq!(question.passage, passage);
        asked.push(question.at.column);
    }
    asked.sort_unstable();
    assert_eq!(asked, [0, 1, 2, 3]);
}
