//! Asking the pinned Python library.

#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use serde_json::Value;
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Stdio};

/// What a script under `tests/python` answers to these questions, by the pinned version of the library.
pub fn ask(python: &str, script: &str, questions: &Value) -> Value {
    ask_of("10.5.1", python, script, questions)
}

/// The same of a library of this version.
pub fn ask_of(version: &str, python: &str, script: &str, questions: &Value) -> Value {
    let mut child = Command::new(python)
        .arg(Path::new(env!("CARGO_MANIFEST_DIR")).join("python").join(script))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap_or_else(|error| panic!("CROOKWISE_PYTHON is {python}, which does not start: {error}"));
    let mut input = child.stdin.take().unwrap();
    let text = questions.to_string();
    // Written from beside, so that neither side waits for the other with a full pipe.
    let writer = std::thread::spawn(move || input.write_all(text.as_bytes()));
    let output = child.wait_with_output().unwrap();
    writer.join().unwrap().unwrap();
    assert!(output.status.success(), "{script} failed: {}", output.status);
    let answers: Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(answers["version"], version);
    answers
}
