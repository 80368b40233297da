//! Running other programs from the root of the repository, and where that root is.

use anyhow::{Context, Result, bail};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The root of the repository. Cargo says where it is when it runs this tool, also where the repository was moved or
/// copied together with what was built.
pub fn root() -> PathBuf {
    let here = std::env::var_os("CARGO_MANIFEST_DIR").unwrap_or_else(|| env!("CARGO_MANIFEST_DIR").into());
    let here = PathBuf::from(here);
    here.ancestors().nth(2).map(Path::to_path_buf).unwrap_or(here)
}

/// A path below the root of the repository.
pub fn at(path: &str) -> PathBuf {
    root().join(path)
}

/// Prints the heading of a step.
pub fn heading(text: &str) {
    println!("\n==> {text}");
}

/// The cargo that runs this tool, in the root of the repository.
pub fn cargo() -> Command {
    let mut command = program(&std::env::var("CARGO").unwrap_or_else(|_| "cargo".into()));
    // What `cargo run` sets for this tool itself must not leak into other crates' builds.
    for name in ["CARGO_MANIFEST_DIR", "CARGO_MANIFEST_PATH", "CARGO_PKG_NAME", "CARGO_PKG_VERSION"] {
        command.env_remove(name);
    }
    command
}

/// This tool with another word on its command line.
pub fn itself(word: &str) -> Result<Command> {
    let here = std::env::current_exe().context("this tool does not know where it is")?;
    let mut command = Command::new(here);
    command.arg(word).current_dir(root()).stdin(Stdio::null());
    Ok(command)
}

/// Any program, to be run in the root of the repository.
pub fn program(name: &str) -> Command {
    let mut command = Command::new(name);
    command.current_dir(root()).stdin(Stdio::null());
    command
}

/// Runs to the end, showing what the program prints; an error if it fails.
pub fn run(command: &mut Command) -> Result<()> {
    let status = command.status().with_context(|| format!("could not run {}", name_of(command)))?;
    if !status.success() {
        bail!("{} ended with {status}", line_of(command));
    }
    Ok(())
}

/// Runs to the end and gives back what the program printed; an error, with its complaints, if it fails.
pub fn output(command: &mut Command) -> Result<String> {
    let output = command.output().with_context(|| format!("could not run {}", name_of(command)))?;
    if !output.status.success() {
        bail!(
            "{} ended with {}\n{}",
            line_of(command),
            output.status,
            String::from_utf8_lossy(&output.stderr).trim_end()
        );
    }
    String::from_utf8(output.stdout).with_context(|| format!("{} printed no text", name_of(command)))
}

/// Whether a program of this name can be found.
pub fn finds(name: &str) -> bool {
    let Some(folders) = std::env::var_os("PATH") else { return false };
    std::env::split_paths(&folders).any(|folder| {
        folder.join(name).is_file() || cfg!(windows) && folder.join(format!("{name}.exe")).is_file()
    })
}

fn name_of(command: &Command) -> String {
    command.get_program().to_string_lossy().into_owned()
}

fn line_of(command: &Command) -> String {
    let program = Path::new(command.get_program());
    let mut line = program.file_stem().unwrap_or(program.as_os_str()).to_string_lossy().into_owned();
    for word in command.get_args() {
        line.push(' ');
        line.push_str(&word.to_string_lossy());
    }
    line
}
