//! Questions as they were: the same exercise gives the same questions on every machine and in every build.
//!
//! `UPDATE=1 cargo test -p crookwise-practice` writes the file anew; look at what changed, for links that were sent
//! then give other questions. Each exercise stands there as its packed bytes in hexadecimal, so that the same file
//! serves to compare what the app gives in a browser.
#![allow(clippy::unwrap_used, reason = "a test may fail")]

mod kit;

use crookwise_practice::{Exercise, Kind};
use kit::set_exercises;
use std::fmt::Write;

const FILE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/questions.txt");

fn snapshot() -> String {
    let mut out = String::new();
    for exercise in set_exercises() {
        for seed in [1, 2, 3, 0x00c0_ffee] {
            let exercise = Exercise { seed, ..exercise.clone() };
            let bytes = exercise.pack();
            out.push_str("exercise ");
            bytes.iter().for_each(|byte| write!(out, "{byte:02x}").unwrap());
            out.push_str("\n\n");
            for question in exercise.questions().unwrap() {
                writeln!(out, "{}", question.canonical()).unwrap();
            }
        }
    }
    out
}

#[test]
fn questions_are_as_they_were() {
    let now = snapshot();
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(FILE, &now).unwrap();
    }
    let then = std::fs::read_to_string(FILE).unwrap();
    for (number, (now, then)) in now.lines().zip(then.lines()).enumerate() {
        assert_eq!(now, then, "line {} of tests/questions.txt", number + 1);
    }
    assert_eq!(now.len(), then.len());
    from_the_bytes_alone(&then);
}

/// The file can be read back without the exercises beside it.
fn from_the_bytes_alone(file: &str) {
    let mut count = 0;
    let mut kinds = Vec::new();
    for part in file.split("exercise ").skip(1) {
        let (hex, rest) = part.split_once("\n\n").unwrap();
        let bytes: Vec<u8> =
            (0..hex.len()).step_by(2).map(|at| u8::from_str_radix(&hex[at..at + 2], 16).unwrap()).collect();
        let mut text = String::new();
        for question in Exercise::unpack(&bytes, None).unwrap().questions().unwrap() {
            writeln!(text, "{}", question.canonical()).unwrap();
            kinds.push(question.kind);
            count += 1;
        }
        assert_eq!(text, rest);
    }
    assert!(count >= 300, "{count}");
    assert!(Kind::ALL.iter().all(|kind| kinds.contains(kind)));
}
