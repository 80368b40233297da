//! Whether questions are worth asking: notes that the instrument plays there, hands where there is one, slips that a
//! copyist makes. Each claim is counted over many seeds.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

mod second;

use crookwise_practice::{Answer, AskedStaff, Exercise, Kind, Material, NoteRange, Question, Spot};
use crookwise_score::{Event, ResolvedStaff};
use crookwise_theory::label::DecodeOptions;
use crookwise_theory::{BassNotation, Intonation, Pitch, Printed, Production};
use second::{exercise, in_bass, of_seeds, pair, staff};

fn printed(question: &Question, at: Spot) -> Option<Printed> {
    match question.passage.event(at.staff, at.column, at.player)? {
        Event::Note(printed) => Some(printed),
        _ => None,
    }
}

/// What a place of a question's page sounds.
fn sounds(question: &Question, at: Spot) -> Option<Pitch> {
    let staff = ResolvedStaff::of(&question.passage, at.staff, DecodeOptions::default());
    let place = staff.place_at(at.column, at.player)?;
    Some(place.read(printed(question, at)?, Intonation::default(), None).sounding.0)
}

/// In the bass clef horns have the lowest notes of their series: C, G and C, now and then what lies between and the E
/// above. Counted in scores: under a plain F clef Beethoven's horns have written G2, C3 and C4.
#[test]
fn horns_in_bass_clef_play_what_they_play_there() {
    for bass in [BassNotation::Old, BassNotation::New] {
        for kind in [Kind::Sounds, Kind::Writes, Kind::Players, Kind::Partial] {
            for phrases in [false, true] {
                let staves = vec![
                    AskedStaff { pair: true, ..in_bass("Corni in F", Some(bass)) },
                    AskedStaff { pair: true, ..in_bass("Corni in A", Some(bass)) },
                ];
                let mut own = exercise(kind, staves, 1);
                if phrases {
                    own.material = Material::Phrases(Vec::new());
                }
                for question in of_seeds(&own, 20) {
                    let written = question.reading().unwrap().written.0.midi();
                    assert!((48..=64).contains(&written), "{}", question.canonical());
                }
            }
        }
    }
}

#[test]
fn how_a_note_is_made_is_asked_where_there_is_something_to_make() {
    let asked = [
        vec![staff("Corni in Es")],
        vec![staff("Corni in F"), staff("Corni in D")],
        vec![pair("Corno I in B alto, Corno II in G"), staff("Trombe in D")],
    ];
    for staves in asked {
        for range in [NoteRange::Usual, NoteRange::Written(55, 79)] {
            for seed in 0..40 {
                let own = Exercise { questions: 10, range, seed, ..exercise(Kind::Made, staves.clone(), 1) };
                let questions = own.questions().unwrap();
                let made = |question: &&Question| {
                    !matches!(question.right, Answer::Made(Production::Open | Production::Unavailable))
                };
                let worth = questions.iter().filter(made).count();
                assert!((5..=8).contains(&worth), "{worth} of 10: {own:?}");
            }
        }
    }
}

#[test]
fn trumpets_are_offered_no_hand() {
    let mut lipped = 0;
    for question in of_seeds(&exercise(Kind::Made, vec![staff("Trombe in D"), staff("Trombe in F")], 1), 30) {
        for choice in &question.choices {
            let Answer::Made(way) = choice else { panic!("{choice}") };
            let hand = !matches!(way, Production::Open | Production::Lipped | Production::Unavailable);
            assert!(!hand, "{}", question.canonical());
        }
        assert!(question.choices.len() >= 2, "{}", question.canonical());
        lipped += usize::from(question.right == Answer::Made(Production::Lipped));
    }
    assert!(lipped > 20, "{lipped}");
}

/// A line or space off, a third off, or a sign left out: nobody copies a note a ninth away.
#[test]
fn a_slip_in_a_copy_is_one_that_a_copyist_makes() {
    let (mut all, mut far, mut first) = (0, 0, String::new());
    let mut kinds = [0; 3];
    for hand in ["Clarinetti in B", "Horn in F", "Clarinetto in A", "Violini", "Trombe in D"] {
        for label in
            ["Corni in Es", "Corni in A", "Corni in B basso", "Trombe in Es", "Clarinetti in A", "Oboi"]
        {
            let own =
                Exercise { in_hand: Some(hand.into()), ..exercise(Kind::WrongNote, vec![staff(label)], 1) };
            let Ok(_) = own.questions() else { continue };
            for question in of_seeds(&own, 8) {
                let (at, over) = (question.at, Spot { staff: 0, ..question.at });
                let (copy, right) = (sounds(&question, at).unwrap(), sounds(&question, over).unwrap());
                // Brass prints F sharp where the strict spelling is G flat: a letter more.
                let letters = (copy.diatonic() - right.diatonic()).abs();
                all += 1;
                if letters > 3 || (copy.midi() - right.midi()).abs() > 4 {
                    far += 1;
                    first = question.canonical();
                } else {
                    kinds[letters.min(2) as usize] += 1;
                }
            }
        }
    }
    assert!(all > 400 && far == 0, "{far} of {all}\n{first}");
    assert!(kinds.iter().all(|count| count * 10 > all), "a sign, a step, a third: {kinds:?} of {all}");
}

/// What stands in a copy, and what the instrument in hand is asked for, it can play.
#[test]
fn the_instrument_in_hand_keeps_to_its_range() {
    let (mut all, mut outside, mut first) = (0, 0, String::new());
    for kind in [Kind::InHand, Kind::WrongNote] {
        for label in ["Corni in Es", "Corni in D", "Corni in F", "Trombe in F", "Fagotti", "Flauti"] {
            let mut own = exercise(kind, vec![staff(label)], 1);
            own.questions = 6;
            let Ok(_) = own.questions() else { continue };
            for question in of_seeds(&own, 12) {
                let notes: Vec<Pitch> = match &question.right {
                    Answer::Note(note) => vec![*note],
                    _ => {
                        let columns = 0..question.passage.columns().len();
                        let at = |column| Spot { staff: 1, column, player: 0 };
                        columns
                            .filter_map(|column| printed(&question, at(column)))
                            .map(|note| note.0)
                            .collect()
                    }
                };
                all += 1;
                // The clarinet from E3 to C7.
                if notes.iter().any(|note| !(52..=96).contains(&note.midi())) {
                    outside += 1;
                    first = question.canonical();
                }
            }
        }
    }
    assert!(all > 400 && outside == 0, "{outside} of {all}\n{first}");
}

/// The clef to imagine is the same for every note of a staff: among other kinds it is asked once of each.
#[test]
fn which_clef_is_asked_once_of_a_staff() {
    let mut own =
        exercise(Kind::Clef, vec![staff("Corni in Es"), staff("Clarinetti in A"), staff("Viole")], 1);
    own.kinds = vec![Kind::Sounds, Kind::Clef, Kind::Degree];
    own.questions = 20;
    for seed in 0..20 {
        own.seed = seed;
        let questions = own.questions().unwrap();
        let clefs = questions.iter().filter(|question| question.kind == Kind::Clef);
        let labels: Vec<&str> = clefs.map(|question| question.passage.staves()[0].label.as_str()).collect();
        assert_eq!(labels.len(), 2, "{labels:?}");
        assert_ne!(labels[0], labels[1]);
        assert_eq!(questions.len(), 20);
    }
    // Where nothing else is asked, a link asks on.
    own.kinds = vec![Kind::Clef];
    own.staves.truncate(1);
    assert_eq!(own.questions().unwrap().len(), 20);
}

/// Two wind players on one staff have their parts in one octave, the first above the second.
#[test]
fn players_of_a_staff_do_not_cross() {
    let staves = vec![pair("Oboi"), pair("Clarinetti in B"), pair("Fagotti"), pair("Corni in Es")];
    let mut all = 0;
    for kind in [Kind::Sounds, Kind::Players] {
        for material in [Material::Notes, Material::Phrases(Vec::new())] {
            let own = Exercise { material: material.clone(), ..exercise(kind, staves.clone(), 1) };
            for question in of_seeds(&own, 20) {
                for column in 0..question.passage.columns().len() {
                    let of = |player| printed(&question, Spot { staff: 0, column, player });
                    let (Some(first), Some(second)) = (of(0), of(1)) else { continue };
                    all += 1;
                    assert!(first.0.midi() >= second.0.midi(), "{}", question.canonical());
                    assert!(first.0.midi() - second.0.midi() <= 16, "{}", question.canonical());
                }
            }
        }
    }
    assert!(all > 500, "{all}");
}

/// A crook is changed in a rest: it stands over the rest and holds from there.
#[test]
fn crooks_change_in_rests() {
    let staves = vec![second::muta("Corni in Es", "Corni in F"), second::muta("Trombe in Es", "Trombe in D")];
    for material in [Material::Notes, Material::Phrases(Vec::new())] {
        let own = Exercise { material, ..exercise(Kind::Sounds, staves.clone(), 1) };
        for question in of_seeds(&own, 10) {
            let change = &question.passage.staves()[0].changes()[0];
            let at = Spot { staff: 0, column: change.column, player: 0 };
            assert!(change.column > 0 && change.column != question.at.column, "{}", question.canonical());
            assert_eq!(printed(&question, at), None, "{}", question.canonical());
        }
    }
}

/// How F5 is made is the same on every crook and for either player.
#[test]
fn how_a_note_is_made_is_not_asked_twice() {
    let staves = vec![pair("Corni in Es"), staff("Corni in D"), staff("Trombe in D")];
    for question in (1..30).map(|seed| exercise(Kind::Made, staves.clone(), seed).questions().unwrap()) {
        let mut notes: Vec<(bool, i32)> = Vec::new();
        for question in &question {
            let reading = question.reading().unwrap();
            let horn = reading.making.unwrap().family == crookwise_theory::CrookFamily::Horn;
            notes.push((horn, reading.written.0.midi()));
        }
        let all = notes.len();
        notes.sort_unstable();
        notes.dedup();
        assert_eq!(notes.len(), all, "{notes:?}");
    }
}

#[test]
fn drums_are_not_read_on_another_instrument() {
    for question in of_seeds(&exercise(Kind::InHand, vec![staff("Timpani in D-A"), staff("Oboi")], 1), 5) {
        assert_eq!(question.passage.staves()[0].label, "Oboi");
    }
    assert!(exercise(Kind::InHand, vec![staff("Timpani in D-A")], 1).questions().is_ok());
}

/// Nothing can be found in a copy of one note.
#[test]
fn copies_have_more_than_one_note() {
    for question in of_seeds(&exercise(Kind::WrongNote, vec![staff("Fagotti"), staff("Ottavino")], 1), 40) {
        let columns = 0..question.passage.columns().len();
        let mut notes: Vec<Pitch> = columns
            .filter_map(|column| Some(printed(&question, Spot { staff: 0, column, player: 0 })?.0))
            .collect();
        notes.dedup();
        assert!(notes.len() > 1, "{}", question.canonical());
    }
}

/// The last step has a viola whose strings are tuned up, and tubas under labels that are printed so.
#[test]
fn retuned_strings_sound_as_they_are_tuned() {
    let exercises = crookwise_practice::course::CourseStep::ALL[11].exercises();
    let questions: Vec<Question> = exercises.iter().flat_map(|exercise| of_seeds(exercise, 6)).collect();
    let violas = questions.iter().filter(|question| question.passage.staves()[0].label.starts_with("Viola"));
    let mut all = 0;
    for question in violas {
        let reading = question.reading().unwrap();
        assert_eq!(reading.sounding.0.midi() - reading.written.0.midi(), 1, "{}", question.canonical());
        all += 1;
    }
    assert!(all > 5, "{all}");
    let tubas = questions.iter().filter(|question| question.passage.staves()[0].label == "Tenortuben in B");
    for question in tubas {
        let by = question.reading().unwrap().interval.semitones;
        assert!([-2, -14].contains(&by), "{}", question.canonical());
    }
}
