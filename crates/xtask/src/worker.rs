//! The service worker: which files it keeps on the device, and the version that they make together.

use crate::site::{File, fill, without_notes};
use crate::stamp;
use anyhow::{Result, bail};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};

const WORKER: &str = include_str!("../assets/worker.js");
/// The worker's own name. It never carries a hash: by it a browser finds the next version.
pub const NAME: &str = "sw.js";

/// Whether a first visit, and a visit without a connection, can do without this file: what only the system asks for when
/// the app is installed, what only a browser asks for that is too old, and the licences, which are long and are read, if
/// ever, with a connection.
pub fn is_for_later(name: &str) -> bool {
    let icon = name.starts_with("icon-") || name.starts_with("apple-touch-icon");
    name == "licences.txt" || name.starts_with("too-old") || icon && name.ends_with(".png")
}

/// The worker for these files, with all but those for later.
pub fn script(files: &[File]) -> Result<String> {
    let (mut version, mut whole) = (Sha256::new(), Sha256::new());
    let mut list = String::new();
    let mut named = String::new();
    let page =
        files.iter().find(|(name, _)| name == "index.html").map(|(_, bytes)| String::from_utf8_lossy(bytes));
    for (name, bytes) in files.iter().filter(|(name, _)| !is_for_later(name)) {
        if !name.chars().all(|letter| letter.is_ascii_alphanumeric() || "._-/".contains(letter)) {
            bail!("{name}: this name cannot stand in an address as it is");
        }
        version.update(name);
        version.update((bytes.len() as u64).to_le_bytes());
        version.update(bytes);
        // A host may send another place for "index.html", and a worker must not answer with that; nor can a hash hold the
        // page where a host adds words of its own. One hash for all others together: each would weigh as much.
        if name != "index.html" {
            whole.update(bytes);
            list.push_str(&format!("  \"{name}\",\n"));
        }
        let code = name.ends_with(".js") || name.ends_with(".css");
        if code && page.as_ref().is_some_and(|page| page.contains(name)) {
            named.push_str(&format!("\"{name}\", "));
        }
    }
    version.update(WORKER);
    let values = [
        ("version", stamp::short_of(&version.finalize())),
        ("files", format!("[\n{list}]")),
        ("whole", STANDARD.encode(whole.finalize())),
        ("named", format!("[{}]", named.trim_end_matches(", "))),
    ];
    fill(&without_notes(WORKER), &values.each_ref().map(|(name, value)| (*name, value.as_str())))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn site(css: &str) -> Vec<File> {
        let files = [
            ("index.html", "style-1.css boot-2.js too-old-3.js icon.svg apple-touch-icon.png"),
            ("style-1.css", css),
            ("boot-2.js", "2"),
            ("too-old-3.js", "3"),
            ("app-4.wasm", "4"),
            ("icon.svg", "5"),
            ("icon-192.png", "6"),
            ("apple-touch-icon.png", "7"),
            ("licences.txt", "8"),
        ];
        files.map(|(name, text)| (name.to_owned(), text.as_bytes().to_vec())).into()
    }

    #[test]
    fn the_worker_keeps_what_a_visit_needs() {
        let worker = script(&site("abc")).unwrap();
        for name in ["\"./\"", "\"style-1.css\",", "\"boot-2.js\",", "\"app-4.wasm\",", "\"icon.svg\","] {
            assert!(worker.contains(name), "{name} is not in {worker}");
        }
        // The published test vectors of SHA-256 for "abc", in base 64; the page counts for nothing.
        let two = [("index.html", "any"), ("a.css", "a"), ("b.js", "bc"), ("licences.txt", "x")];
        let worker = script(&two.map(|(name, text)| (name.to_owned(), text.as_bytes().to_vec()))).unwrap();
        assert!(worker.contains("\"ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=\""), "{worker}");
        let worker = script(&site("abc")).unwrap();
        for name in ["index.html\"", "licences", "too-old", ".png", "//"] {
            assert!(!worker.contains(name), "{name} is in {worker}");
        }
        assert!(worker.contains("[\"style-1.css\", \"boot-2.js\"]"), "{worker}");
    }

    #[test]
    fn another_byte_is_another_version() {
        let version = |css| {
            let worker = script(&site(css)).unwrap();
            worker.lines().find(|line| line.starts_with("const version")).unwrap().to_owned()
        };
        assert_eq!(version("abc"), version("abc"));
        assert_ne!(version("abc"), version("abd"));
    }

    #[test]
    fn names_that_cannot_stand_in_an_address_are_refused() {
        assert!(script(&[("a b.js".to_owned(), Vec::new())]).is_err());
    }
}
