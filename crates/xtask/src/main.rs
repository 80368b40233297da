//! `cargo xtask …`: everything one does with this repository besides editing it. This file reads the command line.
#![allow(
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a command-line tool speaks through its output"
)]

mod alike;
mod bench;
mod beside;
mod brought;
mod check;
mod compress;
mod graph;
mod joined;
mod licences;
mod minify;
mod options;
mod package;
mod serve;
mod shared;
mod shell;
mod site;
mod slim;
mod split;
mod stamp;
mod steps;
mod test;
mod tidy;
mod tools;
mod unused;
mod wasm;
mod worker;

use options::Options;
use std::process::ExitCode;
use steps::Steps;

const USAGE: &str = "\
cargo xtask serve [--release] [--port N]   build the app and serve it on this machine; rebuild and reload on change
cargo xtask test                           install what is missing, then every check and every test
cargo xtask check                          format, rules of this repository, licences, clippy, documentation
cargo xtask flows [--dev] [FILE ...]       only the flows in browsers: all, or those of tests/tests/flows/FILE.rs
cargo xtask build                          the release site in dist/site, for any host of plain files
cargo xtask package                        the JavaScript package in dist/package
cargo xtask bench                          bytes of a first visit, time from a touch to the next paint
cargo xtask fuzz labels|links|files [--seconds N]  look for trouble with made-up input
cargo xtask pictures                       take the pictures in docs/pictures anew
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
        "test" => test::test(),
        "check" => check::check(&mut Steps::new()),
        "flows" => test::flows(options),
        "build" => site::build_release().map(|_| ()),
        "package" => package::package(),
        "bench" => bench::bench(),
        "fuzz" => test::fuzz(options),
        "pictures" => test::pictures(),
        "" | "help" | "--help" | "-h" => {
            print!("{USAGE}");
            Ok(())
        }
        other => anyhow::bail!("there is no command \"{other}\". There are:\n{USAGE}"),
    }
}
