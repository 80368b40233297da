//! What a page sounds in a column: its voices, the harmony they make, and the reduction on a grand staff.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crookwise_score::reduction::{Hand, reduce};
use crookwise_score::{
    Change, ChangeTo, Event, Harmony, Passage, ResolvedStaff, Role, Sounds, Voice, voices,
};
use crookwise_theory::label::DecodeOptions;
use crookwise_theory::{Intonation, Printed};

/// A page: for each staff its label and, column by column, what its players do: "C4", "C4,E4" for two of them, "=" for
/// held and "-" for a rest.
fn page(key: &str, staves: &[(&str, usize, &str)]) -> Passage {
    let mut passage = Passage::default();
    passage.movement = (!key.is_empty()).then(|| key.parse().unwrap());
    for (label, players, cells) in staves {
        let staff = passage.add_staff(label).unwrap();
        passage.set_players(staff, *players).unwrap();
        for (column, cell) in cells.split_whitespace().enumerate() {
            if let Some(together) = cell.strip_prefix("a2:") {
                passage.set_together(staff, column, Printed(together.parse().unwrap())).unwrap();
                continue;
            }
            for (player, event) in cell.split(',').enumerate() {
                let event = match event {
                    "-" => Event::Rest,
                    "=" => Event::Held,
                    note => Event::Note(Printed(note.parse().unwrap())),
                };
                passage.set(staff, column, player, event).unwrap();
            }
        }
    }
    passage
}

fn resolved(passage: &Passage) -> Vec<ResolvedStaff> {
    ResolvedStaff::all(passage, DecodeOptions::default())
}

fn sounds(passage: &Passage) -> Sounds {
    Sounds::of(passage, &resolved(passage).iter().collect::<Vec<_>>(), Intonation::default(), None)
}

fn sounding(passage: &Passage, column: usize) -> Vec<Voice> {
    voices(passage, &resolved(passage).iter().collect::<Vec<_>>(), column, Intonation::default())
}

/// Staff, player and sound of each voice: "0.1 G4", with "=" where it is held and "'" where it is a doubling.
fn heard(voices: &[Voice]) -> Vec<String> {
    let one = |voice: &Voice| {
        let held = if voice.held { "=" } else { "" };
        let doubling = if voice.doubled_below { "'" } else { "" };
        format!("{}.{} {}{held}{doubling}", voice.staff, voice.number, voice.sounding)
    };
    voices.iter().map(one).collect()
}

#[test]
fn every_player_has_a_voice() {
    let passage = page(
        "Eb major",
        &[("2 Corni in Es", 2, "C5,E4 a2:G4 -,C4"), ("Violino I", 1, "G4 = ="), ("Viola", 1, "-")],
    );
    assert_eq!(heard(&sounding(&passage, 0)), ["0.1 Eb4", "0.2 G3", "1.1 G4"]);
    assert_eq!(heard(&sounding(&passage, 1)), ["0.1 Bb3", "0.2 Bb3", "1.1 G4="]);
    assert_eq!(heard(&sounding(&passage, 2)), ["0.2 Eb3", "1.1 G4="]);
    assert!(sounding(&passage, 3).is_empty() && sounding(&passage, 99).is_empty());
    let [first, second, violin] = sounding(&passage, 1)[..] else { panic!() };
    assert_eq!((first.player, second.player, first.onset, violin.onset), (0, 1, 1, 0));
    assert_eq!(first.written.to_string(), "G4");
    assert!(first.reading.making.is_some() && violin.reading.making.is_none());
}

#[test]
fn players_have_the_numbers_of_the_label() {
    let numbers = |label: &str, players: usize, cells: &str| -> Vec<u32> {
        sounding(&page("", &[(label, players, cells)]), 0).iter().map(|voice| voice.number).collect()
    };
    assert_eq!(numbers("Corno 3, 4 in Es", 2, "C5,E4"), [3, 4]);
    assert_eq!(numbers("Corno I in B alto, Corno II in G", 2, "C4,E4"), [1, 2]);
    assert_eq!(numbers("Corni in Es", 3, "C5,G4,E4"), [1, 2, 3]);
    assert_eq!(numbers("Corno 3, 4 in Es", 3, "C5,G4,E4"), [3, 4, 5]);
    assert_eq!(numbers("Corno 2 in F", 1, "C5"), [2]);
}

#[test]
fn basses_double_an_octave_below() {
    let passage =
        page("C major", &[("Violino", 1, "E4"), ("Viola", 1, "C4"), ("Violoncello e Basso", 1, "G2")]);
    let voices = sounding(&passage, 0);
    assert_eq!(heard(&voices), ["0.1 E4", "1.1 C4", "2.1 G2", "2.1 G1'"]);
    let (upper, lower) = (voices[2].reading, voices[3].reading);
    assert_eq!(lower.sounding, voices[3].sounding);
    assert!((upper.target_hz - 2.0 * lower.target_hz).abs() < 1e-9);
    let harmony = Harmony::of_voices(&voices, passage.movement);
    let fifth = harmony.members.iter().find(|member| member.role == Role::Fifth).unwrap();
    assert_eq!((&fifth.voices[..], fifth.octaves.as_slice()), (&[3, 2][..], &[(1, 1), (2, 1)][..]));
    // The doubling is the bass even where another voice goes below the note it doubles.
    let passage =
        page("C major", &[("Fagotto", 1, "E2"), ("Viola", 1, "C4"), ("Violoncello e Basso", 1, "G2")]);
    let harmony = Harmony::of_voices(&sounding(&passage, 0), passage.movement);
    assert_eq!(harmony.to_string(), "C major, fifth in the bass");
}

#[test]
fn a_page_of_transposing_staves_makes_one_chord() {
    let passage = page(
        "Eb major",
        &[
            ("Clarinetti in B", 2, "F5,C5"),
            ("Corni in Es", 2, "E5,G4"),
            ("Trombe in Es", 2, "a2:C5"),
            ("Timpani in Es-B", 1, "Eb3"),
            ("Violoncello e Basso", 1, "Eb3"),
        ],
    );
    let voices = sounding(&passage, 0);
    let harmony = Harmony::of_voices(&voices, passage.movement);
    assert_eq!(harmony.to_string(), "E-flat major");
    let third = harmony.members.iter().find(|member| member.role == Role::Third).unwrap();
    let holders: Vec<_> =
        third.voices.iter().map(|&voice| (voices[voice].staff, voices[voice].number)).collect();
    assert_eq!(holders, [(1, 1)]);
    assert_eq!(harmony.degree.unwrap().to_string(), "1");
}

#[test]
fn a_held_note_sounds_as_it_was_begun() {
    let mut passage = page("", &[("Corni in Es", 1, "C5 =")]);
    passage
        .set_change(0, Change { column: 1, player: None, to: ChangeTo::Label("Corni in F".into()) })
        .unwrap();
    assert_eq!(heard(&sounding(&passage, 1)), ["0.1 Eb4="]);
}

#[test]
fn a_label_that_names_nothing_is_silent() {
    let passage = page("", &[("xyzzy", 1, "C5"), ("Oboe", 1, "E5")]);
    assert_eq!(heard(&sounding(&passage, 0)), ["1.1 E5"]);
    assert!(voices(&passage, &[], 0, Intonation::default()).is_empty());
}

/// The notes of each column on one staff: "~" before a tied one, "!" after one that is respelled, "x2" for two voices.
fn reduction(passage: &Passage, hand: Hand) -> Vec<String> {
    let columns = reduce(passage, &sounds(passage));
    let column = |column: &crookwise_score::ReducedColumn| {
        let notes = column.on(hand).map(|note| {
            let tied = if note.tied { "~" } else { "" };
            let marked = if note.respelled { "!" } else { "" };
            let times = if note.voices.len() > 1 { format!("x{}", note.voices.len()) } else { String::new() };
            format!("{tied}{}{marked}{times}", note.pitch)
        });
        notes.collect::<Vec<_>>().join(" ")
    };
    columns.iter().map(column).collect()
}

#[test]
fn the_reduction_folds_doublings_and_ties_what_is_held() {
    let passage = page(
        "Eb major",
        &[
            ("Corni in Es", 2, "G5,E5 =,= =,C5"),
            ("Violino", 1, "Bb4 Bb4 ="),
            ("Viola", 1, "C4 A3 -"),
            ("Violoncello e Basso", 1, "Eb3 = -"),
        ],
    );
    assert_eq!(reduction(&passage, Hand::Upper), ["C4 G4 Bb4x2", "~G4 Bb4x2", "Eb4 ~Bb4x2"]);
    assert_eq!(reduction(&passage, Hand::Lower), ["Eb2 Eb3", "~Eb2 ~Eb3 A3", ""]);
}

#[test]
fn the_reduction_is_spelled_in_the_key_and_marked() {
    // A horn in E whose D-sharp sounds F-double-sharp.
    let passage = page("Eb major", &[("Corno in E", 1, "D#5"), ("Viola", 1, "B#3"), ("Violino", 1, "Eb4")]);
    assert_eq!(reduction(&passage, Hand::Upper), ["C4! Eb4 G4!"]);
    // The third of the chord is spelled as its third, though the key alone would call it A-flat.
    let passage =
        page("C major", &[("Violino", 1, "G#4 Ab4"), ("Viola", 1, "E4 E4"), ("Violoncello", 1, "B3 B3")]);
    assert_eq!(reduction(&passage, Hand::Upper), ["E4 G#4", "E4 G#4!"]);
    assert_eq!(reduction(&passage, Hand::Lower), ["B3", "B3"]);
    // A tied note keeps its letter.
    let passage =
        page("C major", &[("Violino", 1, "G#4 ="), ("Viola", 1, "E4 F4"), ("Violoncello", 1, "B3 Db3")]);
    assert_eq!(reduction(&passage, Hand::Upper), ["E4 G#4", "F4 ~G#4"]);
    assert_eq!(reduction(&passage, Hand::Lower), ["B3", "Db3"]);
}

#[test]
fn the_staves_of_the_reduction_part_at_middle_c_by_sound() {
    let passage = page("", &[("Violino", 1, "C4"), ("Viola", 1, "B3"), ("Violoncello", 1, "Cb4")]);
    assert_eq!(reduction(&passage, Hand::Upper), ["C4"]);
    // One key is one note, whatever its letters.
    assert_eq!(reduction(&passage, Hand::Lower), ["B3!x2"]);
}

#[test]
fn numbers_and_crooks_are_those_of_the_seats() {
    // Each player has the crook that stands with his number; this label was numbered three ways.
    let voices = sounding(&page("", &[("Corno III in B alto, Corno IV in G", 2, "C5,C5")]), 0);
    assert_eq!(heard(&voices), ["0.3 Bb4", "0.4 G4"]);
    let voices = sounding(&page("", &[("Corni I. II. in Es, III. IV. in C", 4, "C5,C5,C5,C5")]), 0);
    assert_eq!(heard(&voices), ["0.1 Eb4", "0.2 Eb4", "0.3 C4", "0.4 C4"]);
}
