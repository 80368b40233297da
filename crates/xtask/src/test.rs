//! Every check and every test, the cheap ones first. What a developer runs is what the project is held to.

use crate::options::Options;
use crate::tools::{self, Environment};
use crate::{check, package, shell, site};
use anyhow::{Context, Result};
use std::process::Command;
use std::time::Instant;

/// Runs everything. Stops at the first step that fails.
pub fn test() -> Result<()> {
    let start = Instant::now();
    shell::heading("Tools");
    let environment = tools::for_tests()?;
    check::check()?;
    // The pure crates, and the app's state without a browser.
    shell::heading("Tests without a browser");
    let mut native =
        cargo_test(&environment, &["--workspace", "--exclude=crookwise-tests", "--exclude=xtask"]);
    shell::run(&mut native)?;
    // With the profile that this tool itself is built with, so that nothing is compiled twice.
    shell::heading("Tests of this tool");
    shell::run(&mut cargo_test(&environment, &["--profile=xtask", "--package=xtask"]))?;
    shell::heading("The release site");
    site::build_release()?;
    shell::heading("The JavaScript package");
    package::package()?;
    shell::heading("The JavaScript package in Node");
    package_in_node()?;
    shell::heading("Flows in browsers, and comparisons with outside references");
    shell::run(&mut cargo_test(&environment, &["--package=crookwise-tests"]))?;
    println!("\nEverything passed in {:.0} s.", start.elapsed().as_secs_f64());
    Ok(())
}

/// Builds the site and runs only the flows: those whose file or name holds a word, or all. With `--dev`, the site for development,
/// where Leptos warns of what a release passes over in silence.
pub fn flows(options: &Options) -> Result<()> {
    let mut environment = tools::for_tests()?;
    let folder = if options.dev { site::build_dev_for_flows()? } else { site::build_release()? };
    environment.push(("CROOKWISE_SITE", folder.to_string_lossy().into_owned()));
    for named in runs(&options.words) {
        let mut words = vec!["--package=crookwise-tests", "--test=flows"];
        if let Some(named) = named {
            words.extend(["--", named]);
        }
        shell::run(&mut cargo_test(&environment, &words))?;
    }
    Ok(())
}

/// The runner takes one word at a time; without any it runs all.
fn runs(words: &[String]) -> Vec<Option<&str>> {
    if words.is_empty() { vec![None] } else { words.iter().map(|word| Some(word.as_str())).collect() }
}

/// Looks for trouble with made-up input: `labels` or `links`, for so many seconds.
pub fn fuzz(options: &Options) -> Result<()> {
    let (package, test) = match options.words.first().map(String::as_str) {
        Some("labels") => ("--package=crookwise-theory", "--test=fuzz_labels"),
        Some("links") => ("--package=crookwise-share", "--test=fuzz_links"),
        _ => anyhow::bail!("say what to try: cargo xtask fuzz labels|links --seconds N"),
    };
    let seconds = options.seconds.unwrap_or(60).to_string();
    let environment = vec![("CROOKWISE_FUZZ_SECONDS", seconds)];
    shell::run(&mut cargo_test(&environment, &["--release", package, test, "--", "--nocapture"]))
}

/// Takes the pictures of the README anew.
pub fn pictures(options: &Options) -> Result<()> {
    site::build_release()?;
    let hash = options.words.first().map(String::as_str).unwrap_or_default();
    let mut command = harness_program("shots");
    command.args(["docs/pictures", hash, "1180x820-light", "1180x820-dark", "390x844-light"]);
    shell::run(&mut command)
}

/// A program of the test harness, ready for its own words.
pub fn harness_program(name: &str) -> Command {
    let mut command = shell::cargo();
    command.args(["run", "--quiet", "--locked", "--package=crookwise-tests", "--bin", name, "--"]);
    command.env("RUST_LIB_BACKTRACE", "0");
    command
}

fn cargo_test(environment: &Environment, words: &[&str]) -> Command {
    let mut command = shell::cargo();
    command.args(["test", "--locked", "--no-fail-fast"]).args(words);
    // An error says in words what went wrong; where a panic came from is still told.
    command.env("RUST_LIB_BACKTRACE", "0");
    command.envs(environment.iter().map(|(name, value)| (name, value)));
    command
}

fn package_in_node() -> Result<()> {
    let mut files = Vec::new();
    for folder in ["tests/package", "tests/node"] {
        for entry in
            std::fs::read_dir(shell::at(folder)).with_context(|| format!("could not read {folder}"))?
        {
            let name = entry?.file_name().to_string_lossy().into_owned();
            if name.ends_with(".test.mjs") {
                files.push(format!("{folder}/{name}"));
            }
        }
    }
    files.sort();
    shell::run(shell::program("node").arg("--test").args(files))
}
