//! The course of the harmonies as bare chords on a grand staff.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crookwise_score::chord::Harmony;
use crookwise_score::harmony::{ScoreHarmony, harmonies};
use crookwise_score::printed::{PrintedBar, PrintedStaff, skeleton};
use crookwise_score::score::{
    Look, Moment, NoteId, PlayedBy, Quarters, Score, ScoreNote, StaffId, TimeSignature,
};
use crookwise_theory::label::{DecodeOptions, decode};
use crookwise_theory::{Pitch, Printed};
use std::collections::HashMap;
use std::sync::Arc;

/// So many bars of four quarters for strings at sounding pitch; each note as (bar, quarter, quarters, pitch).
fn score(bars: usize, notes: &[(u32, i32, i32, &str)]) -> (Score, HashMap<NoteId, StaffId>) {
    let mut score = Score::default();
    let part = score.add_part("Violini");
    let staff = score.add_staff(part, "Violini", 1).unwrap();
    for bar in 0..bars {
        let time = (bar == 0).then_some(TimeSignature { beats: 4, value: 4 });
        score.add_bar(&(bar + 1).to_string(), Quarters::whole(4), time).unwrap();
    }
    let mut owners = HashMap::new();
    for (bar, quarter, quarters, pitch) in notes {
        let start = Quarters::whole(i32::try_from(*bar).unwrap() * 4 + quarter);
        let note = ScoreNote {
            printed: Some(Printed(pitch.parse().unwrap())),
            voice: 1,
            by: PlayedBy::Voice,
            start: Moment::measured(start),
            end: Moment::measured(start.plus(Quarters::whole(*quarters)).unwrap()),
            tied: false,
            grace: false,
            tuplet: None,
            bar: *bar,
            look: Look::default(),
        };
        owners.insert(score.add_note(staff, note).unwrap(), staff);
    }
    (score, owners)
}

fn texts(bar: &PrintedBar) -> Vec<(Quarters, Vec<String>)> {
    let event = |event: &crookwise_score::printed::PrintedEvent| {
        (event.at, event.notes.iter().map(|note| note.pitch.to_string()).collect())
    };
    bar.voices.iter().flatten().map(event).collect()
}

fn reduced(score: &Score, owners: &HashMap<NoteId, StaffId>) -> [PrintedStaff; 2] {
    let mut decoder = |text: &str| Arc::new(decode(text, DecodeOptions::default()));
    let found = harmonies(score, &score.sounded(&mut decoder));
    skeleton(score, &found, &|note| owners.get(&note).copied())
}

#[test]
fn a_chord_stands_where_it_begins_and_is_tied_over_the_bar_line() {
    // C major for a bar and a half, then its dominant seventh.
    let chord =
        |bar, quarter, quarters, names: [&'static str; 4]| names.map(|name| (bar, quarter, quarters, name));
    let mut notes = Vec::new();
    notes.extend(chord(0, 0, 4, ["C3", "E4", "G4", "C5"]));
    notes.extend(chord(1, 0, 2, ["C3", "E4", "G4", "C5"]));
    notes.extend(chord(1, 2, 2, ["G2", "F4", "B4", "D5"]));
    let (score, owners) = score(2, &notes);
    let [upper, lower] = reduced(&score, &owners);
    let names = |all: &[&str]| all.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>();
    // Each letter once: of the two C the upper staff has its own.
    assert_eq!(texts(&upper.bars[0]), [(Quarters::ZERO, names(&["E4", "G4", "C5"]))]);
    assert_eq!(texts(&lower.bars[0]), [(Quarters::ZERO, names(&["C3"]))]);
    let second = texts(&upper.bars[1]);
    assert_eq!(second[0], (Quarters::ZERO, names(&["E4", "G4", "C5"])));
    assert_eq!(second[1], (Quarters::whole(2), names(&["F4", "B4", "D5"])));
    assert_eq!(texts(&lower.bars[1])[1], (Quarters::whole(2), names(&["G2"])));
    let tie = |bar: usize, event: usize| {
        let note = &upper.bars[bar].voices[0][event].notes[0];
        (note.tied, note.tied_on)
    };
    assert_eq!((tie(0, 0), tie(1, 0), tie(1, 1)), ((false, true), (true, false), (false, false)));
}

#[test]
fn what_lies_far_out_is_brought_nearer_and_a_letter_stands_once() {
    let pitches: Vec<Pitch> =
        ["A0", "A2", "E3", "C6", "E6", "A6", "E7"].iter().map(|text| text.parse().unwrap()).collect();
    let (score, owners) = score(1, &[]);
    assert!(owners.is_empty());
    let notes: Vec<NoteId> = {
        let (other, owners) = self::score(1, &[(0, 0, 4, "A2"); 7]);
        assert_eq!(other.bars().len(), 1);
        let mut all: Vec<NoteId> = owners.into_keys().collect();
        all.sort_by_key(|note| note.number());
        all
    };
    let own = ScoreHarmony {
        from: Quarters::ZERO,
        to: Quarters::whole(4),
        bar: 0,
        key: None,
        harmony: Harmony::of_pitches(&pitches, None),
        notes,
        drums: Vec::new(),
    };
    let mut any = Score::default();
    let part = any.add_part("");
    let staff = any.add_staff(part, "", 1).unwrap();
    let [upper, lower] = skeleton(&score, &[own], &|_| Some(staff));
    let names = |bar: &PrintedBar| texts(bar).remove(0).1;
    assert_eq!(names(&upper.bars[0]), ["E5", "A5", "C6"]);
    assert_eq!(names(&lower.bars[0]), ["A2", "E3"]);
}

#[test]
fn a_staff_without_a_chord_rests_for_the_whole_bar() {
    let (score, owners) = score(1, &[(0, 0, 4, "C5"), (0, 0, 4, "E5"), (0, 0, 4, "G5")]);
    let [upper, lower] = reduced(&score, &owners);
    assert_eq!(texts(&upper.bars[0]).len(), 1);
    let rest = &lower.bars[0].voices[0][0];
    assert!(rest.whole_bar && rest.is_rest());
}

#[test]
fn a_letter_stands_where_it_is_highest_and_a_bar_begins_with_its_own_chord() {
    let mut notes = Vec::new();
    for name in ["D3", "D4", "F#4", "A4", "D5"] {
        notes.push((0, 0, 4, name));
    }
    for name in ["G2", "B3", "D4", "G4", "B4"] {
        notes.push((1, 0, 4, name));
    }
    let (score, owners) = score(2, &notes);
    let [upper, lower] = reduced(&score, &owners);
    assert_eq!(texts(&upper.bars[0])[0].1, ["F#4", "A4", "D5"]);
    assert_eq!(texts(&lower.bars[0])[0].1, ["D3"]);
    // The chord before ends with its bar, and leaves nothing in the next.
    assert_eq!(texts(&upper.bars[1]), [(Quarters::ZERO, ["D4", "G4", "B4"].map(str::to_owned).to_vec())]);
    assert_eq!(texts(&lower.bars[1])[0].1, ["G2", "B3"]);
    let signs: Vec<Option<i8>> =
        upper.bars[0].voices[0][0].notes.iter().map(|note| note.accidental).collect();
    assert_eq!(signs, [Some(1), None, None]);
}
