//! What has to be on the machine: on Debian as root it is installed, elsewhere it is used where found, and asked for in
//! one sentence where not.

use crate::shell;
use anyhow::{Context, Result, bail};
use std::path::{Path, PathBuf};

/// A tool of the tests, and Debian's packages for it.
struct Tool {
    /// What a person calls it.
    name: &'static str,
    /// Whether it is there.
    is_there: fn() -> bool,
    /// Debian's packages.
    packages: &'static [&'static str],
    /// What is done without it, where a machine cannot have it; nothing where it must be there.
    without: Option<&'static str>,
}

const TOOLS: &[Tool] = &[
    Tool {
        name: "Chromium or Chrome with chromedriver",
        is_there: || has_chrome() && shell::finds("chromedriver"),
        packages: &["chromium", "chromium-driver", "fonts-dejavu-core"],
        without: None,
    },
    Tool {
        name: "WebKitGTK's driver with Xvfb",
        is_there: has_webkit,
        packages: &["webkit2gtk-driver", "xvfb"],
        without: Some("the flows run in Chromium alone"),
    },
    Tool {
        name: "Node 18 or later with npm",
        is_there: || shell::finds("node") && shell::finds("npm"),
        packages: &["nodejs", "npm", "ca-certificates"],
        without: None,
    },
    Tool {
        name: "Python 3.11 or later with venv",
        is_there: has_python,
        packages: &["python3", "python3-venv", "ca-certificates"],
        without: Some("nothing is compared with the Python library"),
    },
];

/// The version of the Python environment, kept beside it: the text of the file that it was made from.
const PINS: &str = "tests/python/requirements.txt";

fn has_chrome() -> bool {
    ["chromium", "chromium-browser", "google-chrome", "chrome"].into_iter().any(shell::finds)
        || std::env::var_os("CROOKWISE_CHROME").is_some()
        // There chromedriver itself knows where Chrome is.
        || cfg!(any(target_os = "macos", windows))
}

fn has_webkit() -> bool {
    shell::finds("WebKitWebDriver") && shell::finds("Xvfb")
}

fn has_python() -> bool {
    let check = "import ensurepip, venv, sys; sys.exit(sys.version_info < (3, 11))";
    shell::output(shell::program("python3").args(["-c", check])).is_ok()
}

/// Adds Rust's wasm target where it is missing.
pub fn wasm_target() -> Result<()> {
    let rustc = std::env::var("RUSTC").unwrap_or_else(|_| "rustc".into());
    let mut ask = shell::program(&rustc);
    ask.args(["--print", "target-libdir", "--target", "wasm32-unknown-unknown"]);
    let folder = shell::output(&mut ask).context("rustc could not be asked about the wasm target")?;
    if Path::new(folder.trim()).is_dir() {
        return Ok(());
    }
    if !shell::finds("rustup") {
        bail!("Rust's target wasm32-unknown-unknown is missing: install it as this Rust was installed");
    }
    shell::heading("Add Rust's wasm target");
    shell::run(shell::program("rustup").args(["target", "add", "wasm32-unknown-unknown"]))
}

/// Adds rustfmt and clippy where they are missing.
pub fn rust_components() -> Result<()> {
    for (command, component) in [("fmt", "rustfmt"), ("clippy", "clippy")] {
        if shell::output(shell::cargo().args([command, "--version"])).is_ok() {
            continue;
        }
        if !shell::finds("rustup") {
            bail!("{component} is missing: install it as this Rust was installed");
        }
        shell::run(shell::program("rustup").args(["component", "add", component]))?;
    }
    Ok(())
}

/// What the tests are to use, as names and values for their environment.
pub type Environment = Vec<(&'static str, String)>;

/// What the tests find outside this repository.
#[derive(Debug)]
pub struct Outside {
    /// What they are told of it.
    pub environment: Environment,
    /// What they must do without, a sentence each.
    pub skipped: Vec<String>,
}

/// Names the browsers that flows are taken in.
pub const BROWSERS: &str = "CROOKWISE_BROWSERS";
/// Those that are wanted where it is not set.
const WANTED: [&str; 2] = ["chromium", "webkit"];

/// Sees to it that browsers, Node and Python are there, with what the tests take from npm and PyPI.
pub fn for_tests() -> Result<Outside> {
    install_missing()?;
    npm_packages()?;
    let there = if has_webkit() { &WANTED[..] } else { &WANTED[..1] };
    let mut browsers = std::env::var(BROWSERS).unwrap_or_else(|_| there.join(","));
    if std::env::var("CROOKWISE_FIREFOX").is_ok_and(|value| value == "1") && !browsers.contains("firefox") {
        browsers.push_str(",firefox");
    }
    println!("browsers: {browsers}");
    let mut skipped = Vec::new();
    for name in WANTED {
        if !browsers.split(',').any(|wanted| wanted.trim() == name) {
            skipped.push(format!("the flows in {name}, which is not there or not named by {BROWSERS}"));
        }
    }
    let modules = shell::at("tests/node/node_modules").to_string_lossy().into_owned();
    let mut environment = vec![(BROWSERS, browsers), ("CROOKWISE_MODULES", modules)];
    if has_python() {
        let python = python_environment()?;
        println!("python: {}", python.strip_prefix(shell::root()).unwrap_or(&python).display());
        environment.push(("CROOKWISE_PYTHON", python.to_string_lossy().into_owned()));
    } else if std::env::var_os("CROOKWISE_PYTHON").is_none() {
        skipped.push(
            "the comparisons with the Python library, which needs Python 3.11 or later with venv".into(),
        );
    }
    if std::env::var_os("CROOKWISE_SCORES").is_none() {
        skipped.push("the comparison with real scores, of which CROOKWISE_SCORES names no folder".into());
    }
    Ok(Outside { environment, skipped })
}

fn install_missing() -> Result<()> {
    let missing: Vec<&Tool> = TOOLS.iter().filter(|tool| !(tool.is_there)()).collect();
    if missing.is_empty() {
        return Ok(());
    }
    if is_debian_root() {
        let packages: Vec<&str> = missing.iter().flat_map(|tool| tool.packages).copied().collect();
        shell::heading(&format!("Install {}", packages.join(" ")));
        shell::run(shell::program("apt-get").args(["update", "-q"]))?;
        let mut install = shell::program("apt-get");
        install.args(["install", "-y", "-q", "--no-install-recommends"]).args(packages);
        shell::run(install.env("DEBIAN_FRONTEND", "noninteractive"))?;
    }
    let missing = missing.into_iter().filter(|tool| !(tool.is_there)());
    let (needed, spared): (Vec<_>, Vec<_>) = missing.partition(|tool| tool.without.is_none());
    for (tool, without) in spared.iter().filter_map(|tool| Some((tool, tool.without?))) {
        println!("{} is not there: {without}. Debian: {}.", tool.name, tool.packages.join(" "));
    }
    if let Some(tool) = needed.first() {
        bail!("install {} (Debian: {})", tool.name, tool.packages.join(" "));
    }
    Ok(())
}

fn is_debian_root() -> bool {
    let root = shell::output(shell::program("id").arg("-u")).is_ok_and(|id| id.trim() == "0");
    root && Path::new("/etc/debian_version").exists() && shell::finds("apt-get")
}

fn npm_packages() -> Result<()> {
    for name in ["tests", "tests/node"] {
        let folder = shell::at(name);
        let lock = folder.join("package-lock.json");
        let wanted =
            std::fs::read(lock).with_context(|| format!("could not read {name}/package-lock.json"))?;
        let mark = folder.join("node_modules/.crookwise-lock");
        if std::fs::read(&mark).is_ok_and(|have| have == wanted) {
            continue;
        }
        shell::heading("Install what the tests take from npm");
        shell::run(shell::program("npm").args(["ci", "--no-audit", "--no-fund"]).current_dir(&folder))?;
        std::fs::write(&mark, wanted).with_context(|| format!("could not write into {name}/node_modules"))?;
    }
    Ok(())
}

/// Makes the private Python environment in `.tools/python` where it is missing or older than its pins, and gives its
/// Python.
fn python_environment() -> Result<PathBuf> {
    let folder = shell::at(".tools/python");
    let python = folder.join(if cfg!(windows) { "Scripts/python.exe" } else { "bin/python" });
    let wanted = std::fs::read(shell::at(PINS)).with_context(|| format!("could not read {PINS}"))?;
    let mark = folder.join("requirements.txt");
    if python.is_file() && std::fs::read(&mark).is_ok_and(|have| have == wanted) {
        return Ok(python);
    }
    shell::heading("Make a private Python environment for the comparisons");
    shell::run(shell::program("python3").args(["-m", "venv", "--clear"]).arg(&folder))?;
    let mut install = shell::program(&python.to_string_lossy());
    install.args(["-m", "pip", "install", "-q", "--disable-pip-version-check", "-r", PINS]);
    shell::run(&mut install)?;
    std::fs::write(&mark, wanted).context("could not write into .tools/python")?;
    Ok(python)
}
