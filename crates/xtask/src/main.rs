//! `cargo xtask …`: everything one does with this repository besides editing it. This file reads the command line.
#![allow(
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a command-line tool speaks through its output"
)]

mod compress;
mod options;
mod serve;
mod shell;
mod site;
mod stamp;
mod tools;
mod wasm;

use options::Options;
use std::process::ExitCode;

const USAGE: &str = "\
cargo xtask serve [--release] [--port N]   build the app and serve it on this machine; rebuild and reload on change
cargo xtask build                          the release site in dist/site, for any host of plain files
";

fn main() -> ExitCode {
    let mut words = std::env::args().skip(1);
    let command = words.next().unwrap_or_default();
    let outcome = Options::read(words).and_then(|options| run(&command, &options));
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(problem) => {
            eprintln!("\ncargo xtask {command} failed: {problem:#}");
            ExitCode::FAILURE
        }
    }
}

fn run(command: &str, options: &Options) -> anyhow::Result<()> {
    match command {
        "serve" => serve::serve(options),
        "build" => site::build_release().map(|_| ()),
        "" | "help" | "--help" | "-h" => {
            print!("{USAGE}");
            Ok(())
        }
        other => anyhow::bail!("there is no command \"{other}\". There are:\n{USAGE}"),
    }
}
