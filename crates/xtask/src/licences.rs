//! The licences of everything that we stand on: checked against a list, and written out for the reader of the app.

use crate::{graph, shell};
use anyhow::{Context, Result, bail};
use cargo_metadata::Package;
use spdx::{Expression, ParseMode};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;
use std::path::Path;

const ALLOWED: &str = include_str!("../allowed-licences.txt");

/// Fails, naming each, if a dependency of any kind comes under a licence that is not on the list.
pub fn check() -> Result<()> {
    let metadata = graph::load()?;
    let ours: BTreeSet<_> = metadata.workspace_members.iter().collect();
    let theirs = metadata.packages.iter().filter(|package| !ours.contains(&package.id));
    let problems: Vec<String> = theirs.filter_map(|package| problem_with(package).err()).collect();
    if !problems.is_empty() {
        bail!("{}\nAllowed are those in crates/xtask/allowed-licences.txt.", problems.join("\n"));
    }
    println!("{} dependencies, all under licences of the list", metadata.packages.len() - ours.len());
    Ok(())
}

fn problem_with(package: &Package) -> Result<(), String> {
    let name = format!("{} {}", package.name, package.version);
    let Some(expression) = &package.license else { return Err(format!("{name} names no licence")) };
    if is_allowed(expression)? { Ok(()) } else { Err(format!("{name} comes under {expression}")) }
}

fn is_allowed(expression: &str) -> Result<bool, String> {
    let parsed = Expression::parse_mode(expression, ParseMode::LAX);
    let parsed =
        parsed.map_err(|problem| format!("the licence \"{expression}\" cannot be read: {problem}"))?;
    Ok(parsed.evaluate(|licence| allowed().any(|name| name == licence.to_string())))
}

fn allowed() -> impl Iterator<Item = &'static str> {
    ALLOWED.lines().map(str::trim).filter(|line| !line.is_empty() && !line.starts_with('#'))
}

/// The text that goes with the app: our own licences, those of every crate in it, and that of the music font.
pub fn text(crate_name: &str) -> Result<String> {
    let metadata = graph::load()?;
    let mut text =
        "Crookwise may be used under the MIT licence or the Apache License 2.0, as you choose.\n".to_owned();
    for name in ["LICENSE-MIT", "LICENSE-APACHE"] {
        section(&mut text, name, &read(&shell::at(name))?)?;
    }
    let font = shell::at("crates/engraving/data/OFL.txt");
    if font.is_file() {
        section(&mut text, "The music font: SIL Open Font License 1.1", &read(&font)?)?;
    }
    let packages = graph::inside(&metadata, crate_name)?;
    let theirs: Vec<_> = packages.into_iter().filter(|package| package.source.is_some()).collect();
    writeln!(text, "\nThe app is made with these libraries:\n")?;
    // Many libraries come with the very same words: each is printed once, with all it goes for.
    let mut files: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for package in theirs {
        let licence = package.license.as_deref().unwrap_or("see below");
        writeln!(text, "{} {}: {licence}", package.name, package.version)?;
        for words in texts_of(package)? {
            files.entry(words).or_default().push(format!("{} {}", package.name, package.version));
        }
    }
    let mut files: Vec<_> = files.into_iter().map(|(words, names)| (names.join(", "), words)).collect();
    files.sort();
    for (names, words) in files {
        section(&mut text, &names, &words)?;
    }
    Ok(text)
}

fn section(text: &mut String, title: &str, words: &str) -> Result<()> {
    writeln!(text, "\n{}\n{title}\n\n{}", "-".repeat(72), words.trim_end()).context("no memory for a licence")
}

/// The licence texts that a crate comes with.
fn texts_of(package: &Package) -> Result<Vec<String>> {
    let folder = package.manifest_path.parent().context("a crate has no folder")?;
    let mut texts = Vec::new();
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name().to_string_lossy().to_uppercase();
        let named = ["LICENSE", "LICENCE", "COPYING", "NOTICE", "UNLICENSE"]
            .iter()
            .any(|start| name.starts_with(start));
        if named && entry.path().is_file() {
            texts.push(read(&entry.path())?.replace("\r\n", "\n").trim().to_owned());
        }
    }
    texts.sort();
    Ok(texts)
}

fn read(file: &Path) -> Result<String> {
    std::fs::read_to_string(file).with_context(|| format!("could not read {}", file.display()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn expressions_are_weighed_against_the_list() {
        for good in
            ["MIT OR Apache-2.0", "MIT/Apache-2.0", "GPL-3.0 OR MIT", "Apache-2.0 WITH LLVM-exception"]
        {
            assert_eq!(is_allowed(good), Ok(true), "{good}");
        }
        for bad in ["GPL-3.0", "MIT AND GPL-3.0-only", "AGPL-3.0-or-later"] {
            assert_eq!(is_allowed(bad), Ok(false), "{bad}");
        }
        assert!(is_allowed("whatever you like").is_err());
    }

    #[test]
    fn every_name_on_the_list_is_an_spdx_name() {
        for name in allowed() {
            assert_eq!(is_allowed(name), Ok(true), "{name}");
        }
    }
}
