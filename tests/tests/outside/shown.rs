//! The brass of real scores as their rows show it, beside the pinned library: what is written and what sounds, note by note,
//! by bar, place in the bar, letter, accidental and octave.

use super::engraved::is_brass;
use super::library::ask;
use super::movements::{MOVEMENTS, decoder, movement, repaired, say};
use crookwise_score::printed::{PrintedStaff, Row, RowPitch, printed};
use crookwise_score::score::{Quarters, Score, StaffId};
use crookwise_tests::outside::{Comparison, PYTHON, said};
use crookwise_theory::Intonation;
use serde_json::{Value, json};
use std::path::Path;

pub const BY_THE_LIBRARY: &[Comparison] =
    &[("the_brass_is_shown_as_the_library_hears_it", the_brass_is_shown_as_the_library_hears_it)];

pub const COMPARISONS: &[Comparison] = &[(
    "the_second_horn_sounds_e_where_old_notation_is_read",
    the_second_horn_sounds_e_where_old_notation_is_read,
)];

fn row(score: &Score, staff: StaffId, pitch: RowPitch) -> PrintedStaff {
    printed(score, &Row { staves: vec![staff], pitch }, Intonation::default(), &mut decoder)
}

/// The notes of a row: "bar place pitch", in order of time and of letters as the library's are.
fn notes(row: &PrintedStaff) -> Vec<String> {
    let mut found: Vec<(usize, Quarters, String)> = Vec::new();
    for (number, bar) in row.bars.iter().enumerate() {
        for event in bar.voices.iter().flatten() {
            let all = event.graces.iter().flat_map(|grace| &grace.notes).chain(&event.notes);
            found.extend(all.map(|note| (number, event.at, note.pitch.to_string())));
        }
    }
    found.sort();
    let said = |at: Quarters| match at.fraction() {
        (over, 1) => over.to_string(),
        (over, under) => format!("{over}/{under}"),
    };
    found.into_iter().map(|(bar, at, pitch)| format!("{bar} {} {pitch}", said(at))).collect()
}

/// The brass parts of a score, each of one staff: their numbers in the file and their staves.
fn brass(score: &Score) -> Vec<(usize, StaffId)> {
    let parts = score.parts().iter().enumerate();
    let one = parts.filter_map(|(number, part)| match part.staves.as_slice() {
        [staff] if is_brass(score, staff) => Some((number, staff.id)),
        _ => None,
    });
    one.collect()
}

fn the_brass_is_shown_as_the_library_hears_it(folder: &str) {
    let scores: Vec<(&str, Score)> =
        MOVEMENTS.iter().map(|name| (*name, movement(folder, name).score)).collect();
    let parts: Vec<Vec<(usize, StaffId)>> = scores.iter().map(|(_, score)| brass(score)).collect();
    let questions = scores.iter().zip(&parts).map(|((name, _), parts)| {
        let path = Path::new(folder).join(format!("{name}.mxl"));
        json!({ "path": path, "parts": parts.iter().map(|(number, _)| number).collect::<Vec<_>>() })
    });
    let questions: Vec<Value> = questions.filter(|one| one["parts"] != json!([])).collect();
    let answers = ask(&said(PYTHON), "shown.py", &json!({ "scores": questions }));
    let mut answers = answers["scores"].as_array().expect("an answer for each score").iter();
    let (mut compared, mut of_parts) = (0, 0);
    for ((name, score), parts) in scores.iter().zip(&parts).filter(|(_, parts)| !parts.is_empty()) {
        let told = answers.next().and_then(Value::as_array).expect("its parts");
        assert_eq!(told.len(), parts.len(), "{name}");
        for ((number, staff), told) in parts.iter().zip(told) {
            for (pitch, kind) in [(RowPitch::Written, "written"), (RowPitch::Sounding, "sounding")] {
                let ours = notes(&row(score, *staff, pitch));
                let theirs: Vec<&str> =
                    told[kind].as_array().expect("notes").iter().filter_map(Value::as_str).collect();
                let differ = ours.iter().zip(&theirs).find(|(one, other)| one != other);
                assert!(differ.is_none(), "{name}, part {number}, {kind}: here and there {differ:?}");
                assert_eq!(ours.len(), theirs.len(), "{name}, part {number}, {kind}");
                compared += ours.len();
            }
            of_parts += 1;
        }
    }
    say(&format!("{compared} notes of {of_parts} brass parts are shown as the library has them"));
    assert!(compared > 20_000, "{compared}");
}

/// The case the published notes on these scores name: read as old notation, what stands in bars 401 to 422 sounds E2.
fn the_second_horn_sounds_e_where_old_notation_is_read(folder: &str) {
    let score = repaired(folder, "Beethoven_Op.92_1");
    let mut horns =
        brass(&score).into_iter().filter(|(number, _)| score.parts()[*number].name.contains("Horn"));
    let (_, second) = horns.next_back().expect("two horns");
    let row = row(&score, second, RowPitch::Sounding);
    let mut sounds: Vec<String> = Vec::new();
    for (bar, own) in row.bars.iter().zip(score.bars()) {
        let number = own.number.parse::<u32>().unwrap_or(0);
        if (401..=422).contains(&number) {
            let notes = bar.voices.iter().flatten().flat_map(|event| &event.notes);
            sounds.extend(notes.map(|note| note.pitch.to_string()));
        }
    }
    say(&format!(
        "the second horn in bars 401 to 422: {} notes, {}",
        sounds.len(),
        sounds.first().map_or("", |one| one)
    ));
    assert!(sounds.len() >= 20 && sounds.iter().all(|one| one == "E2"), "{sounds:?}");
}
