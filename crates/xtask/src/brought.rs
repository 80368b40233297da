//! What a place of the app brings with it: its own parts and those that it shares with others, which stand in no file of
//! its name.

use std::collections::BTreeSet;

/// Files as the module that fetches the parts names them.
pub fn listed(files: &[String]) -> String {
    files.iter().map(|file| format!("\"{file}\"")).collect::<Vec<_>>().join(", ")
}

/// The files that come with this one, by that module.
fn fetched_with<'a>(module: &'a str, file: &str) -> impl Iterator<Item = String> + use<'a> {
    let name = file.strip_suffix(".wasm").map(|name| format!("\"{name}\""));
    let line = name.and_then(|name| module.lines().find(|line| line.contains(&name)));
    let files = line.and_then(|line| line.split_once("part(")).map(|(_, files)| files);
    files.into_iter().flat_map(|files| files.split('"').skip(1).step_by(2)).map(|name| format!("{name}.wasm"))
}

/// The names of all files that are fetched where these parts are, without their folder: these, and what they share.
pub fn with_shared(module: &str, parts: &[&str]) -> BTreeSet<String> {
    let shared = parts.iter().flat_map(|part| fetched_with(module, part));
    shared.chain(parts.iter().map(|part| (*part).to_owned())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// As it is written for a release.
    const MODULE: &str = "const part = (...files) => async () => {};
export const __wasm_split_load_practise = part(\"split_practise\", \"shared_1\", \"shared_12\");
export const __wasm_split_load_score = part(\"split_score\", \"shared_1\");
";

    #[test]
    fn what_is_shared_comes_with_each_and_once() {
        let names = |parts: &[&str]| with_shared(MODULE, parts).into_iter().collect::<Vec<_>>();
        assert_eq!(
            names(&["split_practise.wasm"]),
            ["shared_1.wasm", "shared_12.wasm", "split_practise.wasm"]
        );
        let both = names(&["split_practise.wasm", "split_score.wasm"]);
        assert_eq!(both, ["shared_1.wasm", "shared_12.wasm", "split_practise.wasm", "split_score.wasm"]);
        assert_eq!(names(&["score.js"]), ["score.js"]);
    }

    #[test]
    fn files_are_listed_as_they_are_read() {
        let line = format!("= part({});", listed(&["split_a".to_owned(), "shared_2".to_owned()]));
        assert_eq!(
            fetched_with(&line, "split_a.wasm").collect::<Vec<_>>(),
            ["split_a.wasm", "shared_2.wasm"]
        );
    }
}
