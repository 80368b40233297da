//! From one wasm file to several: what a first visit needs, and parts that are fetched when they are first wanted. Where
//! a part begins is said in the app by `wasm_split`; what only that part reaches goes into its file.

use crate::shell;
use crate::site::File;
use anyhow::{Context, Result, anyhow, bail};
use std::path::Path;
use wasm_split_cli_support::{Options, transform};

/// The module that fetches the parts, as the glue names it.
pub const LINK: &str = "./parts.js";
/// The glue, as the module that fetches the parts names it.
pub const GLUE: &str = "./app.js";

/// What must be said to the compiler, so that the linker leaves what the splitting goes by.
pub const LINKER: &str = "-Clink-arg=--emit-relocs";

/// A program in several files.
#[derive(Debug)]
pub struct Split {
    /// The file that starts, still without its glue.
    pub main: Vec<u8>,
    /// What is fetched later.
    pub parts: Parts,
}

/// What is fetched when it is first wanted.
#[derive(Debug)]
pub struct Parts {
    /// The module that fetches them.
    pub link: String,
    /// The name by which `link` knows a part, and its bytes.
    pub files: Vec<(String, Vec<u8>)>,
}

/// How the splitter's module starts a part: only from a host that says what kind of file it is.
const STREAMED: &str = "WebAssembly.instantiateStreaming(src, imports)";
/// How ours does, as the glue does where it must: from any host.
const STARTED: &str =
    "src.then((answer) => answer.arrayBuffer()).then((code) => WebAssembly.instantiate(code, imports))";

/// How the name of a part's file begins.
const PART: &str = "part-";

/// Whether a file of the site is a part that is fetched when it is wanted.
pub fn is_part(name: &str) -> bool {
    name.starts_with(PART) && name.ends_with(".wasm")
}

impl Parts {
    /// The parts under the names they shall have, and the module that fetches them by these names.
    pub fn named(self, name: impl Fn(&str, &str, &[u8]) -> String) -> Result<(Vec<File>, String)> {
        let mut link = self.link.replace(STREAMED, STARTED);
        let mut files = Vec::new();
        for (known, bytes) in self.files {
            let bytes = without_custom_sections(&bytes).with_context(|| format!("{known} cannot be read"))?;
            let stem = known.trim_start_matches("split_").trim_end_matches(".wasm");
            let name = name(&format!("{PART}{stem}"), "wasm", &bytes);
            let (before, after) = (format!("\"./{known}\""), format!("\"./{name}\""));
            if !link.contains(&before) {
                bail!("nothing fetches the part {known}");
            }
            link = link.replace(&before, &after);
            files.push((name, bytes));
        }
        Ok((files, link))
    }
}

/// A wasm file without names and notes of tools.
fn without_custom_sections(wasm: &[u8]) -> Option<Vec<u8>> {
    let (head, mut rest) = wasm.split_at_checked(8)?;
    let mut kept = head.to_vec();
    while let Some((&kind, after)) = rest.split_first() {
        let mut length = 0_usize;
        let mut size_bytes = 0;
        for (at, byte) in after.iter().take(5).enumerate() {
            length |= usize::from(byte & 0x7f) << (7 * at);
            size_bytes = at + 1;
            if byte & 0x80 == 0 {
                break;
            }
        }
        let (section, next) = rest.split_at_checked(1 + size_bytes + length)?;
        if kind != 0 {
            kept.extend_from_slice(section);
        }
        rest = next;
    }
    Some(kept)
}

/// Splits a linked program.
pub fn split(file: &Path) -> Result<Split> {
    let folder = shell::at("target/split");
    if folder.exists() {
        std::fs::remove_dir_all(&folder).context("could not empty target/split")?;
    }
    let input = read(file)?;
    let main = folder.join("main.wasm");
    let mut options = Options::new(&input);
    options.output_dir = &folder;
    options.main_out_path = &main;
    options.link_name = LINK;
    options.main_module = GLUE;
    let made = transform(options).map_err(|problem| anyhow!("the app could not be split: {problem:?}"))?;
    let mut files = Vec::new();
    for path in made.split_modules {
        let name = path.file_name().context("a part has no name")?.to_string_lossy().into_owned();
        files.push((name, read(&path)?));
    }
    files.sort();
    let link = String::from_utf8(read(&folder.join(LINK))?).context("the module of the parts is no text")?;
    Ok(Split { main: read(&main)?, parts: Parts { link, files } })
}

fn read(file: &Path) -> Result<Vec<u8>> {
    std::fs::read(file).with_context(|| format!("could not read {}", file.display()))
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEAD: &[u8] = b"\0asm\x01\0\0\0";

    #[test]
    fn names_and_notes_leave_a_part_and_the_rest_stays() {
        let mut wasm = HEAD.to_vec();
        wasm.extend([0, 3, 1, b'n', 7]);
        wasm.extend([1, 0x84, 0x00, 1, 2, 3, 4]);
        wasm.extend([0, 1, 0]);
        let mut wanted = HEAD.to_vec();
        wanted.extend([1, 0x84, 0x00, 1, 2, 3, 4]);
        assert_eq!(without_custom_sections(&wasm), Some(wanted));
        assert_eq!(without_custom_sections(&wasm[..wasm.len() - 1]), None);
        assert_eq!(without_custom_sections(b"\0asm"), None);
    }

    #[test]
    fn a_part_is_known_by_its_name() {
        assert!(is_part("part-panels-1.wasm"));
        assert!(!is_part("parts-1.js"));
        assert!(!is_part("app-1.wasm"));
    }

    #[test]
    fn parts_are_fetched_by_their_new_names() {
        let link = "a = \"./split_x.wasm\"; WebAssembly.instantiateStreaming(src, imports)".to_owned();
        let parts = |name: &str| Parts { link: link.clone(), files: vec![(name.into(), HEAD.to_vec())] };
        let name = |stem: &str, ending: &str, _: &[u8]| format!("{stem}-1.{ending}");
        let (files, named) = parts("split_x.wasm").named(name).unwrap();
        assert_eq!(files, [("part-x-1.wasm".to_owned(), HEAD.to_vec())]);
        assert!(named.starts_with("a = \"./part-x-1.wasm\"; src.then"), "{named}");
        assert!(parts("split_y.wasm").named(name).is_err());
    }
}
