//! Whole files through the reader, beside stored sums of all their written and all their sounding notes: twelve movements of
//! the OpenScore Orchestra corpus, and the files that ship inside the pinned Python library. How the sums were made stands
//! in the provenance of `tests/oracles/musicxml_expect.json`: from the raw XML, and where it says so by that library too.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crookwise_musicxml::import;
use crookwise_tests::outside::Comparison;
use serde_json::Value;
use sha1::{Digest as _, Sha1};
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;

/// What needs the real scores.
pub const OF_SCORES: &[Comparison] = &crookwise_tests::comparisons![notes_of_real_scores_are_as_stored];
/// What needs the library.
pub const OF_LIBRARIES: &[Comparison] =
    &crookwise_tests::comparisons![notes_of_the_librarys_files_are_as_stored];

/// The stored files of a source.
fn stored(source: &str) -> Vec<Value> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("oracles/musicxml_expect.json");
    let all: Value = serde_json::from_str(&std::fs::read_to_string(folder).unwrap()).unwrap();
    let files = all["files"].as_array().unwrap();
    files.iter().filter(|file| file["source"].as_str().unwrap().starts_with(source)).cloned().collect()
}

/// The sum of notes in their order, as the stored ones were made: "Bb4,F##5".
fn sum(notes: impl Iterator<Item = String>) -> String {
    let all = notes.collect::<Vec<_>>().join(",");
    Sha1::digest(all.as_bytes()).iter().map(|byte| format!("{byte:02x}")).collect()
}

/// Holds a file against what is stored of it; gives its notes.
fn compare(path: &Path, stored: &Value) -> u32 {
    let name = stored["file"].as_str().unwrap();
    let read = import(&std::fs::read(path).unwrap()).unwrap_or_else(|error| panic!("{name}: {error}"));
    let parts = stored["parts"].as_array().unwrap();
    assert_eq!(read.parts.len(), parts.len(), "{name}: parts");
    let mut notes = 0;
    for (own, told) in read.parts.iter().zip(parts) {
        let part = read.score.parts().iter().find(|part| part.id == own.id).unwrap();
        let place = format!("{name}, {}", part.name);
        let counted = |kind: &str| told["counts"][kind].as_u64().unwrap_or(0);
        assert_eq!(own.bars as u64, told["measures"].as_u64().unwrap(), "{place}: bars");
        for (ours, kind) in [
            (own.counts.pitched, "pitch"),
            (own.counts.rests, "rest"),
            (own.counts.on_stem, "chord"),
            (own.counts.graces, "grace"),
            (own.counts.unpitched, "unpitched"),
            (own.counts.cues, "cue"),
        ] {
            assert_eq!(u64::from(ours), counted(kind), "{place}: {kind}");
        }
        let all = part.by_file();
        assert_eq!(all.len() as u64, counted("pitch"), "{place}: notes in the score");
        let ours = sum(all.iter().map(|note| note.written.to_string()));
        assert_eq!(ours, told["written_sha1"].as_str().unwrap(), "{place}: written notes");
        let ours = sum(all.iter().map(|note| note.sounding.to_string()));
        assert_eq!(ours, told["sounding_sha1"].as_str().unwrap(), "{place}: sounding notes");
        notes += own.counts.pitched;
    }
    notes
}

fn notes_of_real_scores_are_as_stored(folder: &str) {
    let files = stored("github:");
    assert_eq!(files.len(), 12, "the twelve movements");
    let notes: u32 =
        files.iter().map(|file| compare(&Path::new(folder).join(file["file"].as_str().unwrap()), file)).sum();
    let _ = writeln!(std::io::stdout(), "{notes} notes of {} movements are as stored", files.len());
}

fn notes_of_the_librarys_files_are_as_stored(python: &str) {
    let said =
        Command::new(python).args(["-c", "import music21; print(music21.__path__[0])"]).output().unwrap();
    let folder = PathBuf::from(String::from_utf8(said.stdout).unwrap().trim());
    let files = stored("pypi:");
    let all = under(&folder);
    let mut notes = 0;
    for file in &files {
        let name = file["file"].as_str().unwrap();
        let path = all.iter().find(|path| path.file_name().is_some_and(|found| found == name));
        notes += compare(path.unwrap_or_else(|| panic!("{name} is not in the library")), file);
    }
    let _ =
        writeln!(std::io::stdout(), "{notes} notes of {} files of the library are as stored", files.len());
}

/// All files of the kinds that are read under a folder.
fn under(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(under(&path));
        } else if path
            .extension()
            .is_some_and(|ending| ["mxl", "xml", "musicxml"].iter().any(|kind| ending == *kind))
        {
            found.push(path);
        }
    }
    found
}
