//! Which crate may stand on which: arrows go one way, and the pure crates know no browser.

use crate::graph;
use anyhow::Result;
use cargo_metadata::{DependencyKind, Metadata};

/// Each crate of ours with those of ours that it may use. A crate that is missing here is an error, so that a new one is
/// given its place.
const ARROWS: &[(&str, &[&str])] = &[
    ("crookwise-theory", &[]),
    ("crookwise-score", &["crookwise-theory"]),
    ("crookwise-musicxml", &["crookwise-score", "crookwise-theory"]),
    ("crookwise-engraving", &["crookwise-score", "crookwise-theory"]),
    ("crookwise-planner", &["crookwise-score", "crookwise-theory"]),
    ("crookwise-practice", &["crookwise-score", "crookwise-theory"]),
    ("crookwise-share", &["crookwise-planner", "crookwise-practice", "crookwise-score", "crookwise-theory"]),
    ("crookwise-sound", &["crookwise-theory"]),
    (
        "crookwise-opened",
        &[
            "crookwise-engraving",
            "crookwise-musicxml",
            "crookwise-planner",
            "crookwise-score",
            "crookwise-share",
            "crookwise-theory",
        ],
    ),
    ("crookwise-js", ALL_PURE),
    ("crookwise-web", ALL_PURE),
    ("crookwise-tests", ALL_PURE),
    ("xtask", &[]),
];
const ALL_PURE: &[&str] = &[
    "crookwise-engraving",
    "crookwise-musicxml",
    "crookwise-opened",
    "crookwise-planner",
    "crookwise-practice",
    "crookwise-score",
    "crookwise-share",
    "crookwise-sound",
    "crookwise-theory",
];
/// What no pure crate may stand on, however far down.
const BROWSER: &[&str] = &["web-sys", "js-sys", "wasm-bindgen", "leptos"];

/// What comes with a library that has nothing to do with a browser: on wasm the archives' library takes chance from it, for
/// passwords that no score has.
const WITH_A_LIBRARY: &[(&str, &str)] = &[
    ("crookwise-musicxml", "js-sys"),
    ("crookwise-musicxml", "wasm-bindgen"),
    ("crookwise-opened", "js-sys"),
    ("crookwise-opened", "wasm-bindgen"),
];

/// Every broken rule.
pub fn check() -> Result<Vec<String>> {
    let metadata = graph::load()?;
    let mut problems = arrows(&metadata);
    for package in metadata.workspace_packages() {
        let name = package.name.as_str();
        if ALL_PURE.contains(&name) {
            let inside = graph::inside(&metadata, name)?;
            let found = inside.iter().filter(|inner| {
                let inner = inner.name.as_str();
                BROWSER.contains(&inner) && !WITH_A_LIBRARY.contains(&(name, inner))
            });
            problems.extend(found.map(|inner| format!("{name} is pure, but {} is in it", inner.name)));
        }
    }
    Ok(problems)
}

fn arrows(metadata: &Metadata) -> Vec<String> {
    let mut problems = Vec::new();
    for package in metadata.workspace_packages() {
        let name = package.name.as_str();
        let Some((_, may)) = ARROWS.iter().find(|(known, _)| *known == name) else {
            problems.push(format!("{name} has no place in crates/xtask/src/tidy/arrows.rs"));
            continue;
        };
        for dependency in &package.dependencies {
            let ours = ARROWS.iter().any(|(known, _)| *known == dependency.name);
            let allowed = may.contains(&dependency.name.as_str());
            if ours && !allowed && dependency.kind != DependencyKind::Development {
                problems.push(format!("{name} may not stand on {}", dependency.name));
            }
        }
    }
    problems
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn arrows_make_no_circle() {
        for (name, may) in ARROWS {
            for other in *may {
                let (_, back) = ARROWS.iter().find(|(known, _)| known == other).unwrap();
                assert!(!back.contains(name), "{name} and {other}");
            }
        }
    }

    #[test]
    fn the_browser_is_found_where_it_is() {
        let metadata = graph::load().unwrap();
        let inside = graph::inside(&metadata, "crookwise-web").unwrap();
        assert!(BROWSER.iter().all(|name| inside.iter().any(|package| package.name.as_str() == *name)));
    }
}
