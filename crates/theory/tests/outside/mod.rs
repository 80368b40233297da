//! What the checks against outside references share: the stored values of other libraries, the trade's tables, and
//! staves by label.

#![allow(dead_code, reason = "each test binary uses its own part")]

use crookwise_theory::label::{DecodeOptions, StaffLabel, decode};
use crookwise_theory::{Habits, Instrument, Pitch, Printed, Situation, Sounding, Step, read, write};
use serde_json::Value;
use std::fs;
use std::path::Path;

/// A file of values from outside libraries; each says in its `provenance` where they come from.
pub fn oracle(name: &str) -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/oracles").join(name);
    let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    serde_json::from_str(&text).unwrap()
}

/// The rows of an oracle.
pub fn oracle_rows(name: &str) -> Vec<Value> {
    oracle(name)["rows"].as_array().unwrap().clone()
}

/// The rows of a table of the trade, its head left out.
pub fn table(name: &str) -> Vec<csv::StringRecord> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("data").join(name);
    csv::Reader::from_path(path).unwrap().records().map(Result::unwrap).collect()
}

/// A whole number of an oracle.
pub fn int(value: &Value) -> i32 {
    i32::try_from(value.as_i64().unwrap_or_else(|| panic!("no whole number: {value}"))).unwrap()
}

/// A number of an oracle.
pub fn float(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("no number: {value}"))
}

/// A text of an oracle.
pub fn text(value: &Value) -> &str {
    value.as_str().unwrap_or_else(|| panic!("no text: {value}"))
}

pub fn pitch(name: &str) -> Pitch {
    name.parse().unwrap_or_else(|error| panic!("{name}: {error}"))
}

/// The pitches of a cell such as "C♯/D♭3", "F5 or F♯5", "B♭4 (low)": every one it names.
pub fn pitches(cell: &str) -> Vec<Pitch> {
    let octave = cell.chars().find(char::is_ascii_digit).unwrap();
    let mut found = Vec::new();
    let mut letters = cell.chars().peekable();
    let mut before = ' ';
    while let Some(letter) = letters.next() {
        let starts = !before.is_alphabetic();
        before = letter;
        let Some(step) = Step::from_letter(letter).filter(|_| letter.is_ascii_uppercase() && starts) else {
            continue;
        };
        let alter = match letters.peek() {
            Some('♯' | '#') => 1,
            Some('♭') => -1,
            _ => 0,
        };
        found.push(Pitch::new(step, alter, octave.to_digit(10).unwrap() as i32));
    }
    found
}

/// The one staff a label names; it must be understood to the last word.
pub fn staff(label: &str) -> StaffLabel {
    let decoded = decode(label, DecodeOptions::default());
    assert_eq!(decoded.problem, None, "{label}");
    assert_eq!(decoded.staves.len(), 1, "{label}: {decoded:?}");
    decoded.staves.into_iter().next().unwrap()
}

/// A staff of an instrument that no label names by itself.
pub fn staff_of(id: &str) -> StaffLabel {
    let instrument = Instrument::by_id(id).unwrap();
    StaffLabel {
        instrument,
        key: None,
        octave: None,
        count: None,
        players: Vec::new(),
        mechanism: None,
        doubled_below: false,
        drums: Vec::new(),
        transposition: instrument.transposition.unwrap(),
    }
}

/// Paper to sound and sound to paper must agree with the reference.
pub fn both_ways(staff: &StaffLabel, habits: Habits, printed: &str, sounding: &str, what: &str) {
    let situation = Situation::of(staff, habits);
    let there = read(&situation, Printed(pitch(printed)));
    assert_eq!(there.sounding.to_string(), sounding, "{what}: printed {printed}");
    let back = write(&situation, Sounding(pitch(sounding)));
    assert_eq!(back.strict.printed.to_string(), printed, "{what}: sounding {sounding}");
}
