//! Two measurements, printed beside what was planned for: the bytes of a first visit, and the time from a touch to the
//! next picture on the screen. A measurement never fails for its figures.

use crate::{shell, site, split, test, worker};
use anyhow::{Context, Result};
use std::collections::BTreeMap;
use std::path::Path;

/// What a first visit may download, in bytes.
const FIRST_VISIT: usize = 250_000;

/// Measures the release site.
pub fn bench() -> Result<()> {
    let folder = site::build_release()?;
    let cores = std::thread::available_parallelism().map_or(0, std::num::NonZero::get);
    shell::heading("The machine");
    println!("{cores} cores; {}", shell::output(shell::program("rustc").arg("-V"))?.trim());
    shell::heading("Bytes of a first visit (brotli 11)");
    first_visit(&folder)?;
    shell::heading("From pointer down to the next paint");
    shell::run(&mut test::harness_program("taps"))
}

fn first_visit(folder: &Path) -> Result<()> {
    let files = read_all(folder)?;
    let (parts, needed): (Vec<_>, Vec<_>) =
        visited(&files).into_iter().partition(|name| split::is_part(name));
    let total = listed(&files, &needed);
    let share = 100 * total / FIRST_VISIT;
    println!("{total:>9}  in all, of {FIRST_VISIT} planned for ({share} %)");
    shell::heading("Parts, fetched when they are wanted, and kept on the device after the start");
    listed(&files, &parts);
    Ok(())
}

/// Prints the files with what they weigh over the wire, and gives the sum.
fn listed(files: &BTreeMap<String, Vec<u8>>, names: &[String]) -> usize {
    let mut total = 0;
    for name in names {
        let (size, note) = match (files.get(&format!("{name}.br")), files.get(name)) {
            (Some(packed), _) => (packed.len(), ""),
            (None, Some(plain)) => (plain.len(), "  as it is"),
            (None, None) => continue,
        };
        total += size;
        println!("{size:>9}  {name}{note}");
    }
    total
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
