//! What a change of crook, clef, signature or key means: what is written stays, what sounds follows.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

use crookwise_score::{Change, ChangeTo, Event, Passage, ResolvedStaff, SignatureSource, Sounds};
use crookwise_theory::label::DecodeOptions;
use crookwise_theory::{Clef, Intonation, Pitch, Printed, Signature, Sounding};

/// A staff with so many players who all have the same notes.
fn staff(label: &str, players: usize, notes: &str) -> Passage {
    let mut passage = Passage::of_staff(label);
    passage.set_players(0, players).unwrap();
    for (column, name) in notes.split_whitespace().enumerate() {
        let event = if name == "_" { Event::Held } else { Event::Note(Printed(name.parse().unwrap())) };
        for player in 0..players {
            passage.set(0, column, player, event).unwrap();
        }
    }
    passage
}

fn muta(passage: &mut Passage, column: usize, player: Option<usize>, text: &str) {
    passage.set_change(0, Change { column, player, to: ChangeTo::Label(text.into()) }).unwrap();
}

fn change(passage: &mut Passage, column: usize, to: ChangeTo) {
    passage.set_change(0, Change { column, player: None, to }).unwrap();
}

/// What a player sounds, column by column.
fn sounds(passage: &Passage, player: usize) -> String {
    let staves = ResolvedStaff::all(passage, DecodeOptions::default());
    let table = Sounds::of(passage, &staves.iter().collect::<Vec<_>>(), Intonation::default(), None);
    let column = |column| {
        let reading = table.note(0, column, player)?.reading?;
        Some(reading.sounding.to_string())
    };
    let columns = (0..passage.columns().len()).map(|at| column(at).unwrap_or_else(|| "-".into()));
    columns.collect::<Vec<_>>().join(" ")
}

#[test]
fn a_crook_changes_for_all_or_for_one() {
    let mut pair = staff("Corni in Es", 2, "C5 C5 C5 C5");
    muta(&mut pair, 1, Some(1), "muta in D");
    muta(&mut pair, 3, None, "Corni in F");
    assert_eq!(sounds(&pair, 0), "Eb4 Eb4 Eb4 F4");
    assert_eq!(sounds(&pair, 1), "Eb4 D4 D4 F4");
    let notes: Vec<_> = (0..4).map(|column| pair.event(0, column, 1)).collect();
    assert!(notes.iter().all(|note| *note == Some(Event::Note(Printed("C5".parse().unwrap())))));
}

#[test]
fn a_change_is_read_as_print_has_it() {
    for (text, sound) in [
        ("Corni in D", "D4"),
        ("in D", "D4"),
        ("D", "D4"),
        ("muta in D", "D4"),
        ("muta in B basso", "Bb3"),
        ("change to D", "D4"),
        ("Clarino in D", "D5"),
    ] {
        let mut horn = staff("Corni in Es", 1, "C5 C5");
        muta(&mut horn, 1, None, text);
        assert_eq!(sounds(&horn, 0), format!("Eb4 {sound}"), "{text}");
    }
    let mut clarinet = staff("Clarinetto in B", 1, "C5 C5");
    muta(&mut clarinet, 1, None, "muta in A");
    assert_eq!(sounds(&clarinet, 0), "Bb4 A4");
    // What is not understood changes nothing.
    muta(&mut clarinet, 1, None, "xyzzyq");
    assert_eq!(sounds(&clarinet, 0), "Bb4 Bb4");
}

#[test]
fn a_change_that_numbers_players_is_theirs_alone() {
    let mut pair = staff("Corno I. II. in Es", 2, "C5 C5");
    muta(&mut pair, 1, None, "Corno II muta in D");
    assert_eq!((sounds(&pair, 0), sounds(&pair, 1)), ("Eb4 Eb4".into(), "Eb4 D4".into()));
    let mut four = staff("Corni I. II. in Es, III. IV. in C", 4, "C5 C5");
    muta(&mut four, 1, None, "III. IV. Corni in D");
    assert_eq!(sounds(&four, 1), "Eb4 Eb4");
    assert_eq!(sounds(&four, 2), "C4 D4");
}

/// The staff that holds for a player, column by column.
fn names(passage: &Passage, player: usize) -> Vec<String> {
    let resolved = ResolvedStaff::of(passage, 0, DecodeOptions::default());
    (0..passage.columns().len()).map(|at| resolved.place_at(at, player).unwrap().staff.name()).collect()
}

#[test]
fn a_change_is_read_against_what_holds_just_before_it() {
    let mut drums = staff("Timpani in D, A", 1, "D3 D3 D3 D3");
    muta(&mut drums, 1, None, "muta A in G");
    muta(&mut drums, 2, None, "muta D in C");
    muta(&mut drums, 3, None, "muta in F, C");
    let named = ["Timpani in D and A", "Timpani in D and G", "Timpani in C and G", "Timpani in F and C"];
    assert_eq!(names(&drums, 0), named);
    // A label of its own comes between: what follows is said of that one.
    let mut clarinet = staff("Clarinetto in B", 1, "C5 C5 C5 C5");
    muta(&mut clarinet, 1, None, "Corno in Es");
    muta(&mut clarinet, 2, None, "muta in D");
    muta(&mut clarinet, 3, None, "in F");
    let named = ["Clarinet in B-flat", "Horn in E-flat", "Horn in D", "Horn in F"];
    assert_eq!(names(&clarinet, 0), named);
    // Each player has a course of his own.
    let mut pair = staff("Corni in Es", 2, "C5 C5 C5");
    muta(&mut pair, 1, Some(1), "Tromba in C");
    muta(&mut pair, 2, None, "muta in D");
    assert_eq!(names(&pair, 0)[2], "Horn in D");
    assert_eq!(names(&pair, 1)[2], "Trumpet in D");
    // As many changes as there are columns are longer than any label.
    let mut many = staff("Timpani in D, A", 1, &["D3"; 64].join(" "));
    for column in 1..64 {
        let (from, to) = if column % 2 == 1 { ("A", "G") } else { ("G", "A") };
        muta(&mut many, column, None, &format!("muta {from} in {to}"));
    }
    let names = names(&many, 0);
    assert_eq!((names[62].as_str(), names[63].as_str()), ("Timpani in D and A", "Timpani in D and G"));
}

#[test]
fn a_held_note_keeps_the_crook_it_began_with() {
    let mut horn = staff("Corno in Es", 1, "C5 _ C5");
    muta(&mut horn, 1, None, "in F");
    assert_eq!(sounds(&horn, 0), "Eb4 Eb4 F4");
}

#[test]
fn the_bass_clef_brings_old_notation_with_it() {
    let mut horn = staff("Corno in F", 1, "G4 C3 C3");
    change(&mut horn, 1, ChangeTo::Clef(Clef::BASS));
    change(&mut horn, 2, ChangeTo::Clef(Clef::TREBLE));
    assert_eq!(sounds(&horn, 0), "C4 F3 F2");
    let resolved = ResolvedStaff::of(&horn, 0, DecodeOptions::default());
    assert_eq!(resolved.spans(0).map(|(from, _)| from).collect::<Vec<_>>(), [0, 1, 2]);
}

#[test]
fn signatures_follow_what_is_printed_and_the_key_of_the_movement() {
    let mut clarinet = staff("Clarinetto in B", 1, "C5 C5 C5 C5");
    clarinet.movement = Some("F major".parse().unwrap());
    clarinet.set_movement_at(2, Some("Bb major".parse().unwrap())).unwrap();
    change(&mut clarinet, 3, ChangeTo::Signature(SignatureSource::Typed(Signature(3))));
    let resolved = ResolvedStaff::of(&clarinet, 0, DecodeOptions::default());
    let signatures: Vec<i32> =
        (0..4).map(|column| resolved.place_at(column, 0).unwrap().signature.0).collect();
    assert_eq!(signatures, [1, 1, 0, 3]);
    assert_eq!(resolved.place_at(2, 0).unwrap().movement, Some("Bb major".parse().unwrap()));
}

#[test]
fn what_changes_nothing_makes_no_new_place() {
    let mut pair = staff("Corni in Es", 2, "C5 C5 C5");
    muta(&mut pair, 1, Some(1), "in D");
    muta(&mut pair, 2, None, "in D");
    let resolved = ResolvedStaff::of(&pair, 0, DecodeOptions::default());
    let spans = |player| resolved.spans(player).map(|(from, _)| from).collect::<Vec<_>>();
    assert_eq!((spans(0), spans(1)), (vec![0, 2], vec![0, 1]));
}

#[test]
fn every_label_is_read_once() {
    let mut pair = staff("Corni in Es", 2, "C5 C5 C5");
    muta(&mut pair, 1, Some(1), "Corno in D");
    muta(&mut pair, 2, None, "Corni in F");
    let mut read = Vec::new();
    let _ = ResolvedStaff::with(&pair, 0, &mut |text| {
        read.push(text.to_owned());
        std::sync::Arc::new(crookwise_theory::label::decode(text, DecodeOptions::default()))
    });
    read.sort_unstable();
    assert_eq!(read, ["Corni in Es", "Corni in F", "Corno in D"]);
}

/// What a page prints for a sound, as the trade has it.
fn printed(passage: &Passage, sound: &str) -> String {
    let resolved = ResolvedStaff::of(passage, 0, DecodeOptions::default());
    let place = resolved.place_at(0, 0).unwrap();
    let sound: Pitch = sound.parse().unwrap();
    let writing = place.write(Sounding(sound), Intonation::default(), None);
    let printed = writing.also_printed.unwrap_or(writing.strict.printed);
    assert_eq!(place.read(printed, Intonation::default(), None).sounding.0.midi(), sound.midi());
    printed.to_string()
}

#[test]
fn drums_are_written_as_the_page_writes_them() {
    assert_eq!(printed(&staff("Timpani in D, A", 1, "D3 A2"), "D3"), "D3");
    assert_eq!(printed(&staff("Timpani in D, A", 1, "A2"), "D3"), "D3");
    assert_eq!(printed(&staff("Timpani in D, A", 1, "C3 G2"), "D3"), "C3");
    assert_eq!(printed(&staff("Timpani in D, A", 1, ""), "D3"), "C3");
}

#[test]
fn a_page_at_sounding_pitch_is_spelled_in_its_key() {
    let mut horn = staff("Corno in Es", 1, "");
    horn.staff_mut(0).unwrap().settings.at_pitch = true;
    horn.movement = Some("E major".parse().unwrap());
    assert_eq!(printed(&horn, "F#4"), "F#4");
    assert_eq!(printed(&horn, "Gb4"), "F#4");
    horn.movement = Some("Eb minor".parse().unwrap());
    assert_eq!(printed(&horn, "Gb4"), "Gb4");
    horn.movement = None;
    assert_eq!(printed(&horn, "F#4"), "F#4");
}
