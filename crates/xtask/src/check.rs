//! Everything that can be said of the code without running it.

use crate::steps::Steps;
use crate::{licences, shell, tidy, tools};
use anyhow::{Result, bail};

/// One thing to check, with its name.
type Check = (&'static str, fn() -> Result<()>);

const CHECKS: &[Check] = &[
    ("Format", format),
    ("The rules of this repository", tidy::check),
    ("Licences", licences::check),
    ("Clippy, native", clippy_native),
    ("Clippy, in the browser", clippy_wasm),
    ("Documentation", documentation),
];

/// Runs every check, also after one has failed, and fails with all that was found.
pub fn check(steps: &mut Steps) -> Result<()> {
    tools::rust_components()?;
    tools::wasm_target()?;
    let mut failed = Vec::new();
    for &(name, run) in CHECKS {
        if let Err(problem) = steps.take(name, run) {
            eprintln!("{problem:#}");
            failed.push(name);
        }
    }
    if !failed.is_empty() {
        bail!("these checks failed: {}", failed.join("; "));
    }
    Ok(())
}

fn format() -> Result<()> {
    shell::run(shell::cargo().args(["fmt", "--all", "--check"]))
}

fn clippy_native() -> Result<()> {
    shell::run(shell::cargo().args([
        "clippy",
        "--locked",
        "--workspace",
        "--all-targets",
        "--",
        "-D",
        "warnings",
    ]))
}

fn clippy_wasm() -> Result<()> {
    shell::run(shell::cargo().args([
        "clippy",
        "--locked",
        "--package=crookwise-web",
        "--package=crookwise-js",
        "--target=wasm32-unknown-unknown",
        "--",
        "-D",
        "warnings",
    ]))
}

/// With what is private, so that links to it lead somewhere: who reads these pages works on the code.
fn documentation() -> Result<()> {
    let mut command = shell::cargo();
    command
        .args(["doc", "--locked", "--workspace", "--no-deps", "--document-private-items"])
        .env("RUSTDOCFLAGS", "-D warnings -A rustdoc::private_intra_doc_links");
    shell::run(&mut command)
}
