//! What a release is made of, as one hash: a build whose inputs have not changed is not built again.

use crate::shell;
use anyhow::{Context, Result};
use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};

/// What the site is made of, tool included.
pub const SITE: &[&str] =
    &["Cargo.lock", "Cargo.toml", "index.html", "web", "crates", "LICENSE-MIT", "LICENSE-APACHE"];
/// The tool that makes both out of what the compiler gives.
pub const TOOL: &[&str] = &["Cargo.lock", "crates/xtask"];
/// What the JavaScript package is made of, tool included.
pub const PACKAGE: &[&str] = &["Cargo.lock", "Cargo.toml", "crates", "LICENSE-MIT", "LICENSE-APACHE"];

/// Every file below these files and folders (relative to the root), sorted. What is missing is left out.
pub fn files(places: &[&str]) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for place in places {
        gather(&shell::at(place), &mut found);
    }
    found.sort();
    found
}

fn gather(place: &Path, found: &mut Vec<PathBuf>) {
    let name = place.file_name().unwrap_or_default().to_string_lossy();
    if name.starts_with('.') || name == "target" || name == "node_modules" || name.ends_with('~') {
        return;
    }
    if place.is_file() {
        found.push(place.to_path_buf());
    } else if let Ok(entries) = std::fs::read_dir(place) {
        for entry in entries.flatten() {
            gather(&entry.path(), found);
        }
    }
}

/// The hash of everything below these places, and of the compiler's version.
pub fn of(places: &[&str]) -> Result<String> {
    let mut hash = Sha256::new();
    hash.update(shell::output(shell::program("rustc").arg("-vV"))?);
    for file in files(places) {
        let bytes = std::fs::read(&file).with_context(|| format!("could not read {}", file.display()))?;
        hash.update(file.strip_prefix(shell::root()).unwrap_or(&file).to_string_lossy().as_bytes());
        hash.update((bytes.len() as u64).to_le_bytes());
        hash.update(&bytes);
    }
    Ok(hex(&hash.finalize()))
}

/// The first sixteen digits of the hash of some bytes, for a file's name.
pub fn short(bytes: &[u8]) -> String {
    short_of(&Sha256::digest(bytes))
}

/// The first sixteen digits of a hash.
pub fn short_of(hash: &[u8]) -> String {
    let mut digits = hex(hash);
    digits.truncate(16);
    digits
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hashes_are_those_of_sha_256() {
        // The published test vector for "abc".
        assert_eq!(short(b"abc"), "ba7816bf8f01cfea");
    }

    #[test]
    fn the_sources_are_found_and_what_is_built_is_not() {
        let files = files(SITE);
        assert!(files.iter().any(|file| file.ends_with("crates/theory/src/lib.rs")));
        assert!(!files.iter().any(|file| file.components().any(|part| part.as_os_str() == "target")));
    }
}
