//! How fast scores are read: every file of `CROOKWISE_SCORES` through the reader, beside the XML library's events alone, and
//! one of them beside the Python library of the comparisons, where `CROOKWISE_PYTHON` names one.
#![allow(clippy::print_stdout, reason = "a program says what it measured")]

use anyhow::{Context, Result};
use crookwise_musicxml::{encoding, import_text, unpack};
use quick_xml::Reader;
use quick_xml::events::Event;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::{Duration, Instant};

/// How often each file is read; the quickest time counts.
const TIMES: usize = 3;
/// The file that the Python library reads too: it takes some seconds for it.
const BESIDE: &str = "Haydn_104_1";

fn main() -> Result<()> {
    let Some(folder) = std::env::var_os("CROOKWISE_SCORES") else {
        println!("skipped: CROOKWISE_SCORES names no folder of scores");
        return Ok(());
    };
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)?.flatten().map(|entry| entry.path()).collect();
    files.retain(|path| path.extension().is_some_and(|ending| ending == "mxl"));
    files.sort();
    let (mut bytes, mut notes) = (0, 0);
    let (mut reading, mut events, mut unpacking) = (Duration::ZERO, Duration::ZERO, Duration::ZERO);
    for path in &files {
        let packed = std::fs::read(path)?;
        let (took, text) = quickest(|| {
            let score = unpack::unpack(&packed)?;
            Ok(encoding::decode(&score)?.into_owned())
        })?;
        unpacking += took;
        let (took, read) = quickest(|| Ok(import_text(&text)?))?;
        let own: usize = read.score.parts().iter().map(|part| part.by_file().len()).sum();
        reading += took;
        let (alone, _) = quickest(|| count(&text))?;
        events += alone;
        bytes += text.len();
        notes += own;
        if path.file_stem().is_some_and(|name| name == BESIDE) {
            beside(path, (text.len(), own), took)?;
        }
    }
    let rate = |time: Duration| bytes as f64 / 1e6 / time.as_secs_f64();
    println!("{} files, {:.1} million letters, {notes} notes", files.len(), bytes as f64 / 1e6);
    println!("  {:>6.0} MB/s  the archive alone", rate(unpacking));
    println!("  {:>6.0} MB/s  the events alone", rate(events));
    println!(
        "  {:>6.0} MB/s  into a score: {:.2} of the events alone, {:.1} million notes a second",
        rate(reading),
        events.as_secs_f64() / reading.as_secs_f64(),
        notes as f64 / 1e6 / reading.as_secs_f64()
    );
    Ok(())
}

/// The quickest of some runs, and what it gave.
fn quickest<T>(run: impl Fn() -> Result<T>) -> Result<(Duration, T)> {
    let mut best: Option<(Duration, T)> = None;
    for _ in 0..TIMES {
        let begun = Instant::now();
        let value = run()?;
        let took = begun.elapsed();
        if best.as_ref().is_none_or(|(other, _)| took < *other) {
            best = Some((took, value));
        }
    }
    best.context("nothing was run")
}

/// All events of a text, and what they say counted.
fn count(text: &str) -> Result<usize> {
    let mut reader = Reader::from_str(text);
    let mut letters = 0;
    loop {
        match reader.read_event()? {
            Event::Text(text) => letters += text.len(),
            Event::Eof => return Ok(letters),
            _ => {}
        }
    }
}

/// The Python library over the same file.
fn beside(path: &Path, (bytes, notes): (usize, usize), ours: Duration) -> Result<()> {
    let Some(python) = std::env::var_os("CROOKWISE_PYTHON") else {
        println!("skipped: CROOKWISE_PYTHON names no Python with the library to compare with");
        return Ok(());
    };
    let program = "import sys, time, music21; begun = time.perf_counter(); \
                   music21.converter.parse(sys.argv[1], forceSource=True); print(time.perf_counter() - begun)";
    let said = Command::new(python).args(["-c", program]).arg(path).output()?;
    let seconds: f64 =
        String::from_utf8(said.stdout)?.trim().parse().context("the Python library says no time")?;
    let rate = bytes as f64 / 1e6 / seconds;
    println!(
        "{BESIDE}: the Python library {rate:.1} MB/s, {:.0} notes a second, {:.0} times as long",
        notes as f64 / seconds,
        seconds / ours.as_secs_f64()
    );
    Ok(())
}
