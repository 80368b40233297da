//! From a crate to a wasm file with its JavaScript glue.

use crate::site::File;
use crate::split::{self, Names, Split};
use crate::{alike, shell, slim, stamp, tools};
use anyhow::{Context, Result, bail};
use cargo_metadata::Message;
use std::io::BufReader;
use std::path::PathBuf;
use std::process::Stdio;
use wasm_bindgen_cli_support::Bindgen;

/// How a crate is compiled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Profile {
    /// Quick to build, with Leptos' warnings.
    Dev,
    /// Small and fast.
    Release,
}

/// Memory that the app begins with, in bytes: more than a page of music takes. Memory that grows while the parts share it
/// is the suspect where WebKit now and then read rubbish on a busy machine (a vector of no possible length, an access out
/// of bounds), which no other browser did; and it costs nothing before it is used.
const ROOM: &str = "-Clink-arg=--initial-memory=67108864";

/// A crate that becomes one wasm file.
#[derive(Clone, Copy, Debug)]
pub struct Source {
    /// The package's name.
    pub package: &'static str,
    /// Whether it is a library (then its functions are exported) or a program (then it starts by itself).
    pub library: bool,
}

/// The app.
pub const APP: Source = Source { package: "crookwise-web", library: false };
/// The JavaScript package.
pub const PACKAGE: Source = Source { package: "crookwise-js", library: true };

/// A wasm file and what belongs to it.
#[derive(Debug)]
pub struct Bound {
    /// The wasm file's bytes.
    pub wasm: Vec<u8>,
    /// The glue: an ES module for browsers.
    pub js: String,
    /// The glue's types, where asked for.
    pub ts: Option<String>,
    /// JavaScript that crates bring along: the path from the glue, and the text.
    pub snippets: Vec<(String, String)>,
    /// What is fetched later, for a program, and the names by which its files know each other.
    pub parts: Option<(Names, Vec<File>)>,
}

/// Compiles a crate to wasm and writes its glue. The names of a program carry a hash of it and of what comes `beside` it.
pub fn make(source: Source, profile: Profile, typescript: bool, beside: &[u8]) -> Result<Bound> {
    tools::wasm_target()?;
    let file = compile(source, profile)?;
    let linked = std::fs::read(&file).with_context(|| format!("could not read {}", file.display()))?;
    let (main, parts) = if source.library {
        (linked, None)
    } else {
        // What comes of the linked program follows from it and from the tools.
        let hash = match profile {
            Profile::Dev => None,
            Profile::Release => {
                Some(stamp::short(&[stamp::of(stamp::TOOL)?.as_bytes(), &linked, beside].concat()))
            }
        };
        let names = Names::of(hash.as_deref());
        let Split { main, parts } = split::split(&linked, &names, profile == Profile::Release)?;
        (main, Some((names, parts)))
    };
    bind(main, parts, profile, typescript)
        .with_context(|| format!("wasm-bindgen could not write the glue of {}", source.package))
}

fn compile(source: Source, profile: Profile) -> Result<PathBuf> {
    let mut command = shell::cargo();
    command.args(["rustc", "--package", source.package]);
    if source.library {
        // Said here, so that the library needs no cdylib in its own manifest to be tested natively.
        command.args(["--lib", "--crate-type=cdylib"]);
    } else {
        command.args(["--bin", source.package]);
    }
    command.args(["--locked", "--target=wasm32-unknown-unknown", "--message-format=json-render-diagnostics"]);
    let mut flags = vec![ERASED.to_owned()];
    if profile == Profile::Release {
        command.arg("--release");
        flags.extend(without_paths());
    }
    command.env("CARGO_ENCODED_RUSTFLAGS", flags.join("\u{1f}"));
    if !source.library {
        command.args(["--", split::LINKER, ROOM]);
    }
    let mut child = command.stdout(Stdio::piped()).spawn().context("could not run cargo")?;
    let stdout = child.stdout.take().context("cargo has no output")?;
    let mut found = None;
    for message in Message::parse_stream(BufReader::new(stdout)) {
        if let Message::CompilerArtifact(artifact) = message.context("cargo's messages could not be read")? {
            let ours = artifact.target.name.replace('_', "-") == source.package;
            let file = artifact.filenames.into_iter().find(|name| name.extension() == Some("wasm"));
            found = if ours && file.is_some() { file } else { found };
        }
    }
    if !child.wait().context("cargo did not end")?.success() {
        bail!("{} did not compile", source.package);
    }
    found.map(Into::into).with_context(|| format!("{} gave no wasm file", source.package))
}

/// Leptos makes the machinery of a view anew for each of its shapes; with this, once for each kind of element and attribute.
/// It is Leptos' own name for it, which says nothing of size: 16 kB of a first visit, 26 kB of Practise, 16 kB of the other
/// parts. For both profiles, so that the warnings which Leptos gives in development are about the same views.
const ERASED: &str = "--cfg=erase_components";

/// Panic messages hold paths; a release must hold none of this machine, and the same bytes wherever it is built.
fn without_paths() -> Vec<String> {
    let home = std::env::var_os("CARGO_HOME")
        .map(PathBuf::from)
        .or_else(|| std::env::home_dir().map(|home| home.join(".cargo")))
        .unwrap_or_default();
    let mut flags = vec![format!("--remap-path-prefix={}/=", shell::root().display())];
    let sources = home.join("registry/src");
    for registry in std::fs::read_dir(&sources).into_iter().flatten().flatten() {
        flags.push(format!("--remap-path-prefix={}/=", registry.path().display()));
    }
    flags
}

fn bind(
    main: Vec<u8>,
    parts: Option<(Names, Vec<File>)>,
    profile: Profile,
    typescript: bool,
) -> Result<Bound> {
    let dev = profile == Profile::Dev;
    let mut bindgen = Bindgen::new();
    // What the parts share with what starts must stay to be had.
    bindgen.keep_lld_exports(parts.is_some());
    bindgen
        .input_bytes("app", main)
        .web(true)?
        .out_name("app")
        .typescript(typescript)
        .omit_default_module_path(true);
    bindgen.debug(dev).keep_debug(dev).remove_name_section(!dev).remove_producers_section(!dev);
    let mut output = bindgen.generate_output()?;
    let mut snippets: Vec<(String, String)> = output
        .local_modules()
        .iter()
        .map(|(path, text)| (format!("snippets/{path}"), text.clone()))
        .collect();
    for (crate_name, texts) in output.snippets() {
        for (number, text) in texts.iter().enumerate() {
            snippets.push((format!("snippets/{crate_name}/inline{number}.js"), text.clone()));
        }
    }
    snippets.sort();
    let glue = output.js().to_owned();
    let ts = output.ts().map(str::to_owned);
    let (js, wasm) = if parts.is_some() && !dev {
        split::forget_notes(output.wasm_mut());
        let js = slim::slim(output.wasm_mut(), &glue);
        (js, alike::ordered(&output.wasm_mut().emit_wasm())?)
    } else {
        (glue, output.wasm_mut().emit_wasm())
    };
    Ok(Bound { js, ts, wasm, snippets, parts })
}
