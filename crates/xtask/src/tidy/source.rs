//! Rules for single files: their head, their size, what they may name.

use crate::shell;
use anyhow::{Context, Result};
use std::path::Path;

/// How long a file may be, its tests not counted.
const LINES: usize = 400;
/// Folders that lie on one machine only. A text that names them is of no use on another.
const MACHINE: &[&str] = &["work", "root", "home", "tmp"];
/// Where the browser's own names may stand.
const BROWSER: &[&str] = &["web/src/browser", "crates/js/", "crates/xtask/"];

/// The app's own dealings with the browser.
const SERVICES: &str = "web/src/browser/";
/// What lets something be called back for ever, with what to use instead: its handle has an owner.
const UNOWNED: &[(&str, &str)] = &[
    (".forget()", "keep the handle"),
    ("mem::forget", "keep the handle"),
    ("into_js_value()", "keep the closure"),
    ("window_event_listener", "gloo_events"),
    ("set_interval", "gloo_timers"),
    ("set_timeout", "gloo_timers"),
    ("leptos::prelude::request_animation_frame", "gloo_render"),
];

/// Every broken rule.
pub fn check() -> Result<Vec<String>> {
    let mut problems = Vec::new();
    for name in files()? {
        let path = shell::at(&name);
        // What is no text, and what was removed but not yet committed, has no lines to look at.
        let Ok(text) = std::fs::read_to_string(&path) else { continue };
        if Path::new(&name).extension().is_some_and(|ending| ending == "rs") {
            problems.extend(of_rust(&name, &text));
        }
        problems.extend(machine_paths(&name, &text));
    }
    Ok(problems)
}

/// The files that are ours: what git knows and what it would take in.
pub fn files() -> Result<Vec<String>> {
    let list = shell::output(shell::program("git").args([
        "ls-files",
        "--cached",
        "--others",
        "--exclude-standard",
        "-z",
    ]))
    .context("git could not say which files are ours")?;
    Ok(list.split('\0').filter(|name| !name.is_empty()).map(String::from).collect())
}

fn of_rust(name: &str, text: &str) -> Vec<String> {
    let mut problems = Vec::new();
    if !text.starts_with("//!") {
        problems.push(format!("{name}: opens with no //! that says what lives here"));
    }
    let tests = text.lines().position(|line| line.trim() == "#[cfg(test)]");
    let length = tests.unwrap_or_else(|| text.lines().count());
    let is_test = name.starts_with("tests/tests/") || name.contains("/tests/");
    if length > LINES && !is_test {
        problems.push(format!("{name}: {length} lines without tests, more than {LINES}: split it"));
    }
    if !BROWSER.iter().any(|place| name.starts_with(place)) {
        for (number, line) in text.lines().enumerate() {
            let code = line.split("//").next().unwrap_or_default();
            if code.contains("web_sys") || code.contains("js_sys") {
                problems.push(format!("{name}:{}: names the browser outside web/src/browser", number + 1));
            }
        }
    }
    if name.starts_with("web/src/") {
        problems.extend(of_app(name, text));
    }
    if name.starts_with("tests/tests/") && text.lines().any(|line| line.trim() == "#[test]") {
        problems.push(format!("{name}: a #[test] that no runner sees: name it in the list of its file"));
    }
    problems
}

/// What is called back has an owner, and where the browser's own names stand, gloo has nothing instead.
fn of_app(name: &str, text: &str) -> Vec<String> {
    let mut problems = Vec::new();
    let code = |line: &str| line.split("//").next().unwrap_or_default().to_owned();
    for (number, line) in text.lines().map(code).enumerate() {
        for (unowned, instead) in UNOWNED.iter().filter(|(unowned, _)| line.contains(unowned)) {
            problems.push(format!("{name}:{}: {unowned} has no owner: {instead}", number + 1));
        }
    }
    let reason = text.lines().take_while(|line| line.starts_with("//!")).any(|line| line.contains("gloo"));
    let by_hand = text.lines().map(code).any(|line| line.contains("web_sys") || line.contains("js_sys"));
    if name.starts_with(SERVICES) && by_hand && !reason {
        problems.push(format!("{name}: its head does not say why it is not gloo's"));
    }
    problems
}

fn machine_paths(name: &str, text: &str) -> Vec<String> {
    let mut problems = Vec::new();
    for (number, line) in text.lines().enumerate() {
        for folder in MACHINE {
            if names_folder(line, folder) {
                problems.push(format!("{name}:{}: names the machine's folder /{folder}", number + 1));
            }
        }
    }
    problems
}

/// Whether the line names this folder at the root of a machine: as a path of its own, not inside another path or word, nor
/// as the end of an element.
fn names_folder(line: &str, folder: &str) -> bool {
    let needle = format!("/{folder}");
    line.match_indices(&needle).any(|(at, _)| {
        let before = line[..at].chars().next_back();
        let after = line[at + needle.len()..].chars().next();
        let inside = |letter: char| letter.is_alphanumeric() || "_-.~}/)*<".contains(letter);
        !before.is_some_and(inside)
            && !after.is_some_and(|letter| letter.is_alphanumeric() || "_-.".contains(letter))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_without_head_or_too_long_is_found() {
        assert_eq!(of_rust("a.rs", "//! Here.\nfn f() {}\n"), Vec::<String>::new());
        assert_eq!(of_rust("a.rs", "fn f() {}\n").len(), 1);
        let long = format!("//! Here.\n{}", "fn f() {}\n".repeat(400));
        assert_eq!(of_rust("a.rs", &long).len(), 1);
        let tested = format!("//! Here.\n#[cfg(test)]\n{}", "fn f() {}\n".repeat(400));
        assert_eq!(of_rust("a.rs", &tested), Vec::<String>::new());
    }

    #[test]
    fn a_flow_that_nobody_runs_is_found() {
        let text = "//! Here.\n#[test]\nfn f() {}\n";
        assert_eq!(of_rust("tests/tests/flows/a.rs", text).len(), 1);
        assert_eq!(of_rust("crates/score/tests/a.rs", text), Vec::<String>::new());
    }

    #[test]
    fn the_browser_stays_in_its_place() {
        let text = "//! Here: gloo has nothing for it.\nuse web_sys::Window;\n// web_sys in words\n";
        assert_eq!(of_rust("web/src/state/a.rs", text).len(), 1);
        assert_eq!(of_rust("web/src/browser/a.rs", text), Vec::<String>::new());
    }

    #[test]
    fn what_is_called_back_has_an_owner_and_a_reason() {
        let found = |text: &str| of_app("web/src/browser/a.rs", text).len();
        assert_eq!(found("//! Here: gloo has nothing for it.\nuse web_sys::Window;\n"), 0);
        assert_eq!(found("//! Here.\nuse gloo_events::EventListener;\n"), 0);
        assert_eq!(found("//! Here.\nuse web_sys::Window;\n"), 1);
        assert_eq!(found("//! Here.\nlistener.forget();\nset_timeout(act, LONG);\n"), 2);
    }

    #[test]
    fn folders_of_a_machine_are_told_from_words() {
        let folder = |name: &str| format!("see /{name}/x and");
        for name in MACHINE {
            assert_eq!(machine_paths("a.md", &folder(name)).len(), 1, "{name}");
        }
        assert_eq!(
            machine_paths("a.md", "a/work, https://example.org/home, /workshop, /temporary, <root>6</root>"),
            Vec::<String>::new()
        );
    }
}
