//! What the third edition asks as music has it, and the second did not always, and likewise the fourth: each claim is counted over many seeds, and
//! holds of the one as surely as it fails of the other.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

mod second;

use crookwise_practice::{Answer, AskedStaff, Edition, Exercise, Kind, Material, Question, Style};
use crookwise_score::{Event, Quality, ResolvedStaff, Role, Settings};
use crookwise_theory::label::DecodeOptions;
use crookwise_theory::{Clef, Mode, Tonic};
use second::{exercise, of_seeds, pair, staff};

/// How many questions of the second edition and of the third are not as they are wanted.
fn unlike(own: &Exercise, seeds: u32, wanted: &dyn Fn(&Question) -> bool) -> [usize; 2] {
    [Edition::Second, Edition::Third].map(|edition| {
        let questions = of_seeds(&Exercise { edition, ..own.clone() }, seeds);
        assert!(questions.len() >= 100, "{}", questions.len());
        questions.iter().filter(|question| !wanted(question)).count()
    })
}

fn only_before([second, third]: [usize; 2]) {
    assert!(second > 0 && third == 0, "{second} in the second edition, {third} in the third");
}

/// What is written as horn fifths sounds as anything where the crooks differ, and "a 2" is no unison.
#[test]
fn two_crooks_of_a_pair_make_consonances() {
    let own = exercise(Kind::Players, vec![pair("Corno I in B alto, Corno II in G")], 1);
    only_before(unlike(&own, 20, &|question| {
        let Answer::Notes(notes) = &question.right else { return false };
        let [upper, lower] = notes[..] else { return false };
        let together = matches!(question.passage.event(0, 0, 0), Some(Event::Note(_)))
            && question.passage.event(0, 0, 0) == question.passage.event(0, 0, 1);
        let apart = upper.midi() - lower.midi();
        !together && (3..=16).contains(&apart) && [0, 3, 4, 7, 8, 9].contains(&(apart % 12))
    }));
}

#[test]
fn notes_stand_where_their_clef_and_their_instrument_have_them() {
    let tenor = Settings { clef: Some(Clef::TENOR), ..Settings::default() };
    let trombone = AskedStaff { settings: tenor, ..staff("Trombone tenore") };
    let stands = |question: &Question| {
        let resolved = ResolvedStaff::of(&question.passage, 0, DecodeOptions::default());
        let Some(Event::Note(printed)) = question.passage.event(0, 0, 0) else { panic!("no note") };
        resolved.place_at(0, 0).unwrap().habits.clef.position(printed.0).0
    };
    for (asked, low, high) in [(trombone, -2, 12), (staff("Viole"), -3, 12), (staff("Contrabbasso"), -5, 12)]
    {
        let own = exercise(Kind::Sounds, vec![asked], 1);
        only_before(unlike(&own, 20, &|question| (low..=high).contains(&stands(question))));
    }
    // Written D6 is the highest note of the cor anglais in an orchestra.
    let own = exercise(Kind::Sounds, vec![staff("Corno inglese")], 1);
    only_before(unlike(&own, 20, &|question| {
        let Some(Event::Note(printed)) = question.passage.event(0, 0, 0) else { return false };
        printed.0.midi() <= 86
    }));
}

/// The diminished triad as a sixth chord; six-four chords of the first, fourth and fifth degree alone.
#[test]
fn triads_lie_on_the_members_that_they_lie_on() {
    let staves = ["Corni in C", "Violini", "Viole", "Violoncelli"].map(staff).to_vec();
    let own = exercise(Kind::Chord, staves, 1);
    only_before(unlike(&own, 30, &|question| {
        let Answer::Chord(chord) = question.right else { return false };
        match (chord.quality, chord.bass) {
            (Quality::Diminished, bass) => bass == Role::Third,
            (Quality::Major | Quality::Minor, Role::Fifth) => [0, 5, 7].contains(&chord.root.pitch_class()),
            _ => true,
        }
    }));
}

/// In the key of its crook a horn's note has the degree that it is written as.
#[test]
fn the_degree_of_a_horn_is_asked_in_other_keys_too() {
    let own = exercise(Kind::Degree, vec![staff("Corni in Es")], 1);
    let keys = |edition| {
        let questions = of_seeds(&Exercise { edition, ..own.clone() }, 20);
        let mut keys: Vec<(Tonic, Mode)> = Vec::new();
        for key in questions.iter().filter_map(|question| question.passage.movement) {
            if !keys.contains(&(key.tonic, key.mode)) {
                keys.push((key.tonic, key.mode));
            }
        }
        keys
    };
    assert_eq!(keys(Edition::Second).len(), 1);
    let names: Vec<String> = keys(Edition::Third)
        .iter()
        .map(|(tonic, mode)| format!("{}{} {mode:?}", tonic.step.letter(), tonic.alter))
        .collect();
    for key in ["E-1 Major", "A-1 Major", "C0 Minor"] {
        assert!(names.iter().any(|name| name == key), "{names:?}");
    }
    assert_eq!(names.len(), 3);
    // Keys that a teacher has chosen stay.
    let chosen = crookwise_theory::Key::new(Tonic::from_fifths(-1), Mode::Major);
    let own = Exercise { keys: vec![chosen], ..own };
    assert!(of_seeds(&own, 5).iter().all(|question| question.passage.movement == Some(chosen)));
}

/// A bassoon's label says nothing that a note would need, unless nothing else is asked about.
#[test]
fn a_label_is_asked_where_there_is_something_to_read() {
    let labels = ["Corni in D", "Trombe in C", "Fagotti", "Viole", "Contrabbasso"];
    let own = exercise(Kind::Label, labels.map(staff).to_vec(), 1);
    only_before(unlike(&own, 20, &|question| {
        let Answer::Label(choice) = question.right else { return false };
        !["bassoon", "va"].contains(&choice.instrument.id)
    }));
    let alone = exercise(Kind::Label, vec![staff("Fagotti")], 1);
    assert!(!of_seeds(&alone, 2).is_empty());
}

/// How many questions are on each label.
fn staves_asked(questions: &[Question], labels: &[&str]) -> Vec<usize> {
    let on = |label: &&str| {
        questions.iter().filter(|question| question.passage.staves()[0].label == **label).count()
    };
    labels.iter().map(on).collect()
}

/// Six questions of three kinds were all asked on the first of two staves.
#[test]
fn every_staff_that_is_set_is_asked_about_before_one_comes_again() {
    let labels = ["Corni in B alto", "Trombe in D"];
    let staves = vec![pair(labels[0]), staff(labels[1])];
    let kinds = vec![Kind::Sounds, Kind::Writes, Kind::Players];
    let mut third = 0;
    for seed in 1..60 {
        let own = Exercise {
            kinds: kinds.clone(),
            questions: 6,
            seed,
            ..exercise(Kind::Sounds, staves.clone(), 1)
        };
        let mut questions = own.questions().unwrap();
        assert!(!staves_asked(&questions[..3], &labels).contains(&0), "{seed}");
        // What players sound is asked of the pair alone, all else of both.
        questions.retain(|question| question.kind != Kind::Players);
        assert_eq!(staves_asked(&questions, &labels), [2, 2], "{seed}");
        let old = Exercise { edition: Edition::Third, ..own };
        third += usize::from(staves_asked(&old.questions().unwrap(), &labels).contains(&0));
    }
    assert!(third > 0);
    // Each of eight once before any twice.
    let labels = [
        "Corni in D",
        "Corni in E",
        "Corni in Es",
        "Corni in F",
        "Trombe in D",
        "Viole",
        "Oboi",
        "Clarinetti in A",
    ];
    for seed in 1..20 {
        let own = Exercise { questions: 8, seed, ..exercise(Kind::Sounds, labels.map(staff).to_vec(), 1) };
        assert_eq!(staves_asked(&own.questions().unwrap(), &labels), [1; 8], "{seed}");
    }
}

/// Whoever took the last crook that is named was right every time.
#[test]
fn a_note_before_a_change_of_crook_is_asked_about_as_well() {
    let changing =
        vec![second::muta("Corni in Es", "Corni in F"), second::muta("Corni in C basso", "Corni in Es")];
    let phrases = Material::Phrases(vec![Style::Fanfare, Style::Melody]);
    for material in [phrases, Material::Notes] {
        let share = |edition| {
            let own = Exercise {
                edition,
                material: material.clone(),
                ..exercise(Kind::Sounds, changing.clone(), 1)
            };
            let questions = of_seeds(&own, 20);
            let before = |question: &&Question| {
                question.passage.staves()[0].changes().iter().all(|change| change.column > question.at.column)
            };
            questions.iter().filter(before).count() * 100 / questions.len()
        };
        assert_eq!(share(Edition::Third), 0);
        assert!((25..=42).contains(&share(Edition::NOW)), "{} %", share(Edition::NOW));
    }
}
