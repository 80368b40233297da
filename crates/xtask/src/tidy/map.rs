//! DEVELOPERS.md is the map of the code: what it names must be there, and what is there must be named.

use crate::{graph, shell};
use anyhow::Result;
use std::path::Path;

/// Every broken rule.
pub fn check() -> Result<Vec<String>> {
    let Ok(map) = std::fs::read_to_string(shell::at("DEVELOPERS.md")) else {
        return Ok(vec!["DEVELOPERS.md, the map of the code, is missing".to_owned()]);
    };
    let metadata = graph::load()?;
    let crates: Vec<&str> =
        metadata.workspace_packages().iter().map(|package| package.name.as_str()).collect();
    let mut problems: Vec<String> = paths(&map)
        .filter(|path| !shell::at(path).exists())
        .map(|path| format!("DEVELOPERS.md names {path}, which is not there"))
        .collect();
    problems.extend(
        crate_names(&map)
            .filter(|name| !crates.contains(name))
            .map(|name| format!("DEVELOPERS.md names the crate {name}, which is not there")),
    );
    let wanted = places(&metadata)?;
    problems.extend(
        wanted
            .into_iter()
            .filter(|place| !names(&map, place))
            .map(|place| format!("DEVELOPERS.md does not name {place}")),
    );
    Ok(problems)
}

/// What must be named: every crate's folder, every folder of a crate's sources, every module of the app.
fn places(metadata: &cargo_metadata::Metadata) -> Result<Vec<String>> {
    let root = shell::root();
    let mut places = Vec::new();
    for package in metadata.workspace_packages() {
        let folder = package
            .manifest_path
            .parent()
            .map(|folder| folder.as_std_path().to_path_buf())
            .unwrap_or_default();
        let folder = folder.strip_prefix(&root).unwrap_or(&folder).to_string_lossy().replace('\\', "/");
        let is_app = package.name.as_str() == "crookwise-web";
        for entry in std::fs::read_dir(root.join(&folder).join("src")).into_iter().flatten() {
            let entry = entry?;
            let name = entry.file_name().to_string_lossy().into_owned();
            let is_module = is_app && name != "main.rs" && name.ends_with(".rs");
            if entry.path().is_dir() || is_module {
                places.push(format!("{folder}/src/{name}"));
            }
        }
        places.push(folder);
    }
    places.sort();
    Ok(places)
}

/// Whether the map names a place, by its full path from the root.
fn names(map: &str, place: &str) -> bool {
    map.match_indices(place).any(|(at, _)| {
        let before = map[..at].chars().next_back();
        let after = map[at + place.len()..].chars().next();
        let inside = |letter: char| letter.is_alphanumeric() || "_-/".contains(letter);
        !before.is_some_and(inside)
            && !after.is_some_and(|letter| letter.is_alphanumeric() || "_-".contains(letter))
    })
}

/// The paths that the map names: in `code`, and as the first word of a line in a block of code.
fn paths(map: &str) -> impl Iterator<Item = &str> {
    let blocks = map.split("```").enumerate();
    blocks.flat_map(|(number, text)| {
        let inline = number % 2 == 0;
        let spans = text.split('`').skip(1).step_by(2).filter(move |_| inline);
        let firsts = text.lines().filter_map(|line| line.split_whitespace().next()).filter(move |_| !inline);
        spans.chain(firsts).filter(|word| is_path(word)).map(|word| word.trim_end_matches('/'))
    })
}

fn is_path(word: &str) -> bool {
    let ending = Path::new(word).extension().is_some_and(|ending| {
        ["rs", "md", "toml", "html", "css", "js", "mjs", "csv", "txt", "lock"]
            .iter()
            .any(|known| ending == *known)
    });
    (word.contains('/') || ending)
        && !word.starts_with(['/', '.', '#', '-', '$', '@'])
        && !word.contains([' ', '*', '<', '{', '(', '…', '='])
        && !word.contains("::")
        && !word.contains("//")
        // What is built or installed is not in the repository.
        && !["dist/", "target/"].iter().any(|start| word.starts_with(start))
}

fn crate_names(map: &str) -> impl Iterator<Item = &str> {
    let words = map.split(|letter: char| !letter.is_ascii_lowercase() && letter != '-');
    words.filter(|word| word.strip_prefix("crookwise-").is_some_and(|rest| !rest.is_empty()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_are_told_from_other_code() {
        let map = "See `crates/theory/`, `cargo xtask test`, `a::b`, `README.md` and `dist/site`.\n\
            ```\nweb/src/main.rs   the app\ncargo run\n```\nand `crates/*/src`, `http://a/b`, `../x/y`.";
        assert_eq!(paths(map).collect::<Vec<_>>(), ["crates/theory", "README.md", "web/src/main.rs"]);
    }

    #[test]
    fn a_place_is_named_only_by_its_whole_path() {
        assert!(names("the `web/src/state/` folder", "web/src/state"));
        assert!(names("the `web/src/state/` folder", "web"));
        assert!(!names("the `web/src/statement` folder", "web/src/state"));
        assert!(!names("the `other/web` folder", "web"));
    }

    #[test]
    fn crates_are_found_by_name() {
        assert_eq!(
            crate_names("`crookwise-theory`, crookwise-nothing.").collect::<Vec<_>>(),
            ["crookwise-theory", "crookwise-nothing"]
        );
    }

    #[test]
    fn the_app_and_its_modules_are_wanted_on_the_map() {
        let places = places(&graph::load().unwrap()).unwrap();
        assert!(
            ["crates/theory", "web", "tests", "tests/src/bin"]
                .iter()
                .all(|name| places.iter().any(|at| at == name))
        );
    }
}
