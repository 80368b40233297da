//! The JavaScript package in `dist/package`: an ES module with its wasm file and its types, for browsers and Node.
//!
//! One import does in both: `import { decodeLabel } from "crookwise"`. The condition "node" of package.json leads Node
//! to an entry that reads the wasm file, everybody else to one that fetches it; both have started the module by the time
//! the import returns, so that there is no initialisation to call or to forget.

use crate::wasm::{self, Bound, Profile};
use crate::{licences, shell, stamp};
use anyhow::{Context, Result, bail};

/// A text, not a value: the order of the conditions in it decides.
const MANIFEST: &str = include_str!("../assets/package.json");
const NODE: &str = include_str!("../assets/node.js");
const BROWSER: &str = include_str!("../assets/browser.js");

/// Builds the package, unless it stands there already.
pub fn package() -> Result<()> {
    let folder = shell::at("dist/package");
    let mark = shell::at("dist/package.stamp");
    let inputs = stamp::of(stamp::PACKAGE)?;
    if folder.join("package.json").is_file() && std::fs::read_to_string(&mark).is_ok_and(|old| old == inputs)
    {
        println!("dist/package is up to date");
        return Ok(());
    }
    let Bound { wasm, js, ts, snippets, .. } = wasm::make(wasm::PACKAGE, Profile::Release, true, &[])?;
    let names = exports(&js).join(", ");
    if names.is_empty() {
        bail!("crates/js exports nothing to JavaScript yet");
    }
    let list = format!("\nexport {{ {names} }} from \"./glue.js\";\n");
    let mut files = vec![
        ("crookwise.wasm".to_owned(), wasm),
        ("glue.js".to_owned(), js.into_bytes()),
        ("node.js".to_owned(), format!("{NODE}{list}").into_bytes()),
        ("browser.js".to_owned(), format!("{BROWSER}{list}").into_bytes()),
        ("crookwise.d.ts".to_owned(), types(&ts.context("wasm-bindgen wrote no types")?)?.into_bytes()),
        ("package.json".to_owned(), MANIFEST.replace("{{version}}", env!("CARGO_PKG_VERSION")).into_bytes()),
        ("licences.txt".to_owned(), licences::text(wasm::PACKAGE.package)?.into_bytes()),
    ];
    files.extend(snippets.into_iter().map(|(name, text)| (name, text.into_bytes())));
    if folder.exists() {
        std::fs::remove_dir_all(&folder).context("could not remove the old package")?;
    }
    for (name, bytes) in &files {
        let path = folder.join(name);
        let above = path.parent().context("a file has no folder")?;
        std::fs::create_dir_all(above).with_context(|| format!("could not make {}", above.display()))?;
        std::fs::write(&path, bytes).with_context(|| format!("could not write {}", path.display()))?;
    }
    std::fs::write(&mark, inputs).context("could not write dist/package.stamp")?;
    println!("dist/package exports {names}");
    Ok(())
}

/// The functions and classes that the glue exports for others, in the order of their names.
fn exports(glue: &str) -> Vec<&str> {
    let starts = ["export function ", "export class "];
    let lines = glue.lines().filter_map(|line| starts.iter().find_map(|start| line.strip_prefix(start)));
    let mut names: Vec<&str> = lines
        .filter_map(|rest| {
            rest.split(|letter: char| !letter.is_alphanumeric() && letter != '_' && letter != '$').next()
        })
        .filter(|name| !name.is_empty() && !name.starts_with("__") && *name != "initSync")
        .collect();
    names.sort_unstable();
    names.dedup();
    names
}

/// The types without those of the initialisation, which our entries have done.
fn types(all: &str) -> Result<String> {
    let (ours, _) = all
        .split_once("export type InitInput")
        .context("wasm-bindgen's types have another form than this tool knows")?;
    Ok(format!("{}\n", ours.trim_end()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exports_are_those_for_others() {
        let glue = "export function readNote(a) {\n}\nexport class Score {\nexport function __wbg_x() {\n\
            export function initSync(module) {\nfunction inner() {\nexport function decodeLabel(text) {\n";
        assert_eq!(exports(glue), ["Score", "decodeLabel", "readNote"]);
    }

    #[test]
    fn types_of_the_initialisation_are_left_out() {
        let all = "export function f(): void;\n\nexport type InitInput = X;\nexport default function y();\n";
        assert_eq!(types(all).unwrap(), "export function f(): void;\n");
        assert!(types("export function f(): void;\n").is_err());
    }
}
