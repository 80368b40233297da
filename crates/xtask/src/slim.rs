//! What wasm-bindgen writes for the app, made smaller: long names, notes, and classes that nothing makes.

use anyhow::{Context, Result};
use std::collections::BTreeMap;
use walrus::{Module, passes};

/// Classes for streams to and from a server, which Leptos brings along. The app has no server and makes none of them, but
/// JavaScript could, so they stay unless they are taken out here.
const UNUSED: [&str; 3] = ["IntoUnderlyingByteSource", "IntoUnderlyingSink", "IntoUnderlyingSource"];

/// Where the wasm file has the functions of its glue from.
const GLUE: &str = "./app_bg.js";

/// The wasm file and its glue without what no visit needs.
pub fn slim(module: &mut Module, glue: &str) -> Result<String> {
    let mut glue = glue.to_owned();
    for class in UNUSED {
        if !glue.contains(&format!("export class {class} ")) {
            continue;
        }
        glue = without_class(&glue, class).with_context(|| format!("{class} is written in a new way"))?;
        let (method, free) =
            (format!("{}_", class.to_lowercase()), format!("__wbg_{}_free", class.to_lowercase()));
        let of_class = |name: &str| name.starts_with(&method) || name == free;
        let unused = module.exports.iter().filter(|export| of_class(&export.name)).map(walrus::Export::id);
        for id in unused.collect::<Vec<_>>() {
            module.exports.delete(id);
        }
    }
    passes::gc::run(module);
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
    Ok(without_layout(&with_words(&glue, &short)))
}

/// The glue without a class and without what looks after its objects.
fn without_class(glue: &str, class: &str) -> Option<String> {
    let class_text = (format!("export class {class} {{"), format!("{class}.prototype.free;\n"));
    let care = (format!("const {class}Finalization ="), ", 1));\n".to_owned());
    [class_text, care].iter().try_fold(glue.to_owned(), |text, (begin, end)| {
        let (before, rest) = text.split_once(begin)?;
        let (_, after) = rest.split_once(end)?;
        Some([before, after].concat())
    })
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

/// A script without its notes that stand alone on lines, and without the space before its lines.
fn without_layout(script: &str) -> String {
    let mut inside = false;
    let mut out = String::new();
    for line in script.lines().map(str::trim).filter(|line| !line.is_empty() && !line.starts_with("//")) {
        inside |= line.starts_with("/*");
        if !inside {
            out.push_str(line);
            out.push('\n');
        }
        inside &= !line.ends_with("*/");
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

    #[test]
    fn notes_and_space_leave_a_script() {
        assert_eq!(without_layout("/**\n * a\n */\n  b();\n// c\n\n/* d */\n\te();"), "b();\ne();\n");
    }

    #[test]
    fn a_class_leaves_with_what_looks_after_it() {
        let glue = "a\nexport class X {\nfree() {}\n}\nif (Symbol.dispose) X.prototype[Symbol.dispose] = X.prototype.free;\n\
            b\nconst XFinalization = (c)\n: new FinalizationRegistry(ptr => wasm.__wbg_x_free(ptr, 1));\nd\n";
        assert_eq!(without_class(glue, "X").unwrap(), "a\nb\nd\n");
        assert!(without_class("export class X { }", "X").is_none());
    }
}
