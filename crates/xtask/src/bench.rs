//! Two measurements, printed beside what was planned for and written into DEVELOPERS.md: the bytes of a first visit, and
//! the time from a touch to the next picture on the screen. A measurement never fails for its figures.

use crate::{shell, site, split, test, worker};
use anyhow::{Context, Result};
use std::collections::BTreeMap;
use std::path::Path;

/// What a first visit may download, in bytes.
const FIRST_VISIT: usize = 250_000;

/// Where the figures stand for who reads the code: between these two lines.
const FIGURES: &str = "DEVELOPERS.md";
const MARKS: (&str, &str) = ("<!-- figures of cargo xtask bench -->\n", "<!-- end of the figures -->");

/// Measures the release site, prints the figures and writes them down.
pub fn bench() -> Result<()> {
    let folder = site::build_release()?;
    let mut figures = machine()?;
    figures.push_str(&first_visit(&folder)?);
    let taps = shell::output(&mut test::harness_program("taps"))?;
    figures.push_str(&format!("\nFrom pointer down to the next paint\n{taps}"));
    println!("{figures}");
    let file = shell::at(FIGURES);
    let text = std::fs::read_to_string(&file).with_context(|| format!("could not read {FIGURES}"))?;
    let text =
        with_figures(&text, &figures).with_context(|| format!("{FIGURES} has no place for the figures"))?;
    std::fs::write(&file, text).with_context(|| format!("could not write {FIGURES}"))
}

/// The day, and on what was measured.
fn machine() -> Result<String> {
    let day = shell::output(shell::program("date").arg("+%Y-%m-%d"))?;
    let cores = std::thread::available_parallelism().map_or(0, std::num::NonZero::get);
    let rustc = shell::output(shell::program("rustc").arg("-V"))?;
    let processor = std::fs::read_to_string("/proc/cpuinfo").unwrap_or_default();
    let processor = processor.lines().find_map(|line| line.strip_prefix("model name")).unwrap_or_default();
    let processor = processor.trim_start_matches([' ', '\t', ':']);
    Ok(format!("{}; {cores} cores {processor}; {}\n", day.trim(), rustc.trim()))
}

fn first_visit(folder: &Path) -> Result<String> {
    let files = read_all(folder)?;
    let (parts, needed): (Vec<_>, Vec<_>) =
        visited(&files).into_iter().partition(|name| split::is_part(name));
    let (needed, total) = listed(&files, &needed);
    let (parts, _) = listed(&files, &parts);
    let share = 100 * total / FIRST_VISIT;
    Ok(format!(
        "\nBytes of a first visit (brotli 11)\n{needed}{total:>9}  in all, of {FIRST_VISIT} planned for ({share} %)\n\
         \nParts, fetched when they are wanted, and kept on the device after the start\n{parts}"
    ))
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

/// A file's name without the hash of its contents.
fn without_hash(name: &str) -> String {
    let Some((stem, ending)) = name.rsplit_once('.') else { return name.to_owned() };
    match stem.rsplit_once('-') {
        Some((stem, hash)) if hash.len() == 16 => format!("{stem}.{ending}"),
        _ => name.to_owned(),
    }
}

/// A text with these figures between the marks, in place of those that stand there.
fn with_figures(text: &str, figures: &str) -> Option<String> {
    let (before, rest) = text.split_once(MARKS.0)?;
    let (_, after) = rest.split_once(MARKS.1)?;
    Some(format!("{before}{}```text\n{}\n```\n{}{after}", MARKS.0, figures.trim_end(), MARKS.1))
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
    fn figures_take_the_place_of_older_ones() {
        let text = format!("a\n{}old\n{}\nb\n", MARKS.0, MARKS.1);
        let wanted = format!("a\n{}```text\nnew\n```\n{}\nb\n", MARKS.0, MARKS.1);
        assert_eq!(with_figures(&text, "new\n").unwrap(), wanted);
        assert_eq!(with_figures(&wanted, "new").unwrap(), wanted);
        assert!(with_figures("a", "new").is_none());
        assert_eq!(without_hash("part-panels-0123456789abcdef.wasm"), "part-panels.wasm");
        assert_eq!(without_hash("part-panels.wasm"), "part-panels.wasm");
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
