//! A fresh run of music21 10.5.1 beside the stored values: the same questions to it, to the theory, and to the oracles.
//!
//! `CROOKWISE_PYTHON` names a Python that has what `tests/python/requirements.txt` lists.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crate::library::ask;
use crookwise_tests::outside::Comparison;
use crookwise_theory::{Clef, Interval, Partial, Pitch, Signature, Step, Transposition, Tuning, Written};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};

fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name)
}

fn stored(name: &str) -> Vec<Value> {
    let text = std::fs::read_to_string(folder("oracles").join(name)).unwrap();
    serde_json::from_str::<Value>(&text).unwrap()["rows"].as_array().unwrap().clone()
}

/// Numbers that look like chance and are the same in every run (xorshift, seed 2024).
struct Chance(u64);

impl Chance {
    fn below(&mut self, bound: i32) -> i32 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        i32::try_from(self.0 % u64::try_from(bound).unwrap()).unwrap()
    }

    fn pitch(&mut self) -> Pitch {
        Pitch::new(Step::from_index(self.below(7)), self.below(5) - 2, 1 + self.below(6))
    }

    /// An interval up to two octaves either way, from diminished to augmented.
    fn interval(&mut self) -> Interval {
        let steps = self.below(29) - 14;
        let natural = Interval::between(Pitch::natural(Step::C, 4), Pitch::from_diatonic(28 + steps, 0));
        Interval::new(steps, natural.semitones + self.below(4) - 2)
    }
}

/// The comparisons of this file.
pub const COMPARISONS: &[Comparison] = &crookwise_tests::comparisons![a_fresh_run_of_music21_agrees];

fn a_fresh_run_of_music21_agrees(python: &str) {
    let mut chance = Chance(2024);
    let cases: Vec<(Pitch, Interval)> = (0..600).map(|_| (chance.pitch(), chance.interval())).collect();
    let signatures: Vec<(i32, Interval)> =
        (0..200).map(|_| (chance.below(15) - 7, chance.interval())).collect();
    let frequencies: Vec<(Pitch, i32)> =
        (0..200).map(|_| (chance.pitch(), 370 + chance.below(201))).collect();

    // The stored rows once more, so that the oracles are what the library says today.
    let instruments = stored("instruments.json");
    let sounding = stored("sounding.json");
    let names = stored("interval_names.json");
    let keys = stored("keysig.json");
    let clefs: Vec<Clef> = Clef::ALL.to_vec();
    let number_of = |row: &Value| {
        let found = instruments.iter().find(|one| one["label"] == row[0]).unwrap();
        (found["total_diatonic"].clone(), found["total_chromatic"].clone())
    };

    let transposed = cases.iter().map(|(pitch, by)| json!([pitch.to_string(), by.steps, by.semitones]));
    let again = sounding.iter().map(|row| {
        let (steps, semitones) = number_of(row);
        json!([row[1], steps, semitones])
    });
    let answers = ask(
        python,
        "oracle.py",
        &json!({
            "transpose": transposed.chain(again).collect::<Vec<_>>(),
            "intervals": cases.iter().map(|(_, by)| json!([by.steps, by.semitones]))
                .chain(names.iter().map(|row| json!([row[0], row[1]]))).collect::<Vec<_>>(),
            "signatures": signatures.iter().map(|(fifths, by)| json!([fifths, by.steps, by.semitones]))
                .chain(keys.iter().map(|row| json!([row["written_fifths"], row["diatonic"], row["chromatic"]])))
                .collect::<Vec<_>>(),
            "harmonics": (1..=32).collect::<Vec<_>>(),
            "frequencies": frequencies.iter().map(|(pitch, a4)| json!([pitch.to_string(), a4])).collect::<Vec<_>>(),
            "clefs": clefs.iter().map(|clef| json!([format!("{:?}", clef.sign), clef.line()])).collect::<Vec<_>>(),
        }),
    );
    let found = answers["transpose"].as_array().unwrap();
    assert_eq!(found.len(), cases.len() + sounding.len());
    let mut respelled = 0;
    for ((pitch, by), answer) in cases.iter().zip(found) {
        let ours = Transposition(*by).to_sounding(Written(*pitch)).0;
        assert_eq!(Interval::between(*pitch, ours), *by);
        if ours.alter.abs() > 4 {
            // It knows no more than four signs and takes another spelling of the same key.
            assert_eq!(json!(ours.midi()), answer[1], "{pitch} by {by:?}");
            respelled += 1;
        } else {
            assert_eq!(json!([ours.to_string(), ours.midi()]), *answer, "{pitch} by {by:?}");
        }
    }
    assert!(respelled < cases.len() / 50, "{respelled}");
    for (row, answer) in sounding.iter().zip(&found[cases.len()..]) {
        assert_eq!(json!([row[2], row[3]]), *answer, "{row}");
    }

    let found = answers["intervals"].as_array().unwrap();
    for ((_, by), answer) in cases.iter().zip(found) {
        let mut theirs = answer.as_str().unwrap().replace('-', "");
        // A unison that goes down is a diminished one there and an augmented one downwards here.
        if by.steps == 0 && by.semitones < 0 {
            theirs = theirs.replace('d', "A");
        }
        assert_eq!(by.short(), theirs, "{by:?}");
    }
    for (row, answer) in names.iter().zip(&found[cases.len()..]) {
        assert_eq!(row[2], *answer, "{row}");
    }

    let found = answers["signatures"].as_array().unwrap();
    for ((fifths, by), answer) in signatures.iter().zip(found) {
        assert_eq!(json!(Signature(*fifths).transposed(*by).0), *answer, "{fifths} by {by:?}");
    }
    for (row, answer) in keys.iter().zip(&found[signatures.len()..]) {
        assert_eq!(row["sounding_fifths_theoretical"], *answer, "{row}");
    }

    for (number, answer) in (1..=32).zip(answers["harmonics"].as_array().unwrap()) {
        let (ours, theirs) = (Partial::new(number).unwrap().cents(), answer.as_f64().unwrap());
        assert!((ours - theirs).abs() <= 0.5 + 1e-6, "partial {number}: {ours} {theirs}");
    }
    for ((pitch, a4), answer) in frequencies.iter().zip(answers["frequencies"].as_array().unwrap()) {
        let ours = Tuning { a4: f64::from(*a4), ..Tuning::default() }.frequency(*pitch);
        let theirs = answer.as_f64().unwrap();
        assert!((ours / theirs - 1.0).abs() < 1e-9, "{pitch} at {a4}: {ours} {theirs}");
    }
    for (clef, answer) in clefs.iter().zip(answers["clefs"].as_array().unwrap()) {
        assert_eq!(json!(clef.bottom_line().to_string()), *answer, "{clef}");
    }
}
