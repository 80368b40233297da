//! Measurements, printed beside what was planned for and written into docs/measured.md: the bytes of a first visit and of the
//! parts that come later, the time from a touch to the next picture on the screen, how the page does with the largest score,
//! how late that is heard, how fast scores are read, and how long plans of
//! crooks take. A measurement never fails for its figures.

use crate::{brought, shell, site, split, test, tools, worker};
use anyhow::{Context, Result};
use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;

/// What a first visit may download, in bytes.
const FIRST_VISIT: usize = 275_000;
/// What parts that come later may download: what they are called, how the names of their files end, and the bytes.
const PARTS: [(&str, &[&str], usize); 3] = [
    ("Practise", &["split_practise.wasm"], 200_000),
    // Its own split, and the worker that reads and writes.
    ("Score", &["split_holder.wasm", "split_score.wasm", "score.js", "demo.musicxml"], 300_000),
    ("Crooks", &["split_crooks.wasm"], 120_000),
];
/// What all other parts may download together.
const OTHER_PARTS: usize = 100_000;

/// The largest of the shared scores, and a bar of it from which everybody plays.
const LARGEST: &str = "Beethoven_Op.125_4.mxl";
const LOUD: &str = "655";

/// Where the figures stand for who reads the code.
const FIGURES: &str = "docs/measured.md";
/// What stands over them.
const HEAD: &str = "# What was measured\n\nWritten by `cargo xtask bench`.\n\n";

/// Measures the release site, prints the figures and writes them down.
pub fn bench() -> Result<()> {
    let mut figures = machine()?;
    let folder = site::build_release()?;
    figures.push_str(&first_visit(&folder)?);
    let taps = shell::output(&mut test::harness_program("taps"))?;
    figures.push_str(&format!("\nFrom pointer down to the next paint\n{taps}"));
    figures.push_str(&format!("\nThe largest shared score on the page\n{}", with_largest("follows", &[])?));
    figures.push_str(&format!("\nHearing the largest shared score\n{}", with_largest("plays", &[LOUD])?));
    figures.push_str(&format!("\nReading scores, natively\n{}", reading()?));
    figures.push_str(&format!("\nPlanning crooks, natively\n{}", planning()?));
    println!("{figures}");
    let text = format!("{HEAD}```text\n{}\n```\n", figures.trim_end());
    std::fs::write(shell::at(FIGURES), text).with_context(|| format!("could not write {FIGURES}"))
}

/// What a program of the harness measures with the largest of the shared scores: how the page does with it, or how late it is
/// heard with all its parts at their loudest.
fn with_largest(program: &str, words: &[&str]) -> Result<String> {
    let Some(scores) = std::env::var_os("CROOKWISE_SCORES") else {
        return Ok("skipped: CROOKWISE_SCORES names no folder of scores\n".to_owned());
    };
    let mut measure = test::harness_program(program);
    measure.arg(Path::new(&scores).join(LARGEST)).args(words);
    shell::output(&mut measure)
}

/// How fast scores are read, beside the XML library's events alone and the Python library; half of the former was planned.
fn reading() -> Result<String> {
    let mut command = at_speed("crookwise-musicxml", "reading");
    command.envs(tools::for_tests()?.environment);
    Ok(format!("{}planned: at least half of the events alone\n", shell::output(&mut command)?))
}

/// How long plans of crooks take for a movement, and how far they are from proved.
fn planning() -> Result<String> {
    shell::output(&mut at_speed("crookwise-planner", "planning"))
}

/// An example of a crate, built for speed.
fn at_speed(package: &str, example: &str) -> Command {
    let mut command = shell::cargo();
    command.args([
        "run",
        "--quiet",
        "--locked",
        "--profile=speed",
        "--package",
        package,
        "--example",
        example,
    ]);
    command
}

/// The day, on what was measured, and how many others wanted the processor before.
fn machine() -> Result<String> {
    let day = shell::output(shell::program("date").arg("+%Y-%m-%d"))?;
    let cores = std::thread::available_parallelism().map_or(0, std::num::NonZero::get);
    let rustc = shell::output(shell::program("rustc").arg("-V"))?;
    let processor = std::fs::read_to_string("/proc/cpuinfo").unwrap_or_default();
    let processor = processor.lines().find_map(|line| line.strip_prefix("model name")).unwrap_or_default();
    let processor = processor.trim_start_matches([' ', '\t', ':']);
    let load = std::fs::read_to_string("/proc/loadavg").unwrap_or_default();
    let load = load.split(' ').next().filter(|load| !load.is_empty()).unwrap_or("unknown");
    Ok(format!("{}; {cores} cores {processor}; load {load}; {}\n", day.trim(), rustc.trim()))
}

fn first_visit(folder: &Path) -> Result<String> {
    let files = read_all(folder)?;
    let (parts, needed): (Vec<_>, Vec<_>) =
        visited(&files).into_iter().partition(|name| split::is_part(name));
    let (needed, total) = listed(&files, &needed);
    let (listed_parts, _) = listed(&files, &parts);
    Ok(format!(
        "\nBytes of a first visit (brotli 11)\n{needed}{}\n\
         Parts, fetched when they are wanted, and kept on the device after the start\n{listed_parts}{}\
         What a place brings where it is the first to be opened, with what others share\n{}",
        planned("in all", total, FIRST_VISIT),
        of_parts(&files, &parts),
        of_places(&files, &parts, &split::written()?)
    ))
}

/// What each place brings by the module that fetches them. A part that serves two places has a name of its own and is counted
/// among the others above, so that those sums alone would say too little of a place.
fn of_places(files: &BTreeMap<String, Vec<u8>>, parts: &[String], module: &str) -> String {
    let mut lines = String::new();
    for (place, own, _) in PARTS {
        let brought = brought::with_shared(module, own);
        let is_brought = |part: &&String| part.rsplit('/').next().is_some_and(|name| brought.contains(name));
        let names: Vec<String> = parts.iter().filter(is_brought).cloned().collect();
        lines.push_str(&format!("{:>9}  {place}\n", listed(files, &names).1));
    }
    lines
}

/// What the parts weigh together that were planned together.
fn of_parts(files: &BTreeMap<String, Vec<u8>>, parts: &[String]) -> String {
    let mut lines = String::new();
    let mut others: Vec<String> = parts.to_vec();
    for (name, endings, plan) in PARTS {
        let is_own = |part: &String| endings.iter().any(|ending| part.ends_with(ending));
        let (own, rest): (Vec<_>, Vec<_>) = others.into_iter().partition(is_own);
        others = rest;
        if !own.is_empty() {
            lines.push_str(&planned(name, listed(files, &own).1, plan));
        }
    }
    lines.push_str(&planned("all others together", listed(files, &others).1, OTHER_PARTS));
    lines
}

/// A sum beside what was planned for.
fn planned(name: &str, total: usize, plan: usize) -> String {
    format!("{total:>9}  {name}, of {plan} planned for ({} %)\n", 100 * total / plan)
}

/// The files with what they weigh over the wire, a line each, and the sum.
fn listed(files: &BTreeMap<String, Vec<u8>>, names: &[String]) -> (String, usize) {
    let (mut lines, mut total) = (String::new(), 0);
    for name in names {
        let (size, note) = match (files.get(&format!("{name}.br")), files.get(name)) {
            (Some(packed), _) => (packed.len(), ""),
            (None, Some(plain)) => (plain.len(), "  as it is"),
            (None, None) => continue,
        };
        total += size;
        lines.push_str(&format!("{size:>9}  {}{note}\n", without_hash(name)));
    }
    (lines, total)
}

/// A file's name without the hash in it.
fn without_hash(name: &str) -> String {
    let is_hash = |word: &str| word.len() == 16 && word.chars().all(|digit| digit.is_ascii_hexdigit());
    let (mut kept, mut word) = (String::new(), String::new());
    for letter in name.chars().chain(['\0']) {
        if letter.is_ascii_alphanumeric() {
            word.push(letter);
            continue;
        }
        if is_hash(&word) && kept.ends_with('-') {
            kept.pop();
        } else {
            kept.push_str(&word);
        }
        word.clear();
        if letter != '\0' {
            kept.push(letter);
        }
    }
    kept
}

fn read_all(folder: &Path) -> Result<BTreeMap<String, Vec<u8>>> {
    let mut files = BTreeMap::new();
    let mut open = vec![folder.to_path_buf()];
    while let Some(at) = open.pop() {
        for entry in std::fs::read_dir(&at).with_context(|| format!("could not read {}", at.display()))? {
            let path = entry?.path();
            if path.is_dir() {
                open.push(path);
            } else {
                let name = path.strip_prefix(folder).unwrap_or(&path).to_string_lossy().replace('\\', "/");
                files.insert(name, std::fs::read(&path)?);
            }
        }
    }
    Ok(files)
}

/// The files that the page loads by itself: those that its HTML names, or a script or style sheet that it loads, its
/// service worker included, which keeps them. What the app's code fetches later, on a reader's demand, is not among them,
/// nor what only a system asks for that installs the app, or only a browser that is too old.
fn visited(files: &BTreeMap<String, Vec<u8>>) -> Vec<String> {
    let mut found = vec!["index.html".to_owned()];
    let mut next = 0;
    while let Some(name) = found.get(next).cloned() {
        next += 1;
        if !["html", "js", "css"].iter().any(|ending| name.ends_with(&format!(".{ending}"))) {
            continue;
        }
        let text = String::from_utf8_lossy(files.get(&name).map_or(&[][..], Vec::as_slice)).into_owned();
        for other in files.keys().filter(|other| !other.ends_with(".br") && !worker::is_for_later(other)) {
            if text.contains(other.as_str()) && !found.contains(other) {
                found.push(other.clone());
            }
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hash_leaves_its_name() {
        assert_eq!(without_hash("app-0123456789abcdef.wasm"), "app.wasm");
        assert_eq!(without_hash("parts-0123456789abcdef/split_panels.wasm"), "parts/split_panels.wasm");
        assert_eq!(without_hash("parts/shared_5.wasm"), "parts/shared_5.wasm");
        assert_eq!(without_hash("icon-512-maskable.png"), "icon-512-maskable.png");
    }

    #[test]
    fn parts_are_summed_as_they_were_planned() {
        let sizes = [
            ("parts/split_practise.wasm", 100_000),
            ("parts/split_sound.wasm", 30_000),
            ("parts/shared_1.wasm", 20_000),
        ];
        let files: BTreeMap<String, Vec<u8>> =
            sizes.iter().map(|(name, size)| ((*name).to_owned(), vec![0; *size])).collect();
        let parts: Vec<String> = files.keys().cloned().collect();
        assert_eq!(
            of_parts(&files, &parts),
            "   100000  Practise, of 200000 planned for (50 %)\n    50000  all others together, of 100000 planned for (50 %)\n"
        );
    }

    #[test]
    fn a_place_brings_what_it_shares() {
        let sizes =
            [("parts/split_practise.wasm", 100), ("parts/shared_1.wasm", 20), ("parts/shared_2.wasm", 3)];
        let files: BTreeMap<String, Vec<u8>> =
            sizes.iter().map(|(name, size)| ((*name).to_owned(), vec![0; *size])).collect();
        let parts: Vec<String> = files.keys().cloned().collect();
        let module = "= part(\"split_practise\", \"shared_1\");";
        let lines = of_places(&files, &parts, module);
        assert_eq!(lines, "      120  Practise\n        0  Score\n        0  Crooks\n");
    }

    #[test]
    fn a_visit_follows_names_and_leaves_the_rest() {
        let files = [
            ("index.html", "boot-1.js style-2.css icon.svg apple-touch-icon.png too-old-5.js"),
            ("boot-1.js", "app-3.wasm sw.js"),
            ("sw.js", "app-3.wasm kept.webmanifest"),
            ("kept.webmanifest", "icon-192.png"),
            ("icon.svg", ""),
            ("icon-192.png", ""),
            ("apple-touch-icon.png", ""),
            ("too-old-5.js", ""),
            ("style-2.css", "font-4.woff2"),
            ("app-3.wasm", "later-5.txt"),
            ("font-4.woff2", ""),
            ("later-5.txt", ""),
            ("index.html.br", ""),
        ];
        let files = files.map(|(name, text)| (name.to_owned(), text.as_bytes().to_vec())).into();
        let mut found = visited(&files);
        found.sort();
        let wanted = [
            "app-3.wasm",
            "boot-1.js",
            "font-4.woff2",
            "icon.svg",
            "index.html",
            "kept.webmanifest",
            "style-2.css",
            "sw.js",
        ];
        assert_eq!(found, wanted);
    }
}
