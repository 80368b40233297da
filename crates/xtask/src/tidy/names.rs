//! A type's name means one thing in the app: nothing else there has it, and no type of the pure crates it uses.

use crate::shell;
use crate::tidy::source;
use anyhow::{Context, Result};
use std::collections::BTreeMap;

const APP: &str = "web/src/";
/// Crates that the app does not use.
const APART: &[&str] = &["crates/js/", "crates/xtask/"];
const KINDS: &[&str] = &["struct", "enum", "trait", "type", "union"];

/// Every name that means two things.
pub fn check() -> Result<Vec<String>> {
    let mut declared = Vec::new();
    for name in source::files()? {
        let ours = name.starts_with(APP) || (name.starts_with("crates/") && name.contains("/src/"));
        let path = shell::at(&name);
        if ours && name.ends_with(".rs") && !APART.iter().any(|at| name.starts_with(at)) && path.exists() {
            let text = std::fs::read_to_string(path).with_context(|| format!("could not read {name}"))?;
            declared.extend(types(&text).map(|declared| (declared.to_owned(), name.clone())));
        }
    }
    Ok(doubled(&declared))
}

fn doubled(declared: &[(String, String)]) -> Vec<String> {
    let mut by_name: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for (name, file) in declared {
        by_name.entry(name).or_default().push(file);
    }
    let twice = by_name
        .into_iter()
        .filter(|(_, files)| files.len() > 1 && files.iter().any(|file| file.starts_with(APP)));
    twice.map(|(name, files)| format!("the name {name} means two things: {}", files.join(", "))).collect()
}

/// The types that a file makes public, those in its tests left out.
fn types(text: &str) -> impl Iterator<Item = &str> {
    let lines = text.lines().take_while(|line| line.trim() != "#[cfg(test)]");
    lines.filter_map(|line| {
        let mut words = line.strip_prefix("pub ")?.split_whitespace();
        KINDS.contains(&words.next()?).then_some(())?;
        words.next()?.split(|letter: char| !letter.is_alphanumeric() && letter != '_').next()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn public_types_are_found() {
        let text = "pub struct A<T>(T);\npub enum B {\npub fn c() {}\nstruct D;\npub(crate) struct E;\npub type F = A;\n\
            #[cfg(test)]\npub struct G;";
        assert_eq!(types(text).collect::<Vec<_>>(), ["A", "B", "F"]);
    }

    #[test]
    fn a_name_that_the_app_shares_is_found() {
        let declared = |all: &[(&str, &str)]| -> Vec<(String, String)> {
            all.iter().map(|(name, file)| ((*name).to_owned(), (*file).to_owned())).collect()
        };
        assert_eq!(doubled(&declared(&[("A", "web/src/a.rs"), ("A", "web/src/b.rs")])).len(), 1);
        assert_eq!(doubled(&declared(&[("A", "web/src/a.rs"), ("A", "crates/score/src/b.rs")])).len(), 1);
        let apart = declared(&[("A", "crates/theory/src/a.rs"), ("A", "crates/score/src/b.rs")]);
        assert!(doubled(&apart).is_empty());
        assert!(doubled(&declared(&[("A", "web/src/a.rs"), ("B", "web/src/a.rs")])).is_empty());
    }
}
