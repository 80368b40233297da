//! Arrows inside the app: what each folder may use of the others.

use crate::shell;
use crate::tidy::source;
use anyhow::{Context, Result};

/// Where the app's folders lie.
const APP: &str = "web/src/";
/// Each folder or file of the app with what it may use of the app besides itself, as it stands behind `crate::`. One that is
/// missing here is an error, so that a new one is given its place.
const LAYERS: &[(&str, &[&str])] = &[
    ("words", &[]),
    ("browser", &[]),
    ("state", &["words"]),
    ("store", &["browser", "state", "words"]),
    ("components", &["browser", "state", "store", "words"]),
    ("places", &["browser", "components", "state", "store", "words"]),
    ("route.rs", &["browser", "components", "state", "store", "words"]),
    ("app.rs", &["browser", "components", "places", "route", "state", "store", "words"]),
    ("lib.rs", &[]),
    ("main.rs", &["app", "browser", "store", "words"]),
];

/// Every use that runs up.
pub fn check() -> Result<Vec<String>> {
    let mut problems = Vec::new();
    for name in source::files()?.iter().filter(|name| name.starts_with(APP) && name.ends_with(".rs")) {
        // What was removed but not yet committed has no lines to look at.
        let path = shell::at(name);
        if path.exists() {
            let text = std::fs::read_to_string(path).with_context(|| format!("could not read {name}"))?;
            problems.extend(of_file(name, &text));
        }
    }
    Ok(problems)
}

fn of_file(name: &str, text: &str) -> Vec<String> {
    let layer = name.strip_prefix(APP).and_then(|inside| inside.split('/').next()).unwrap_or_default();
    let Some((_, may)) = LAYERS.iter().find(|(known, _)| *known == layer) else {
        return vec![format!("{name} has no place in crates/xtask/src/tidy/layers.rs")];
    };
    let mut problems = Vec::new();
    for (number, line) in text.lines().enumerate() {
        for used in used(line) {
            if used != layer && used != layer.trim_end_matches(".rs") && !may.contains(&used) {
                problems.push(format!("{name}:{}: {layer} may not use {used}", number + 1));
            }
        }
    }
    problems
}

/// The folders of the app that a line names.
fn used(line: &str) -> impl Iterator<Item = &str> {
    let code = line.split("//").next().unwrap_or_default();
    let known = |name: &&str| LAYERS.iter().any(|(layer, _)| layer.trim_end_matches(".rs") == *name);
    ["crate::", "crookwise_web::"]
        .into_iter()
        .flat_map(move |start| code.split(start).skip(1))
        .flat_map(|rest| {
            // One folder, or several in braces.
            let several = rest.strip_prefix('{').and_then(|inside| inside.split('}').next());
            several.map_or_else(|| vec![rest], |inside| inside.split(',').collect())
        })
        .map(|path| {
            let path = path.trim();
            path.split(|letter: char| !letter.is_alphanumeric() && letter != '_').next().unwrap_or_default()
        })
        .filter(known)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_arrow_that_runs_up_is_found() {
        let found = |name: &str, text: &str| of_file(name, text).len();
        assert_eq!(found("web/src/components/a.rs", "use crate::app::X;"), 1);
        assert_eq!(found("web/src/components/a/b.rs", "    crate::places::read::x();"), 1);
        assert_eq!(found("web/src/browser/a.rs", "use crate::{words, state::kept};"), 2);
        assert_eq!(found("web/src/state/a.rs", "use crate::browser::storage;"), 1);
        assert_eq!(found("web/src/words/a.rs", "use crate::state::wall;"), 1);
        assert_eq!(found("web/src/places/a.rs", "use crate::app::X;"), 1);
        assert_eq!(found("web/src/new/a.rs", ""), 1);
    }

    #[test]
    fn an_arrow_that_runs_down_is_none() {
        let found = |name: &str, text: &str| of_file(name, text).len();
        assert_eq!(found("web/src/components/a.rs", "use crate::{browser::field, state::desk, words};"), 0);
        assert_eq!(found("web/src/state/a/b.rs", "use crate::state::desk; // crate::app in words"), 0);
        assert_eq!(found("web/src/app.rs", "use crate::places::read::read;"), 0);
        assert_eq!(found("web/src/main.rs", "use crookwise_web::app::app;"), 0);
    }

    #[test]
    fn the_layers_make_no_circle() {
        for (name, may) in LAYERS {
            for other in *may {
                let back =
                    LAYERS.iter().find(|(layer, _)| layer.trim_end_matches(".rs") == *other).unwrap().1;
                assert!(!back.contains(&name.trim_end_matches(".rs")), "{name} and {other}");
            }
        }
    }
}
