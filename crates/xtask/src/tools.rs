//! What has to be on the machine, installed where this tool may do so, else asked for in one sentence.

use crate::shell;
use anyhow::{Context, Result, bail};
use std::path::Path;
use std::process::Command;

/// Adds Rust's wasm target where it is missing.
pub fn wasm_target() -> Result<()> {
    let rustc = std::env::var("RUSTC").unwrap_or_else(|_| "rustc".into());
    let folder = shell::output(Command::new(&rustc).args([
        "--print",
        "target-libdir",
        "--target",
        "wasm32-unknown-unknown",
    ]))
    .context("rustc could not be asked about the wasm target")?;
    if Path::new(folder.trim()).is_dir() {
        return Ok(());
    }
    if !shell::finds("rustup") {
        bail!("Rust's target wasm32-unknown-unknown is missing: install it as this Rust was installed");
    }
    shell::heading("Add Rust's wasm target");
    shell::run(shell::program("rustup").args(["target", "add", "wasm32-unknown-unknown"]))
}
