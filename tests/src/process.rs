//! A program that ends with the test that started it.

use anyhow::{Context, Result};
use std::net::TcpListener;
use std::path::{Path, PathBuf};
use std::process::{Child, Command};

/// A running program, ended when this value is dropped.
#[derive(Debug)]
pub struct Process(Child);

impl Process {
    /// Starts the program.
    ///
    /// # Errors
    /// Where the program cannot be run.
    pub fn start(command: &mut Command) -> Result<Self> {
        let name = command.get_program().to_string_lossy().into_owned();
        Ok(Self(command.spawn().with_context(|| format!("could not start {name}"))?))
    }

    /// The program's output, where it was asked to be piped.
    pub fn output(&mut self) -> Option<std::process::ChildStdout> {
        self.0.stdout.take()
    }
}

impl Drop for Process {
    fn drop(&mut self) {
        // It may have ended by itself.
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// A folder for one run, removed when this value is dropped.
#[derive(Debug)]
pub struct Folder(PathBuf);

impl Folder {
    /// Makes an empty folder among the system's temporary files.
    ///
    /// # Errors
    /// Where it cannot be made.
    pub fn make() -> Result<Self> {
        // A port that was free a moment ago makes a name that no other run of ours has.
        let path = std::env::temp_dir().join(format!("crookwise-{}-{}", std::process::id(), free_port()?));
        std::fs::create_dir_all(&path).context("no temporary folder could be made")?;
        Ok(Self(path))
    }

    /// Where it is.
    pub fn path(&self) -> &Path {
        &self.0
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        // A browser may still be writing its last files; the system clears what is left.
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// A port of this machine that is free now.
///
/// # Errors
/// Where none is.
pub fn free_port() -> Result<u16> {
    let listener = TcpListener::bind(("127.0.0.1", 0)).context("no port is free")?;
    Ok(listener.local_addr()?.port())
}

/// The full path of a program, looked for where programs are.
pub fn program(name: &str) -> Option<PathBuf> {
    let folders = std::env::var_os("PATH")?;
    std::env::split_paths(&folders).map(|folder| folder.join(name)).find(|path| path.is_file())
}
