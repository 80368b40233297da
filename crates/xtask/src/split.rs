//! From one wasm file to several: what a first visit needs, and parts that are fetched when they are first wanted. Where
//! a part begins is said in the app by `wasm_split`; what only that part reaches goes into its file.

use crate::site::{self, File};
use crate::{alike, brought, joined, shared, shell, unused};
use anyhow::{Context, Result, anyhow};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use walrus::{Module, ModuleConfig};
use wasm_split_cli_support::{Options, transform};

/// What must be said to the compiler, so that the linker leaves what the splitting goes by.
pub const LINKER: &str = "-Clink-arg=--emit-relocs";

/// A program in several files.
#[derive(Debug)]
pub struct Split {
    /// The file that starts, still without its glue.
    pub main: Vec<u8>,
    /// What is fetched later, with the module that does it.
    pub parts: Vec<File>,
}

/// The module that fetches the parts, in their folder.
const LINK: &str = "parts.js";
/// Its text, for a release.
const FETCHING: &str = include_str!("../assets/parts.js");
/// Where the splitter leaves what it makes.
const MADE: &str = "target/split";
/// How the name of the folder begins.
const FOLDER: &str = "parts";

/// What the splitter and wasm-bindgen write into each other's files: they are told before they write.
#[derive(Clone, Debug)]
pub struct Names {
    /// The glue, beside the page.
    pub glue: String,
    /// The folder of the parts, beside the page.
    folder: String,
}

impl Names {
    /// The names of a release, which carry a hash of what it is made from, or those for development.
    pub fn of(hash: Option<&str>) -> Self {
        let hash = hash.map(|hash| format!("-{hash}")).unwrap_or_default();
        Self { glue: format!("app{hash}.js"), folder: format!("{FOLDER}{hash}") }
    }

    /// The module that fetches the parts, from the page.
    pub fn link(&self) -> String {
        self.inside(LINK)
    }

    /// A file in the folder of the parts, from the page.
    pub fn inside(&self, name: &str) -> String {
        format!("{}/{name}", self.folder)
    }
}

/// Whether a file of the site is a part that is fetched when it is wanted.
pub fn is_part(name: &str) -> bool {
    name.starts_with(FOLDER) && !name.ends_with(LINK)
}

/// A part as it is fetched: without names and notes of tools, its numbers no longer than they need be. The linker leaves
/// room in each for any number, and the splitter keeps it.
fn tight(wasm: &[u8]) -> Result<Vec<u8>> {
    let mut config = ModuleConfig::new();
    config.generate_name_section(false).generate_producers_section(false);
    let mut module = config.parse(wasm)?;
    forget_notes(&mut module);
    alike::ordered(&module.emit_wasm())
}

/// Takes away what tools have noted for each other, such as which features the compiler used.
pub fn forget_notes(module: &mut Module) {
    let notes: Vec<_> = module.customs.iter().map(|(id, _)| id).collect();
    for note in notes {
        module.customs.delete(note);
    }
}

/// Splits a linked program. For development the splitter's files and its module stand as they are, with what it looks after
/// there; of a release what several parts share is gathered, and fetched by a module of our own.
pub fn split(linked: &[u8], names: &Names, is_release: bool) -> Result<Split> {
    let folder = shell::at(MADE);
    if folder.exists() {
        std::fs::remove_dir_all(&folder).with_context(|| format!("could not empty {MADE}"))?;
    }
    std::fs::create_dir_all(folder.join(&names.folder)).with_context(|| format!("could not make {MADE}"))?;
    let (main, link, glue) =
        (folder.join("main.wasm"), format!("./{}", names.link()), format!("../{}", names.glue));
    let needed = unused::without_classes(linked)?;
    let mut options = Options::new(&needed);
    options.output_dir = &folder;
    options.main_out_path = &main;
    options.link_name = &link;
    options.main_module = &glue;
    let made = transform(options).map_err(|problem| anyhow!("the app could not be split: {problem:?}"))?;
    let mut files = BTreeMap::new();
    for path in made.split_modules {
        let name = path.file_stem().context("a part has no name")?.to_string_lossy().into_owned();
        let bytes = tight(&read(&path)?).with_context(|| format!("{name} cannot be read"))?;
        files.insert(name, bytes);
    }
    let link = folder.join(names.link());
    if is_release {
        let wanted = gather(made.prefetch_map.into_iter().collect(), &mut files)?;
        std::fs::write(&link, fetching(&wanted, &files, names)?).context("could not write how parts come")?;
    }
    let mut parts = vec![(names.link(), read(&link)?)];
    parts.extend(files.into_iter().map(|(name, bytes)| (names.inside(&format!("{name}.wasm")), bytes)));
    Ok(Split { main: read(&main)?, parts })
}

/// Gathers what parts share in few files, and gives the files of each part.
fn gather(
    mut wanted: BTreeMap<String, Vec<String>>,
    files: &mut BTreeMap<String, Vec<u8>>,
) -> Result<BTreeMap<String, Vec<String>>> {
    let parts = wanted.clone();
    let groups = shared::together(&parts, |file| files.get(file).map_or(0, Vec::len));
    for (number, group) in groups.iter().enumerate() {
        let of_group: Vec<Vec<u8>> = group.iter().filter_map(|file| files.remove(*file)).collect();
        let joined = joined::joined(&of_group.iter().map(Vec::as_slice).collect::<Vec<_>>())?;
        let name = format!("shared_{number}");
        for wanted in wanted.values_mut() {
            let all = wanted.len();
            wanted.retain(|file| !group.contains(&file.as_str()));
            if wanted.len() < all {
                wanted.push(name.clone());
            }
        }
        files.insert(name, alike::ordered(&joined)?);
    }
    Ok(wanted)
}

/// The module that fetches the parts, each with these files.
fn fetching(
    wanted: &BTreeMap<String, Vec<String>>,
    files: &BTreeMap<String, Vec<u8>>,
    names: &Names,
) -> Result<String> {
    let mut taken = BTreeSet::new();
    for file in files.values() {
        taken.extend(joined::taken(file)?);
    }
    let taken: Vec<String> = taken.into_iter().collect();
    let mut module = site::fill(FETCHING, &[("js", &names.glue), ("shared", &taken.join(", "))])?;
    for (part, files) in wanted {
        // The name that the splitter's macro calls it by.
        module.push_str(&format!(
            "export const __wasm_split_load_{part} = part({});\n",
            brought::listed(files)
        ));
    }
    Ok(module)
}

/// The module that fetches the parts, before it was made small.
pub fn written() -> Result<String> {
    let folders = std::fs::read_dir(shell::at(MADE)).context("nothing has been split")?;
    for folder in folders {
        let module = folder?.path().join(LINK);
        if module.is_file() {
            return std::fs::read_to_string(&module)
                .with_context(|| format!("could not read {}", module.display()));
        }
    }
    Err(anyhow!("the splitter left no {LINK}"))
}

fn read(file: &Path) -> Result<Vec<u8>> {
    std::fs::read(file).with_context(|| format!("could not read {}", file.display()))
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEAD: &[u8] = b"\0asm\x01\0\0\0";

    #[test]
    fn names_notes_and_room_leave_a_part_and_the_rest_stays() {
        let wasm = [HEAD, &[0, 3, 1, b'n', 7], &[1, 0x84, 0x80, 0x00, 1, 0x60, 0, 0], &[0, 1, 0]].concat();
        assert_eq!(tight(&wasm).unwrap(), [HEAD, &[1, 4, 1, 0x60, 0, 0]].concat());
        assert!(tight(&wasm[..wasm.len() - 1]).is_err() && tight(b"\0asm").is_err());
    }

    #[test]
    fn shared_files_are_gathered_and_each_part_still_gets_what_it_wants() {
        let file = |number: u8| {
            [HEAD, &[1, 4, 1, 0x60, 0, 0, 2, 1, 0, 11, 7, 1, 0, 0x41, number, 0x0b, 1, 9]].concat()
        };
        let named = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect::<Vec<String>>();
        let mut files: BTreeMap<String, Vec<u8>> = [("chunk_1", 1), ("chunk_2", 2), ("split_score", 3)]
            .map(|(name, at)| (name.to_owned(), file(at)))
            .into();
        let wanted = BTreeMap::from([
            ("practise".to_owned(), named(&["chunk_1", "chunk_2"])),
            ("score".to_owned(), named(&["chunk_1", "chunk_2", "split_score"])),
        ]);
        let wanted = gather(wanted, &mut files).unwrap();
        assert_eq!(wanted["practise"], ["shared_0"]);
        assert_eq!(wanted["score"], ["split_score", "shared_0"]);
        assert_eq!(files.keys().collect::<Vec<_>>(), ["shared_0", "split_score"]);
        let module = fetching(&wanted, &files, &Names::of(None)).unwrap();
        assert!(module.contains("from \"../app.js\""), "{module}");
        assert!(
            module.contains("__wasm_split_load_score = part(\"split_score\", \"shared_0\");"),
            "{module}"
        );
    }

    #[test]
    fn names_are_those_of_the_site() {
        let names = Names::of(Some("0123456789abcdef"));
        assert_eq!(names.glue, "app-0123456789abcdef.js");
        assert_eq!(names.link(), "parts-0123456789abcdef/parts.js");
        assert_eq!(Names::of(None).link(), "parts/parts.js");
        assert!(is_part("parts-1/split_panels.wasm") && is_part("parts/shared_5.wasm"));
        assert!(is_part("parts-1/score.js"));
        assert!(!is_part("parts-1/parts.js") && !is_part("app-1.wasm"));
    }
}
