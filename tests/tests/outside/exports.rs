//! What goes out is read back by music21 10.5.1: at sounding pitch, and one part written for another crook, every staff must
//! sound, note for note and each in its place, what that library reads in the original.
//!
//! The twelve movements are large and the library reads less than a megabyte in a second, so of each as many bars are taken
//! as make [`ENOUGH`] bytes, two and two from all over it. `CROOKWISE_WHOLE=1` takes them whole.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crate::files::{library, named, stored, under};
use crate::library::ask;
use crate::movements::{MOVEMENTS, say};
use crookwise_musicxml::export::{ExportOptions, ExportPitch, by_file, export};
use crookwise_musicxml::{Import, encoding, import, unpack};
use crookwise_score::score::Part;
use crookwise_tests::outside::{Comparison, PYTHON, said};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};

/// What needs the real scores.
pub const OF_SCORES: &[Comparison] =
    &crookwise_tests::comparisons![exports_of_real_scores_are_read_alike_by_the_library];
/// What needs the library alone.
pub const OF_LIBRARIES: &[Comparison] =
    &crookwise_tests::comparisons![exports_of_the_librarys_files_are_read_alike_by_it];
/// What needs the package of files.
pub const OF_PACKAGES: &[Comparison] =
    &crookwise_tests::comparisons![exports_of_the_packages_files_are_read_alike_by_the_library];

/// Bytes of an excerpt, about.
const ENOUGH: usize = 300_000;

/// For whom the part goes out, each movement another.
const CROOKS: [&str; 6] =
    ["Corno in Es", "Horn in D", "Corno in B basso", "Horn in F", "Horn in A-flat", "Tromba in E"];

/// Files of the library in which many instruments are moved, and one where that changes.
const OF_THE_LIBRARY: [&str; 4] = [
    "41c-StaffGroups.xml",
    "72a-TransposingInstruments.xml",
    "72b-TransposingInstruments-Full.xml",
    "72c-TransposingInstruments-Change.xml",
];

/// What is read of one score.
struct Files {
    name: String,
    /// The original and what goes out of it: all at sounding pitch, and one part for another crook.
    paths: [PathBuf; 3],
    /// The staff of that part, counted through the score.
    staff: usize,
    crook: &'static str,
    /// What the original sounds as we read it.
    sounds: Vec<Vec<String>>,
}

fn exports_of_real_scores_are_read_alike_by_the_library(folder: &str) {
    let paths: Vec<PathBuf> =
        MOVEMENTS.iter().map(|name| Path::new(folder).join(format!("{name}.mxl"))).collect();
    hold_alike(&paths, (5_000, 150));
}

fn exports_of_the_librarys_files_are_read_alike_by_it(python: &str) {
    let all = under(&library(python));
    let paths: Vec<PathBuf> = OF_THE_LIBRARY.iter().map(|name| named(&all, name).to_owned()).collect();
    hold_alike(&paths, (60, 10));
}

fn exports_of_the_packages_files_are_read_alike_by_the_library(folder: &str) {
    let all = under(Path::new(folder));
    let paths: Vec<PathBuf> =
        stored("npm:").iter().map(|file| named(&all, file["file"].as_str().unwrap()).to_owned()).collect();
    hold_alike(&paths, (400, 20));
}

/// Writes these scores anew and has all read by the library; so many notes must at least be compared.
fn hold_alike(paths: &[PathBuf], least: (usize, usize)) {
    let first = paths.first().and_then(|path| path.file_stem()).unwrap();
    let place =
        std::env::temp_dir().join(format!("crookwise-{}-{}", std::process::id(), first.to_string_lossy()));
    std::fs::create_dir_all(&place).unwrap();
    let all: Vec<Files> =
        paths.iter().zip(CROOKS.iter().cycle()).map(|(path, crook)| written(path, crook, &place)).collect();
    let questions: Vec<Value> = all
        .iter()
        .flat_map(|files| files.paths.iter().zip([false, true, false]))
        .map(|(path, sounds_as_written)| json!({ "path": path, "sounds_as_written": sounds_as_written }))
        .collect();
    let answers = ask(&said(PYTHON), "files.py", &json!({ "files": questions }));
    std::fs::remove_dir_all(&place).unwrap();
    let answers = answers["files"].as_array().unwrap();
    let mut notes = (0, 0);
    for (files, answers) in all.iter().zip(answers.chunks(3)) {
        let more = compare(files, &answers[0], &answers[1], &answers[2]);
        notes = (notes.0 + more.0, notes.1 + more.1);
    }
    assert!(notes.0 >= least.0 && notes.1 >= least.1, "{notes:?}: too few to say something");
    say(&format!("{} notes at sounding pitch and {} for another crook are read alike", notes.0, notes.1));
}

/// Writes the files of a score.
fn written(path: &Path, crook: &'static str, place: &Path) -> Files {
    let name = path.file_stem().unwrap().to_string_lossy().into_owned();
    let bytes = std::fs::read(path).unwrap();
    let source = unpack::unpack(&bytes).unwrap();
    let whole = source.len() <= ENOUGH || std::env::var_os("CROOKWISE_WHOLE").is_some();
    let original = match whole {
        true => source.to_vec(),
        false => excerpt(&encoding::decode(&source).unwrap()).into_bytes(),
    };
    let read = import(&original).unwrap();
    let horn = horn(&read);
    let out = |pitch, parts| export(&original, &ExportOptions { pitch, parts }).unwrap();
    let sounding = out(ExportPitch::Sounding, None);
    let another = out(ExportPitch::WrittenFor(crook.to_owned()), Some(vec![horn]));
    assert!(!String::from_utf8_lossy(&sounding).contains("<transpose"), "{name}: it sounds as written");
    let [first, second, third] =
        ["", "-sounding", "-crook"].map(|what| place.join(format!("{name}{what}.musicxml")));
    std::fs::write(&first, &original).unwrap();
    std::fs::write(&second, sounding).unwrap();
    std::fs::write(&third, another).unwrap();
    let staff = read.score.parts()[..horn].iter().map(|part| part.staves.len()).sum();
    let sounds = by_file(&read).iter().map(|notes| notes.iter().map(ToString::to_string).collect()).collect();
    Files { name, paths: [first, second, third], staff, crook, sounds }
}

/// The first horn that is moved and plays, or the first part that is; the first of all where none is.
fn horn(read: &Import) -> usize {
    let parts = read.score.parts();
    let moved = |part: &&Part| part.by_file().iter().any(|note| note.written.0 != note.sounding.0);
    let found = parts.iter().filter(moved).find(|part| part.name.contains("Horn"));
    let found = found.or_else(|| parts.iter().find(moved));
    parts.iter().position(|part| found.is_some_and(|found| found.id == part.id)).unwrap_or(0)
}

/// Bars from all over a score: two, then so many that are left out but for what their attributes change.
fn excerpt(text: &str) -> String {
    let every = text.len() / ENOUGH + 1;
    let mut out = String::new();
    let mut rest = text;
    let mut bar = 0;
    while let Some(begins) = rest.find("<measure ") {
        let (before, from) = rest.split_at(begins);
        if before.contains("<part ") {
            bar = 0;
        }
        out.push_str(before);
        let (measure, after) = from.split_at(from.find("</measure>").unwrap() + "</measure>".len());
        if bar / 2 % every == 0 {
            out.push_str(measure);
        } else if let Some(at) = measure.find("<attributes>") {
            let end = measure.rfind("</attributes>").unwrap();
            let tag = &measure[..=measure.find('>').unwrap()];
            let attributes = &measure[at..end];
            // Between several of them stands music that is left out.
            let attributes: String = attributes
                .split("<attributes>")
                .skip(1)
                .map(|one| one.split("</attributes>").next().unwrap_or_default())
                .map(|one| format!("<attributes>{one}</attributes>"))
                .collect();
            out.push_str(&format!("{tag}{attributes}</measure>"));
        }
        bar += 1;
        rest = after;
    }
    out + rest
}

/// The notes of a staff, as the library reads them.
fn notes(staff: &Value) -> Vec<&str> {
    staff["notes"].as_array().unwrap().iter().map(|note| note.as_str().unwrap()).collect()
}

/// Holds what goes out against the original; gives how many notes were compared.
fn compare(files: &Files, original: &Value, sounding: &Value, another: &Value) -> (usize, usize) {
    let Files { name, crook, .. } = files;
    let [original, sounding, another] =
        [original, sounding, another].map(|staves| staves.as_array().unwrap());
    assert_eq!(sounding.len(), original.len(), "{name}: staves");
    let mut compared = 0;
    for (before, after) in original.iter().zip(sounding) {
        alike(&format!("{name}, {} at sounding pitch", before["name"]), &notes(before), &notes(after));
        compared += notes(before).len();
    }
    // The library is right here: it hears in the original what we do, all staves together.
    let sorted = |mut notes: Vec<String>| {
        notes.sort();
        notes
    };
    let pitch = |note: &str| note.rsplit(' ').next().unwrap().to_owned();
    let theirs = sorted(original.iter().flat_map(notes).map(pitch).collect());
    let ours = sorted(files.sounds.concat());
    assert!(ours == theirs, "{name}: {} notes here, {} there, or others", ours.len(), theirs.len());
    let [own] = &another[..] else { panic!("{name}: one staff was written for {crook}") };
    assert_eq!(own["name"], *crook);
    let before = notes(&original[files.staff]);
    alike(&format!("{name} for {crook}"), &before, &notes(own));
    (compared, before.len())
}

/// Says where two staves begin to differ.
fn alike(place: &str, before: &[&str], after: &[&str]) {
    let differ = before.iter().zip(after).find(|(one, other)| one != other);
    assert!(differ.is_none(), "{place}: {differ:?}");
    assert_eq!(before.len(), after.len(), "{place}");
}
