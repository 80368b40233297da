//! What a place of the app brings with it: its own parts and those that it shares with others, which stand in no file of
//! its name.

use std::collections::BTreeSet;

/// The parts that this one is fetched with, by the splitter's own module: it names them in a list behind the part.
fn fetched_with<'a>(module: &'a str, part: &str) -> impl Iterator<Item = String> + use<'a> {
    let behind = module.split_once(&format!("\"./{part}\"")).map(|(_, behind)| behind);
    let list =
        behind.and_then(|behind| behind.split_once("\n, [")).and_then(|(_, list)| list.split_once(']'));
    let names = list.map(|(names, _)| names).unwrap_or_default().split(", ");
    names.filter_map(|name| name.strip_prefix("__")).map(|name| format!("{name}.wasm"))
}

/// The names of all parts that are fetched where these are, without their folder: these, and what they share.
pub fn with_shared(module: &str, parts: &[&str]) -> BTreeSet<String> {
    let shared = parts.iter().flat_map(|part| fetched_with(module, part));
    shared.chain(parts.iter().map(|part| (*part).to_owned())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// As the splitter writes it.
    const MODULE: &str = "const __chunk_1 = makeLoad(() => {
    const src = fetch(new URL(\"./chunk_1.wasm\", import.meta.url));
}
, []);
export const __wasm_split_load_practise = wrapAsyncCb(makeLoad(() => {
    const src = fetch(new URL(\"./split_practise.wasm\", import.meta.url));
}
, [__chunk_1, __chunk_12]));
export const __wasm_split_load_score = wrapAsyncCb(makeLoad(() => {
    const src = fetch(new URL(\"./split_score.wasm\", import.meta.url));
}
, [__chunk_1]));
";

    #[test]
    fn what_is_shared_comes_with_each_and_once() {
        let names = |parts: &[&str]| with_shared(MODULE, parts).into_iter().collect::<Vec<_>>();
        assert_eq!(names(&["split_practise.wasm"]), ["chunk_1.wasm", "chunk_12.wasm", "split_practise.wasm"]);
        let both = names(&["split_practise.wasm", "split_score.wasm"]);
        assert_eq!(both, ["chunk_1.wasm", "chunk_12.wasm", "split_practise.wasm", "split_score.wasm"]);
        assert_eq!(names(&["chunk_1.wasm"]), ["chunk_1.wasm"]);
        assert_eq!(names(&["score.js"]), ["score.js"]);
    }
}
