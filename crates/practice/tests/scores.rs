//! Whether questions look as scores do: drums in their key and in the chord, pairs of winds in two parts, nothing that an
//! instrument lacks, choices that name what is built and met. Each claim is counted over many seeds.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

mod second;

use crookwise_practice::{Answer, AskedStaff, Edition, Exercise, Kind, Material, Question};
use crookwise_score::{Event, ResolvedStaff};
use crookwise_theory::label::DecodeOptions;
use crookwise_theory::{Pitch, Step, Transposition, tables::INSTRUMENTS};
use second::{exercise, of_seeds, pair, staff};

fn printed(question: &Question, staff: usize) -> Vec<Pitch> {
    let page = &question.passage;
    let players = page.staves()[staff].players();
    let all = (0..page.columns().len()).flat_map(|column| (0..players).map(move |player| (column, player)));
    all.filter_map(|(column, player)| match page.event(staff, column, player)? {
        Event::Note(printed) => Some(printed.0),
        _ => None,
    })
    .collect()
}

#[test]
fn named_drums_are_asked_in_the_key_that_they_are_tuned_for() {
    for kind in [Kind::Sounds, Kind::Degree] {
        for question in of_seeds(&exercise(kind, vec![staff("Timpani in D-A")], 1), 10) {
            assert_eq!(question.passage.movement.unwrap().to_string(), "D major", "{}", question.canonical());
        }
    }
    let clefs = exercise(Kind::Clef, vec![staff("Timpani in D-A"), staff("Corni in D")], 1);
    for question in of_seeds(&clefs, 10) {
        assert!(!question.is_of_drums(), "{}", question.canonical());
    }
}

/// Drums come in where one of them belongs to the chord and would not be its bass.
#[test]
fn drums_play_in_chords() {
    let page = ["Corni in D", "Timpani in D-A", "Violini", "Viole", "Violoncelli"].map(AskedStaff::of);
    let (mut played, mut able) = (0, 0);
    for question in of_seeds(&exercise(Kind::Chord, page.into(), 1), 20) {
        let sounding: Vec<i32> =
            question.harmony().unwrap().1.iter().map(|voice| voice.sounding.0.midi()).collect();
        let lowest = *sounding.iter().min().unwrap();
        let belongs = |drum: &i32| lowest <= *drum && sounding.iter().any(|note| (note - drum) % 12 == 0);
        able += usize::from([50, 45].iter().any(belongs));
        for drum in printed(&question, 1) {
            played += 1;
            assert!([50, 45].contains(&drum.midi()) && belongs(&drum.midi()), "{}", question.canonical());
        }
    }
    assert!(able > 40 && played * 4 > able * 3, "{played} of {able}");
}

#[test]
fn pairs_of_winds_have_two_parts() {
    let winds = vec![pair("Clarinetti in B"), pair("Fagotti"), pair("Oboi")];
    let asked = of_seeds(&exercise(Kind::Players, winds, 1), 20);
    let both = |question: &Question, staff: usize| {
        question.passage.staves()[staff]
            .cells()
            .iter()
            .filter(|cell| crookwise_score::Cell::is_together(cell))
            .count()
    };
    let together = asked.iter().filter(|question| both(question, 0) > 0).count();
    assert!(together * 12 < asked.len(), "{together} of {} are a 2", asked.len());
    assert!(together > 0);
    let page = vec![
        pair("Clarinetti in A"),
        pair("Corni in D"),
        staff("Violini"),
        staff("Viole"),
        staff("Violoncelli"),
    ];
    let chords = of_seeds(&exercise(Kind::Chord, page, 1), 20);
    let together = chords.iter().filter(|question| both(question, 0) > 0).count();
    assert!(together * 4 < chords.len(), "{together} of {} are a 2", chords.len());
}

/// A horn is not asked for F6, whatever the part it reads from.
#[test]
fn horns_and_trumpets_in_hand_stay_below_their_ceiling() {
    let staves = ["Ottavino", "Flauti", "Oboi", "2 Clarinetti in B", "Trombe in D", "Violini"];
    let staves = || staves.map(|label| if label.starts_with('2') { pair(label) } else { staff(label) });
    for (hand, low, high) in [("Horn in F", 48, 79), ("Trumpet in B-flat", 55, 79)] {
        for phrases in [false, true] {
            for kind in [Kind::InHand, Kind::WrongNote] {
                let mut own = exercise(kind, staves().into(), 1);
                own.in_hand = Some(hand.to_owned());
                if phrases {
                    own.material = Material::Phrases(Vec::new());
                }
                for question in of_seeds(&own, 10) {
                    let notes = match &question.right {
                        Answer::Note(note) => vec![*note],
                        _ => printed(&question, 1),
                    };
                    for note in notes {
                        assert!((low..=high).contains(&note.midi()), "{note}\n{}", question.canonical());
                    }
                }
            }
        }
    }
}

#[test]
fn nobody_reads_his_own_part_on_his_own_instrument() {
    let own = exercise(Kind::InHand, vec![staff("Clarinetti in B"), staff("Corni in D")], 1);
    for question in of_seeds(&own, 10) {
        assert_eq!(question.passage.staves()[0].label, "Corni in D");
    }
    // Unless there is nothing else.
    assert!(exercise(Kind::InHand, vec![staff("Clarinetti in B")], 1).questions().is_ok());
}

/// What an instrument in hand reads is spelled as its part would print it.
#[test]
fn what_is_read_in_hand_is_spelled_as_parts_are() {
    let own = Exercise {
        keys: vec!["Gb major".parse().unwrap(), "E major".parse().unwrap()],
        ..exercise(Kind::InHand, vec![staff("Corni in E"), staff("Viole"), staff("Klarinette in Es")], 1)
    };
    for question in of_seeds(&own, 20) {
        let Answer::Note(right) = question.right else { panic!() };
        assert!((-1..=1).contains(&right.alter), "{}", question.canonical());
    }
}

/// Winds do not leap by sevenths, which natural brass does for want of other notes.
#[test]
fn winds_do_not_leap_by_sevenths() {
    let own =
        exercise(Kind::Sounds, ["Oboi", "Clarinetti in A", "Corno inglese", "Fagotti"].map(staff).into(), 1);
    let own = Exercise { material: Material::Phrases(Vec::new()), ..own };
    for question in of_seeds(&own, 20) {
        for pair in printed(&question, 0).windows(2) {
            let leap = (pair[1].midi() - pair[0].midi()).abs();
            assert!(leap < 10 || leap == 12, "{}", question.canonical());
        }
    }
}

/// Every label that is offered is of an instrument that is built, or of the one asked about taken the wrong way.
#[test]
fn labels_to_choose_from_are_of_instruments_that_are_built() {
    let labels =
        ["Oboi", "Fagotti", "Viole", "Clarinetti in A", "Corni in B basso", "Trombe in D", "Corno inglese"];
    let sounds = |by: Transposition| (Pitch::natural(Step::C, 4) + by.0).tonic();
    for question in of_seeds(&exercise(Kind::Label, labels.map(staff).into(), 1), 20) {
        let Answer::Label(right) = question.right else { panic!() };
        for choice in &question.choices {
            let Answer::Label(choice) = choice else { panic!() };
            let crook = choice.instrument.crooks.is_some_and(|family| {
                family.crooks().iter().any(|crook| crook.transposition == choice.transposition)
            });
            let kin = |row: &&crookwise_theory::Instrument| {
                row.id == choice.instrument.id || (row.kind.is_some() && row.kind == choice.instrument.kind)
            };
            let built =
                INSTRUMENTS.iter().filter(kin).any(|row| row.transposition == Some(choice.transposition));
            let wrong_way = sounds(choice.transposition) == sounds(right.transposition);
            assert!(crook || built || wrong_way, "{choice:?}\n{}", question.canonical());
            let plain = right.transposition == Transposition::NONE;
            assert!(!plain || built, "{choice:?}\n{}", question.canonical());
        }
    }
}

/// No E-sharp is offered where nothing is written so.
#[test]
fn notes_to_choose_from_are_spelled_as_they_are_met() {
    let own =
        exercise(Kind::Sounds, ["Oboi", "Corni in D", "Clarinetti in B", "Trombe in F"].map(staff).into(), 1);
    let odd = |note: &Pitch| ["E#", "B#", "Cb", "Fb"].contains(&note.tonic().to_string().as_str());
    let (mut first, mut offered) = (0, 0);
    for edition in Edition::ALL {
        for question in of_seeds(&Exercise { edition, choices: true, ..own.clone() }, 20) {
            let Answer::Note(right) = question.right else { panic!() };
            for choice in question.choices.iter().filter(|_| !odd(&right)) {
                let Answer::Note(note) = choice else { panic!() };
                match edition {
                    Edition::First => first += usize::from(odd(note)),
                    _ => {
                        offered += 1;
                        assert!(!odd(note), "{}", question.canonical());
                    }
                }
            }
        }
    }
    // Old links offer what they offered.
    assert!(first > 0 && offered > 0);
}

/// A staff of a page is read as it stands there, drums too.
#[test]
fn drums_in_chords_are_at_pitch() {
    let page = ["Corni in F", "Timpani in B-F", "Violini", "Violoncelli"].map(AskedStaff::of);
    for question in of_seeds(&exercise(Kind::Chord, page.into(), 1), 5) {
        let drums = ResolvedStaff::of(&question.passage, 1, DecodeOptions::default());
        for note in printed(&question, 1) {
            let place = drums.place_at(0, 0).unwrap();
            let read =
                place.read(crookwise_theory::Printed(note), crookwise_theory::Intonation::default(), None);
            assert_eq!(read.sounding.0, note, "{}", question.canonical());
        }
    }
}
