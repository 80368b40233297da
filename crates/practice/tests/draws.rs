//! Which questions come: as real parts have them, nothing twice before it must be, and why where nothing can.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

mod second;

use crookwise_practice::{
    Answer, AskedStaff, Exercise, ExerciseError, Kind, Material, NoteRange, Question, Style, Why,
};
use crookwise_score::{Change, ChangeTo, Event, ResolvedStaff};
use crookwise_theory::label::DecodeOptions;
use crookwise_theory::{CrookFamily, Partial};
use second::{exercise, exercises, pair, passage, staff};

fn text(questions: &[Question]) -> String {
    questions.iter().map(|question| question.canonical() + "\n").collect()
}

/// What a question asks, choices and key aside.
fn asked(question: &Question) -> String {
    let question = Question { choices: Vec::new(), ..question.clone() };
    let lines = question.canonical();
    lines.lines().filter(|line| !line.starts_with("key ")).collect::<Vec<_>>().join("\n")
}

#[test]
fn nothing_comes_twice_before_it_must() {
    for own in exercises(3) {
        let Ok(questions) = own.questions() else { continue };
        let asked: Vec<String> = questions.iter().map(asked).collect();
        for (place, pair) in asked.windows(2).enumerate() {
            // A degree may be asked anew in another key.
            assert!(pair[0] != pair[1] || own.kinds == [Kind::Degree], "{place}: {}", pair[0]);
        }
    }
    // Twenty notes of the horn differ, and so do the strokes of two drums as long as there are others.
    let mut horn = exercise(Kind::Sounds, vec![staff("Corni in Es")], 5);
    horn.questions = 20;
    let mut all: Vec<String> = horn.questions().unwrap().iter().map(asked).collect();
    all.sort_unstable();
    all.dedup();
    assert_eq!(all.len(), 20);
    // Two notes alternate, and one cannot be asked about twice.
    horn.range = NoteRange::Partials(8, 9);
    horn.questions = 9;
    let notes: Vec<Answer> = horn.questions().unwrap().into_iter().map(|question| question.right).collect();
    assert!(notes.windows(2).all(|pair| pair[0] != pair[1]), "{notes:?}");
    horn.range = NoteRange::Partials(8, 8);
    assert_eq!(horn.questions(), Err(ExerciseError::TooFew { possible: 1 }));
    horn.questions = 1;
    assert_eq!(horn.questions().unwrap().len(), 1);
}

#[test]
fn rounds_repeat_only_when_all_have_been_asked() {
    let mut horn = exercise(Kind::Sounds, vec![staff("Corni in Es")], 3);
    horn.range = NoteRange::Partials(4, 8);
    horn.questions = 10;
    for seed in 0..40 {
        horn.seed = seed;
        let notes: Vec<String> =
            horn.questions().unwrap().iter().map(|question| question.right.to_string()).collect();
        for round in notes.chunks(5) {
            let mut round = round.to_vec();
            round.sort_unstable();
            round.dedup();
            assert_eq!(round.len(), 5, "{notes:?}");
        }
    }
}

#[test]
fn notes_come_as_often_as_parts_use_them() {
    let mut counts = std::collections::BTreeMap::new();
    let mut horn = exercise(Kind::Sounds, vec![staff("Corni in C basso")], 0);
    horn.questions = 1;
    for seed in 0..3000 {
        horn.seed = seed;
        let drawn = horn.questions().unwrap();
        *counts.entry(drawn[0].right.to_string()).or_insert(0) += 1;
    }
    // Shares of nine symphonies in percent: written G4 18, C5 18, D5 14, E5 10, C4 10, G3 7.
    for (note, percent) in [("G3", 18), ("C4", 18), ("D4", 14), ("E4", 10), ("C3", 10), ("G2", 7)] {
        let share = counts[&format!("note {note}")] * 100 / 3000;
        assert!((percent - 2..=percent + 2).contains(&share), "{note}: {share} {counts:?}");
    }
    assert!(counts.get("note Eb4").is_some_and(|count| *count > 20), "{counts:?}");
}

#[test]
fn ranges_are_kept() {
    for kind in [Kind::Sounds, Kind::Writes, Kind::Partial, Kind::Made, Kind::Degree, Kind::Players] {
        for phrases in [false, true] {
            let mut own = exercise(kind, vec![pair("Corni in B basso"), pair("Trombe in B")], 4);
            own.range = NoteRange::Partials(6, 10);
            own.questions = 8;
            if phrases {
                own.material = Material::Phrases(vec![Style::HornFifths, Style::Fanfare]);
            }
            for question in own.questions().unwrap_or_else(|error| panic!("{kind:?} {phrases} {error}")) {
                let reading = question.reading().unwrap();
                let partial = Partial::of(CrookFamily::Horn, reading.written.0).map(Partial::number);
                assert!(partial.is_some_and(|number| (6..=10).contains(&number)), "{}", question.canonical());
            }
        }
    }
}

#[test]
fn what_cannot_be_asked_says_why() {
    let why = |kind: Kind, staves: Vec<AskedStaff>| match exercise(kind, staves, 1).questions() {
        Err(ExerciseError::Nothing { kind: of, why }) if of == kind => why,
        other => panic!("{other:?}"),
    };
    assert_eq!(why(Kind::Partial, vec![staff("Clarinetti in A")]), Why::NaturalBrass);
    assert_eq!(why(Kind::Clef, vec![staff("Violini")]), Why::Transposing);
    assert_eq!(why(Kind::Players, vec![staff("Corni in Es")]), Why::Pair);
    assert_eq!(why(Kind::Chord, vec![staff("Corni in Es")]), Why::TwoStaves);
    let mut own = exercise(Kind::Label, Vec::new(), 1);
    own.material = Material::Passage(Box::new(passage(&staff("Corni in A"), "A major", "C5")));
    assert_eq!(own.questions(), Err(ExerciseError::Nothing { kind: Kind::Label, why: Why::Ambiguous }));
    let mut own = exercise(Kind::InHand, vec![staff("Corni in Es")], 1);
    own.in_hand = None;
    assert_eq!(own.questions(), Err(ExerciseError::Nothing { kind: Kind::InHand, why: Why::Hand }));
    own.in_hand = Some("nothing at all".into());
    assert_eq!(own.questions(), Err(ExerciseError::Hand));
    let mut own = exercise(Kind::Sounds, vec![staff("Corni in Es"), staff("xyz")], 1);
    assert_eq!(own.questions(), Err(ExerciseError::Label { staff: 1 }));
    own.staves.clear();
    assert_eq!(own.questions(), Err(ExerciseError::NoStaves));
    own.kinds.clear();
    assert_eq!(own.questions(), Err(ExerciseError::NoKinds));
    let mut own = exercise(Kind::Sounds, vec![staff("Corni in Es")], 1);
    own.range = NoteRange::Written(100, 110);
    assert_eq!(own.questions(), Err(ExerciseError::Nothing { kind: Kind::Sounds, why: Why::Range }));
    own.questions = 0;
    assert_eq!(own.questions(), Err(ExerciseError::Questions));
    let mut page = passage(&staff("Corni in Es"), "", "C5 E5");
    page.movement = None;
    let mut own = exercise(Kind::Degree, Vec::new(), 1);
    own.material = Material::Passage(Box::new(page));
    assert_eq!(own.questions(), Err(ExerciseError::Nothing { kind: Kind::Degree, why: Why::Key }));
    for error in [ExerciseError::TooFew { possible: 3 }, ExerciseError::Label { staff: 0 }] {
        assert!(error.to_string().chars().next().is_some_and(char::is_uppercase));
    }
}

#[test]
fn several_kinds_take_turns() {
    let mut own = exercise(Kind::Sounds, vec![staff("Corni in Es"), staff("Clarinetti in A")], 9);
    own.kinds = vec![Kind::Sounds, Kind::Partial, Kind::Degree];
    let kinds: Vec<Kind> = own.questions().unwrap().iter().map(|question| question.kind).collect();
    for kind in &own.kinds {
        assert_eq!(kinds.iter().filter(|other| *other == kind).count(), 4, "{kinds:?}");
    }
    // The order in which kinds are named changes nothing.
    let text_of =
        |kinds: &[Kind]| text(&Exercise { kinds: kinds.to_vec(), ..own.clone() }.questions().unwrap());
    assert_eq!(
        text_of(&[Kind::Sounds, Kind::Partial, Kind::Degree]),
        text_of(&[Kind::Degree, Kind::Sounds, Kind::Partial])
    );
}

#[test]
fn columns_of_a_passage_are_asked_about() {
    let mut page =
        passage(&pair("Corni in Es"), "Eb major", "C5+C4 E5+C5 D5+G4 C5+E4 G4* C5+C4 E5+C4 D5+G4 C5+E4 G4*");
    for label in ["Clarinetti in B", "Fagotti"] {
        let at = page.add_staff(label).unwrap();
        let notes = ["F5", "C5", "G5", "F5", "C5", "F5", "C5", "G5", "F5", "C5"];
        for (column, note) in notes.into_iter().enumerate() {
            let note = crookwise_theory::Printed(second::pitch(note));
            let note = if label == "Fagotti" { second::pitch("Eb3") } else { note.0 };
            page.set(at, column, 0, Event::Note(crookwise_theory::Printed(note))).unwrap();
        }
    }
    for kind in Kind::ALL {
        let mut own = exercise(kind, Vec::new(), 2);
        own.material = Material::Passage(Box::new(page.clone()));
        own.questions = if kind == Kind::Chord { 2 } else { 3 };
        let questions = own.questions().unwrap_or_else(|error| panic!("{kind:?}: {error}"));
        for question in questions {
            let columns = question.passage.columns().len();
            assert!((1..=8).contains(&columns), "{}", question.canonical());
            assert!(question.mark(&question.right, own.marking).right);
            assert_eq!(question.passage.movement, page.movement);
        }
    }
}

/// Cymbals, triangle, bass drum: what is printed stands for a stroke, and there is nothing to ask.
#[test]
fn nothing_is_asked_of_an_instrument_without_pitch() {
    for kind in Kind::ALL {
        let of = |staves| exercise(kind, staves, 3).questions();
        assert_eq!(of(vec![staff("Piatti")]), Err(ExerciseError::NoPitch { staff: 0 }), "{kind:?}");
        let both = of(vec![staff("Corni in Es"), pair("Gran cassa")]);
        assert_eq!(both, Err(ExerciseError::NoPitch { staff: 1 }), "{kind:?}");
        let change = AskedStaff { muta: Some("Triangolo".into()), ..staff("Corni in Es") };
        assert_eq!(of(vec![change]), Err(ExerciseError::NoPitch { staff: 0 }), "{kind:?}");
        let hand =
            Exercise { in_hand: Some("Piatti".into()), ..exercise(kind, vec![staff("Corni in Es")], 3) };
        assert_eq!(hand.questions(), Err(ExerciseError::Hand), "{kind:?}");
    }
}

#[test]
fn nothing_is_asked_of_strokes_on_a_page() {
    let notes = "C5+G4 D5+G4 E5+C5 C5+E4 G5+E5 D5+G4 E5+C5 C5+E4";
    let mut asked = 0;
    for kind in Kind::ALL {
        for seed in 1..4 {
            let mut page = passage(&pair("Corni in Es"), "Eb major", notes);
            // One player takes up cymbals; below stands a bass drum.
            let to = ChangeTo::Label("Piatti".into());
            page.set_change(0, Change { column: 4, player: Some(0), to }).unwrap();
            let drum = page.add_staff("Gran cassa").unwrap();
            for column in 0..8 {
                let stroke = Event::Note(crookwise_theory::Printed(second::pitch("E3")));
                page.set(drum, column, 0, stroke).unwrap();
            }
            let own =
                Exercise { material: Material::Passage(Box::new(page)), ..exercise(kind, Vec::new(), seed) };
            for question in own.questions().into_iter().flatten() {
                let text = question.canonical();
                asked += 1;
                let staff = ResolvedStaff::of(&question.passage, question.at.staff, DecodeOptions::default());
                let place = staff.place_at(question.at.column, question.at.player).unwrap();
                assert!(place.staff.is_pitched(), "{text}");
                let copied = question.passage.staves().iter().all(|staff| staff.label != "Piatti");
                assert!(kind != Kind::WrongNote || copied, "{text}");
            }
        }
    }
    assert!(asked > 200, "{asked}");
}
