//! Every text that the reader sees or hears stands in `web/src/words`.
//!
//! Found is a text elsewhere in the app that names or labels something in a view, that has several words, or that begins
//! with a capital letter. Left alone are names for machines: style classes (all of them stand in a style sheet), addresses,
//! names that the browser gives, labels that a score prints, and what only a developer reads.

use crate::shell;
use crate::tidy::source;
use anyhow::{Context, Result};
use std::collections::BTreeSet;

const APP: &str = "web/src/";
const WORDS: &str = "web/src/words/";
const STYLE: &str = "web/style/";
/// What stands before a text that names something to the reader.
const NAMING: &[&str] = &["aria-label=", "placeholder=", "title=", "alt="];
/// What stands before a text for machines, for developers, or out of a score.
const APART: &[&str] =
    &["class=", "include_str!(", "expect(", "panic!(", "unreachable!(", "of_label(", "AskedStaff::of("];
/// How addresses, queries of the style and names in storage begin.
const MACHINE: &[char] = &['/', '#', '('];
/// Names that the browser gives to keys (W3C), and heads of files of ours.
const GIVEN: &[&str] = &[
    "Backspace",
    "Crookwise list",
    "Crookwise pages",
    "Crookwise practice",
    "Crookwise set aside",
    "Delete",
    "End",
    "Enter",
    "Escape",
    "Home",
];

/// Every text outside its place.
pub fn check() -> Result<Vec<String>> {
    let (mut classes, mut texts) = (BTreeSet::new(), Vec::new());
    for name in source::files()? {
        let (sheet, code) = (name.starts_with(STYLE), name.starts_with(APP) && !name.starts_with(WORDS));
        let path = shell::at(&name);
        if (sheet || (code && name.ends_with(".rs"))) && path.exists() {
            let text = std::fs::read_to_string(path).with_context(|| format!("could not read {name}"))?;
            if sheet {
                classes.extend(style_classes(&text));
            } else {
                texts.push((name, text));
            }
        }
    }
    Ok(texts.iter().flat_map(|(name, text)| of_file(name, text, &classes)).collect())
}

fn of_file(name: &str, text: &str, classes: &BTreeSet<String>) -> Vec<String> {
    // What tests say to each other nobody reads in the app.
    let code = text.split("#[cfg(test)]").next().unwrap_or_default();
    let found = literals(code).into_iter().filter(|literal| is_for_readers(literal, classes));
    found
        .map(|literal| format!("{name}:{}: \"{}\" belongs into {WORDS}", literal.line, literal.text))
        .collect()
}

/// A text in the code.
#[derive(Debug)]
struct Literal<'a> {
    line: usize,
    text: &'a str,
    /// The code before it.
    before: &'a str,
}

fn is_for_readers(literal: &Literal<'_>, classes: &BTreeSet<String>) -> bool {
    let text = without_places(literal.text);
    let before = literal.before.trim_end();
    let ends = |with: &&str| before.ends_with(with);
    if !text.chars().any(char::is_alphabetic) || APART.iter().any(ends) || GIVEN.contains(&text.as_str()) {
        return false;
    }
    let in_view = before.ends_with('>') && !before.ends_with("=>") && !before.ends_with("->");
    if NAMING.iter().any(ends) || in_view {
        return true;
    }
    if text.starts_with(MACHINE) || text.starts_with("crookwise.") {
        return false;
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    if words.len() > 1 && words.iter().all(|word| classes.contains(*word)) {
        return false;
    }
    // Such as ArrowLeft.
    let joined = text.char_indices().skip(1).any(|(_, letter)| letter.is_uppercase());
    if words.len() == 1 && joined {
        return false;
    }
    let letters = |word: &str| word.chars().filter(|letter| letter.is_alphabetic()).count();
    let several = words.windows(2).any(|pair| letters(pair[0]) + letters(pair[1]) > 2);
    let mut first = text.chars().skip_while(|letter| !letter.is_alphabetic());
    let capital =
        first.next().is_some_and(char::is_uppercase) && first.next().is_some_and(char::is_lowercase);
    several || capital
}

/// A text without what is filled in.
fn without_places(text: &str) -> String {
    let mut kept = String::new();
    let mut depth = 0_usize;
    for letter in text.replace("\\n", " ").chars() {
        match letter {
            '{' => depth += 1,
            '}' => depth = depth.saturating_sub(1),
            _ if depth == 0 => kept.push(letter),
            _ => {}
        }
    }
    kept
}

/// The names of classes in a style sheet.
fn style_classes(sheet: &str) -> impl Iterator<Item = String> {
    sheet.split('.').skip(1).filter_map(|rest| {
        let name: String = rest
            .chars()
            .take_while(|letter| letter.is_ascii_alphanumeric() || "-_".contains(*letter))
            .collect();
        name.starts_with(|letter: char| letter.is_ascii_alphabetic()).then_some(name)
    })
}

/// The texts of a piece of code, those in comments left out.
fn literals(code: &str) -> Vec<Literal<'_>> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(rest) = code.get(at..).filter(|rest| !rest.is_empty()) {
        let length = if rest.starts_with("//") {
            rest.find('\n').unwrap_or(rest.len())
        } else if rest.starts_with("'\"'") || rest.starts_with("'\\") {
            // A letter, not the beginning of a text.
            rest.char_indices().skip(2).find(|(_, letter)| *letter == '\'').map_or(2, |(end, _)| end + 1)
        } else if let Some((opens, length)) = text_at(rest) {
            let line = code[..at].matches('\n').count() + 1;
            found.push(Literal { line, text: &rest[opens..length - opens.min(1)], before: &code[..at] });
            length
        } else {
            rest.chars().next().map_or(1, char::len_utf8)
        };
        at += length;
    }
    found
}

/// How long the quote at the beginning of a text is, and the whole text with its quotes.
fn text_at(rest: &str) -> Option<(usize, usize)> {
    let inside = rest.strip_prefix('"')?;
    let mut escaped = false;
    for (at, letter) in inside.char_indices() {
        match letter {
            '"' if !escaped => return Some((1, at + 2)),
            '\\' => escaped = !escaped,
            _ => escaped = false,
        }
    }
    Some((1, rest.len()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(code: &str) -> usize {
        let classes = style_classes(".card { } .card.share > .row-name::before { width: 1.5em }").collect();
        of_file("web/src/components/a.rs", code, &classes).len()
    }

    #[test]
    fn texts_for_readers_are_found() {
        for code in [
            r#"<p>"none"</p>"#,
            r#"<p aria-label="natural">"#,
            r#"name("as the tuning wants it")"#,
            r#"tool("Flat", "♭")"#,
            r#"format!("Step {} of {}", 1, 2)"#,
            r#"format!("Right: {right}")"#,
            r#"let quote = '"'; say("written C")"#,
            r#"say("it \"is\" so")"#,
            "say(\"a text of\\\n    two lines\")",
        ] {
            assert_eq!(found(code), 1, "{code}");
        }
    }

    #[test]
    fn names_for_machines_are_left_alone() {
        for code in [
            r#"<div class="anything at all">"#,
            r#"live(move || "card share")"#,
            r#"format!("card {kind}")"#,
            r#"match key { "ArrowLeft" | "Home" => 1 }; name == "QuotaExceededError""#,
            r##"go("#/practise?from=read", "crookwise.pages", "(prefers-color-scheme: dark)")"##,
            r#"ReadPage::of_label("Corni in Es").expect("the label is ours")"#,
            r#"format!("{}.{}px", 1, 2); ("→", " · ", "natural", "a4")"#,
            "// \"A note for us\"\nfn f() {}",
            "#[cfg(test)]\nassert!(\"A sentence of a test\")",
        ] {
            assert_eq!(found(code), 0, "{code}");
        }
    }
}
