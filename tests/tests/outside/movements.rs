//! What several comparisons need of the real scores: opening one, its labels read, the hand-made lists, and saying what was
//! found.

#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crookwise_musicxml::{Import, import};
use crookwise_score::score::Score;
use crookwise_theory::label::{DecodeOptions, Decoded, decode};
use std::io::Write as _;
use std::path::Path;
use std::sync::Arc;

/// The movements, by name.
pub const MOVEMENTS: [&str; 12] = [
    "Bach_BWV.1048_2",
    "Bach_BWV.232_17",
    "Beethoven_Op.125_3",
    "Beethoven_Op.125_4",
    "Beethoven_Op.36_2",
    "Beethoven_Op.55_3",
    "Beethoven_Op.67_1",
    "Beethoven_Op.67_4",
    "Beethoven_Op.92_1",
    "Brahms_Op.68_3",
    "Brahms_Op.68_4",
    "Haydn_104_1",
];

/// A line on the test's own output that is not held back.
pub fn say(line: &str) {
    let _ = writeln!(std::io::stdout(), "{line}");
}

/// A movement by its name.
pub fn movement(folder: &str, name: &str) -> Import {
    import(&std::fs::read(Path::new(folder).join(format!("{name}.mxl"))).unwrap()).unwrap()
}

/// The same with what its file has of old bass-clef notation read as such.
pub fn repaired(folder: &str, name: &str) -> Score {
    let mut score = movement(folder, name).score;
    for old in score.old_bass(&mut decoder) {
        score.read_old_bass(old.staff);
    }
    score
}

/// Reads a label.
pub fn decoder(text: &str) -> Arc<Decoded> {
    Arc::new(decode(text, DecodeOptions::default()))
}

/// The rows of a list under `tests/labels`, without its head.
pub fn rows(name: &str) -> Vec<Vec<String>> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("labels").join(name);
    let text = std::fs::read_to_string(path).unwrap();
    text.lines().skip(1).map(|line| line.split('\t').map(str::to_owned).collect()).collect()
}
