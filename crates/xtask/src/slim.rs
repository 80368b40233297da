//! Short names for what the app has from its glue.
//!
//! wasm-bindgen names each function of the glue by what it does and a hash, once in the wasm file and twice in the glue, and
//! has no option for shorter names. They weigh 5.1 kB of a first visit. What else there is to shorten in the glue is done by
//! a library (`minify.rs`).

use std::collections::BTreeMap;
use walrus::Module;

/// Where the wasm file has the functions of its glue from.
const GLUE: &str = "./app_bg.js";

/// Gives the functions of the glue short names in the wasm file, and gives the glue with them.
pub fn slim(module: &mut Module, glue: &str) -> String {
    let mut names: Vec<String> = module
        .imports
        .iter()
        .filter(|import| import.module == GLUE)
        .map(|import| import.name.clone())
        .collect();
    names.sort();
    names.dedup();
    let short: BTreeMap<&str, String> =
        names.iter().enumerate().map(|(number, name)| (name.as_str(), format!("f{number}"))).collect();
    for import in module.imports.iter_mut().filter(|import| import.module == GLUE) {
        if let Some(name) = short.get(import.name.as_str()) {
            import.name.clone_from(name);
        }
    }
    with_words(glue, &short)
}

/// A script with some of its words put otherwise.
fn with_words(script: &str, words: &BTreeMap<&str, String>) -> String {
    let of_word = |letter: char| letter.is_ascii_alphanumeric() || letter == '_' || letter == '$';
    let mut out = String::new();
    let mut rest = script;
    while let Some(letter) = rest.chars().next() {
        let inside = of_word(letter);
        let (piece, after) = rest.split_at(rest.find(|other| of_word(other) != inside).unwrap_or(rest.len()));
        out.push_str(words.get(piece).map_or(piece, String::as_str));
        rest = after;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_put_otherwise_and_parts_of_words_are_not() {
        let words = [("__wbg_a_1", "f0".to_owned()), ("__wbg_a", "f1".to_owned())].into();
        assert_eq!(
            with_words("{ __wbg_a_1: é, __wbg_a_12: 1 }.__wbg_a", &words),
            "{ f0: é, __wbg_a_12: 1 }.f1"
        );
    }
}
