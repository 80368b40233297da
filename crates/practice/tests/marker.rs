//! The crate's marking against a second marker, over all kinds and every answer a musician could give.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

mod second;

use crookwise_practice::{
    Answer, AskedStaff, ChordName, Exercise, ExerciseError, Kind, Marking, Material, Question, Which,
};
use crookwise_score::{Change, ChangeTo, Choice, Quality, Role};
use crookwise_theory::tables::{HORN_CROOKS, INSTRUMENTS, TRUMPET_CROOKS};
use crookwise_theory::{Clef, Degree, Pitch, Production, Step, Tonic, Transposition};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngSeed};
use second::{LABELS, exercise, exercises, labelled, pair, passage, staff};

/// Every answer that could be given to a kind of question.
fn every_answer(question: &Question) -> Vec<Answer> {
    let names = || Step::ALL.into_iter().flat_map(|step| (-2..=2).map(move |alter| Tonic::new(step, alter)));
    let notes =
        || names().flat_map(|name| (0..9).map(move |octave| Pitch::new(name.step, name.alter, octave)));
    let numbers = |count: usize| (0..count).map(|number| number as u8);
    match question.kind {
        Kind::Sounds => {
            let keys = (0..128).map(Answer::Key);
            notes().map(Answer::Note).chain(names().map(Answer::Name)).chain(keys).collect()
        }
        Kind::Writes | Kind::InHand => notes().map(Answer::Note).collect(),
        Kind::Partial => {
            (1..=18).map(|number| Answer::Partial(Some(number))).chain([Answer::Partial(None)]).collect()
        }
        Kind::Made => Production::ALL.map(Answer::Made).into(),
        Kind::Degree => (1..=7)
            .flat_map(|number| (-2..=2).map(move |alter| Answer::Degree(Degree { number, alter })))
            .collect(),
        Kind::Clef => Clef::ALL
            .into_iter()
            .flat_map(|clef| (-2..=2).map(move |octaves| (clef, octaves)))
            .flat_map(|(clef, octaves)| (-7..=7).map(move |fifths| Answer::Clef { clef, octaves, fifths }))
            .collect(),
        Kind::Chord => {
            let qualities = [
                Quality::Major,
                Quality::Minor,
                Quality::Diminished,
                Quality::DominantSeventh,
                Quality::MajorSeventh,
                Quality::MinorSeventh,
                Quality::HalfDiminishedSeventh,
            ];
            let basses = [Role::Root, Role::Third, Role::Fifth, Role::Seventh];
            names()
                .flat_map(|root| qualities.map(|quality| (root, quality)))
                .flat_map(|(root, quality)| {
                    basses.map(|bass| Answer::Chord(ChordName { root, quality, bass }))
                })
                .collect()
        }
        Kind::Label => INSTRUMENTS
            .iter()
            .flat_map(|instrument| {
                let crooks = HORN_CROOKS.iter().chain(&TRUMPET_CROOKS).map(|crook| crook.transposition);
                crooks.map(move |transposition| Answer::Label(Choice { instrument, transposition }))
            })
            .collect(),
        Kind::WrongNote => numbers(question.passage.columns().len()).map(Answer::Column).collect(),
        Kind::WrongStaff => numbers(question.passage.staves().len()).map(Answer::Staff).collect(),
        Kind::Natural => [Which::First, Which::Second].map(Answer::Which).into(),
        Kind::Players => {
            let Answer::Notes(right) = &question.right else { panic!("{question:?}") };
            let near: Vec<Pitch> = notes()
                .filter(|note| right.iter().any(|own| (own.midi() - note.midi()).abs() <= 1))
                .collect();
            let both = near.iter().flat_map(|one| near.iter().map(move |two| vec![*one, *two]));
            near.iter().map(|note| vec![*note]).chain(both).map(Answer::Notes).collect()
        }
    }
}

#[test]
fn two_markers_agree_on_every_answer() {
    let mut questions = [0; 13];
    let mut judged = 0_u64;
    for exercise in exercises(4) {
        let Ok(drawn) = exercise.questions() else { continue };
        if exercise.kinds == [Kind::Label] {
            continue;
        }
        for question in drawn {
            questions[usize::from(question.kind.code()) - 1] += 1;
            let mut rights = 0;
            for answer in every_answer(&question) {
                let Some(right) = second::oracle::right(&question, &answer, exercise.marking) else {
                    continue;
                };
                judged += 1;
                rights += usize::from(right);
                let found = question.is_right(&answer, exercise.marking);
                assert_eq!(found, right, "{answer} under {:?}\n{}", exercise.marking, question.canonical());
            }
            assert!(rights > 0, "{}", question.canonical());
        }
    }
    let total: usize = questions.iter().sum();
    assert!(total > 4000 && judged > 1_000_000, "{questions:?} {judged}");
    let few: Vec<Kind> =
        Kind::ALL.into_iter().filter(|kind| questions[usize::from(kind.code()) - 1] < 100).collect();
    assert_eq!(few, [Kind::Label]);
}

/// A change of crook before some column, for one player or for both.
fn any_change() -> impl Strategy<Value = Change> {
    let to = prop::sample::select(vec!["Corni in D", "Corni in F", "Corni in B basso", "Corni in Es"]);
    let player = prop::sample::select(vec![None, Some(0), Some(1)]);
    (0_usize..6, player, to).prop_map(|(column, player, to)| Change {
        column,
        player,
        to: ChangeTo::Label(to.into()),
    })
}

proptest! {
    #![proptest_config(Config {
        cases: 48, rng_seed: RngSeed::Fixed(4), failure_persistence: None, ..Config::default()
    })]

    /// Each player has his own crook from his own change on.
    #[test]
    fn two_markers_agree_where_crooks_change_for_one_player(
        changes in prop::collection::vec(any_change(), 1..5),
        kind in prop::sample::select(vec![Kind::Sounds, Kind::Writes, Kind::InHand, Kind::Players]),
        seed in 1_u32..1000,
    ) {
        let mut page = passage(&pair("Corni in Es"), "Eb major", "G5+C5 F5+G4 E5+C5 D5+G4 C5+E4 G5+E5");
        for change in changes {
            page.set_change(0, change).unwrap();
        }
        let own = exercise(kind, Vec::new(), seed);
        let own = Exercise { material: Material::Passage(Box::new(page)), questions: 6, ..own };
        let marking = own.marking;
        for question in own.questions().unwrap() {
            let mut rights = 0;
            for answer in every_answer(&question) {
                let Some(right) = second::oracle::right(&question, &answer, marking) else { continue };
                rights += usize::from(right);
                prop_assert_eq!(question.is_right(&answer, marking), right, "{}\n{}", answer, question.canonical());
            }
            prop_assert!(rights > 0, "{}", question.canonical());
        }
    }
}

#[test]
fn labels_in_five_languages_mean_the_same_staff() {
    for label in ["Corni in Es", "Trombe in D", "Clarinetti in B", "Corno inglese", "Hörner in tief H"] {
        let mut seen = Vec::new();
        for seed in 1..=4 {
            let mut own = exercise(Kind::Label, vec![staff(label)], seed);
            own.questions = 4;
            own.in_hand = None;
            for question in own.questions().unwrap() {
                let mut rights = 0;
                for answer in every_answer(&question) {
                    let right = second::oracle::right(&question, &answer, Marking::default()).unwrap();
                    rights += usize::from(right);
                    assert_eq!(
                        question.is_right(&answer, Marking::default()),
                        right,
                        "{answer}\n{}",
                        question.canonical()
                    );
                }
                assert!(rights > 0, "{}", question.canonical());
                let shown = question.passage.staves()[0].label.clone();
                if !seen.contains(&shown) {
                    seen.push(shown);
                }
            }
        }
        assert!(seen.len() > 2, "{seen:?}");
    }
}

#[test]
fn the_right_answer_and_only_one_choice_is_right() {
    for exercise in exercises(2) {
        let questions = match exercise.questions() {
            Ok(questions) => questions,
            Err(ExerciseError::Nothing { .. } | ExerciseError::TooFew { .. }) => continue,
            Err(error) => panic!("{error}"),
        };
        for question in questions {
            assert!(question.mark(&question.right, exercise.marking).right);
            for also in &question.also {
                assert!(question.mark(also, exercise.marking).right);
            }
            let right: Vec<&Answer> = question
                .choices
                .iter()
                .filter(|choice| question.is_right(choice, exercise.marking))
                .collect();
            if question.choices.is_empty() {
                continue;
            }
            assert_eq!(right, [&question.right], "{}", question.canonical());
            assert!((3..=4).contains(&question.choices.len()), "{}", question.canonical());
            for (place, choice) in question.choices.iter().enumerate() {
                assert!(!question.choices[..place].contains(choice), "{}", question.canonical());
            }
        }
    }
}

#[test]
fn the_kit_knows_its_labels() {
    use crookwise_theory::label::{DecodeOptions, decode};
    for (label, id, crooks) in LABELS {
        let decoded = decode(label, DecodeOptions::default());
        for (staff, crook) in decoded.staves.iter().zip(crooks) {
            assert_eq!(staff.instrument.id, id, "{label}");
            assert_eq!(staff.transposition, Transposition::new(crook.0, crook.1), "{label}");
        }
        assert_eq!(decoded.staves.len(), crooks.len(), "{label}");
        assert_eq!(labelled(label).1, id);
    }
}

/// Widor's sign for a note and the ways of making it that the sign stands for: his `+` closes the bell by two thirds to
/// three quarters. *Initiation musicale*, p. 34.
fn widor(sign: &str) -> Option<Production> {
    match sign {
        "open" => Some(Production::Open),
        "½" => Some(Production::Half),
        "+" => Some(Production::ThreeQuarter),
        _ => None,
    }
}

#[test]
fn where_sources_differ_each_is_right() {
    let file = format!("{}/../theory/data/handhorn.csv", env!("CARGO_MANIFEST_DIR"));
    let mut asked = 0;
    for row in csv::Reader::from_path(file).unwrap().records() {
        let row = row.unwrap();
        let Some(way) = widor(&row[2]) else { continue };
        let note = row[1].rsplit('/').next().unwrap().replace('♭', "b").replace('♯', "#");
        let page = passage(&staff("Corni in F"), "F major", &note);
        let own = exercise(Kind::Made, Vec::new(), 1);
        let own = Exercise { material: Material::Passage(Box::new(page)), questions: 1, ..own };
        let question = own.questions().unwrap().remove(0);
        assert!(question.is_right(&Answer::Made(way), Marking::default()), "{note} {way:?}");
        asked += 1;
    }
    assert!(asked >= 25, "{asked}");
}

#[test]
fn a_clef_is_said_to_be_the_wrong_way_only_where_it_is() {
    let (mut judged, mut old) = (0, 0);
    let mut untrue: Vec<String> = Vec::new();
    // Where octaves do not count, the octave that was given says nothing.
    let judged_in_octaves = |own: &Exercise| own.kinds[0] == Kind::Clef && own.marking.octave;
    for exercise in exercises(2).into_iter().filter(judged_in_octaves) {
        for question in exercise.questions().into_iter().flatten() {
            for answer in every_answer(&question) {
                for explanation in question.mark(&answer, exercise.marking).explained {
                    let Some(holds) = second::truth::is_true_of_clef(&question, &answer, explanation) else {
                        continue;
                    };
                    judged += 1;
                    old += usize::from(second::oracle::Staff::at(&question, question.at).bass != (0, 0));
                    if !holds {
                        untrue.push(format!("{explanation:?} of {answer}\n{}", question.canonical()));
                    }
                }
            }
        }
    }
    untrue.truncate(4);
    assert!(untrue.is_empty(), "{untrue:#?}");
    assert!(judged > 100 && old > 10, "{judged} {old}");
}

#[test]
fn a_mistake_is_named_only_where_it_is_true_of_the_answer() {
    let (mut named, mut judged) = (0, 0);
    let mut untrue: Vec<String> = Vec::new();
    for exercise in exercises(1) {
        if !matches!(exercise.kinds[0], Kind::Sounds | Kind::Writes | Kind::InHand) {
            continue;
        }
        for question in exercise.questions().into_iter().flatten() {
            for answer in every_answer(&question) {
                let Answer::Note(note) = answer else { continue };
                for explanation in question.mark(&answer, exercise.marking).explained {
                    named += 1;
                    // Where octaves do not count, any of them may have been meant.
                    let meant = if exercise.marking.octave { 0..=0 } else { -9..=9 };
                    let spelled = exercise.marking.enharmonics;
                    let mut all = meant.map(|octaves| {
                        let note = Pitch { octave: note.octave + octaves, ..note };
                        second::truth::is_true(&question, note, explanation, spelled)
                    });
                    judged += usize::from(all.clone().any(|one| one.is_some()));
                    if all.all(|one| one == Some(false)) {
                        untrue.push(format!("{explanation:?} of {answer}\n{}", question.canonical()));
                    }
                }
            }
        }
    }
    untrue.sort();
    let some: Vec<&String> = untrue.iter().step_by(1 + untrue.len() / 12).collect();
    assert!(untrue.is_empty(), "{} of {judged}:\n{some:#?}", untrue.len());
    assert!(judged > 10_000 && judged * 10 > named * 8, "{judged} of {named}");
}

/// Where a label names more crooks than players read from the staff, which of them is read stands beside it.
#[test]
fn a_label_of_two_crooks_says_which_of_them_is_asked() {
    let shown = |label: &str| {
        let staves = vec![AskedStaff::of(label)];
        let exercise = Exercise { kinds: vec![Kind::Sounds], staves, questions: 1, ..Exercise::default() };
        let question = exercise.questions().unwrap().remove(0);
        question.shown(0).iter().map(ToString::to_string).collect::<Vec<_>>()
    };
    assert_eq!(shown("2 Corni in Es; Corno III in B basso"), ["Horn in E-flat"]);
    assert_eq!(shown("2 Corni in Es"), [""; 0]);
}
