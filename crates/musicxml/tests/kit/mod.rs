//! Small files made for a test.
#![allow(dead_code, reason = "each file of tests takes what it needs")]

pub mod bare;
pub mod constructs;

use crookwise_musicxml::{Import, import_text};
use crookwise_score::score::{Part, PartStaff};

/// A score of these parts, each a name and its measures.
pub fn score(parts: &[(&str, &str)]) -> String {
    let list: String = (1..)
        .zip(parts)
        .map(|(number, (name, _))| {
            format!("<score-part id=\"P{number}\"><part-name>{name}</part-name></score-part>")
        })
        .collect();
    let music: String = (1..)
        .zip(parts)
        .map(|(number, (_, music))| format!("<part id=\"P{number}\">{music}</part>"))
        .collect();
    format!(
        "<?xml version=\"1.0\"?><score-partwise version=\"4.0\"><part-list>{list}</part-list>{music}</score-partwise>"
    )
}

/// One bar.
pub fn bar(number: u32, inside: &str) -> String {
    format!("<measure number=\"{number}\">{inside}</measure>")
}

/// A note of so many divisions: "C4 2", "Bb3 1", or "r 4" for a rest; `inside` stands behind the duration.
pub fn note(text: &str, inside: &str) -> String {
    let (pitch, duration) = text.split_once(' ').unwrap();
    let what = if pitch == "r" { "<rest/>".to_owned() } else { written(pitch) };
    format!("<note>{what}<duration>{duration}</duration>{inside}</note>")
}

/// The element of a pitch.
pub fn written(pitch: &str) -> String {
    let step = &pitch[..1];
    let octave = &pitch[pitch.len() - 1..];
    let alter: i32 = pitch[1..pitch.len() - 1].chars().map(|sign| if sign == '#' { 1 } else { -1 }).sum();
    format!("<pitch><step>{step}</step><alter>{alter}</alter><octave>{octave}</octave></pitch>")
}

/// Reads a score of one part.
pub fn one(name: &str, music: &str) -> Import {
    import_text(&score(&[(name, music)])).unwrap()
}

/// The first part.
pub fn part(read: &Import) -> &Part {
    &read.score.parts()[0]
}

/// The first staff.
pub fn staff(read: &Import) -> &PartStaff {
    &part(read).staves[0]
}

/// Notes of the first staff as "C4 0-1", rests as "r".
pub fn notes(read: &Import) -> Vec<String> {
    staff(read)
        .notes()
        .iter()
        .map(|(_, note)| {
            let what = note.printed.map_or_else(|| "r".to_owned(), |printed| printed.to_string());
            format!("{what} {}-{}", note.start.time, note.end.time)
        })
        .collect()
}

/// What the first part sounds by the file.
pub fn sounding(read: &Import) -> Vec<String> {
    part(read).by_file().iter().map(|note| note.sounding.to_string()).collect()
}
