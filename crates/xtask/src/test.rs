//! Every check and every test, the cheap ones first. What a developer runs is what the project is held to.

use crate::options::Options;
use crate::steps::Steps;
use crate::tools::{self, BROWSERS, Environment, Outside};
use crate::{beside, check, package, shell, site};
use anyhow::{Context, Result};
use std::process::Command;

/// Runs everything. Stops at the first step that fails. The last lines say how long each step took, and what was skipped.
pub fn test() -> Result<()> {
    let mut steps = Steps::new();
    let outcome = all(&mut steps);
    println!("\n{steps}");
    let skipped = outcome?;
    for left_out in &skipped {
        println!("skipped: {left_out}");
    }
    println!("{} passed.", if skipped.is_empty() { "Everything" } else { "Everything else" });
    Ok(())
}

/// Takes every step, and gives what was skipped.
fn all(steps: &mut Steps) -> Result<Vec<String>> {
    let Outside { environment, skipped } = steps.take("Tools", tools::for_tests)?;
    check::check(steps)?;
    steps.take("Tests without a browser, and beside them the release site", || {
        // The pure crates, and the app's state without a browser. The linker of the site keeps only one core busy.
        let besides = ["--workspace", "--exclude=crookwise-tests", "--exclude=xtask"];
        let tests = ("tests without a browser".to_owned(), cargo_test(&environment, &besides));
        beside::run(vec![tests, ("the release site".to_owned(), shell::itself("build")?)])
    })?;
    // With the profile that this tool itself is built with, so that nothing is compiled twice.
    steps.take("Tests of this tool", || {
        shell::run(&mut cargo_test(&environment, &["--profile=xtask", "--package=xtask"]))
    })?;
    steps.take("The JavaScript package", package::package)?;
    steps.take("The JavaScript package in Node", package_in_node)?;
    steps.take("Comparisons with outside references, and tests of the harness", || {
        let tests = "--package=crookwise-tests";
        shell::run(&mut cargo_test(&environment, &[tests, "--lib", "--bins", "--test=outside"]))?;
        shell::run(&mut cargo_test(&environment, &[tests, "--doc"]))
    })?;
    steps.take("Flows in browsers", || in_browsers(&environment, None))?;
    Ok(skipped)
}

/// Builds the site and runs only the flows: those whose file or name holds a word, or all. With `--dev`, the site for
/// development, where Leptos warns of what a release passes over in silence.
pub fn flows(options: &Options) -> Result<()> {
    let Outside { mut environment, .. } = tools::for_tests()?;
    let folder = if options.dev { site::build_dev_for_flows()? } else { site::build_release()? };
    environment.push(("CROOKWISE_SITE", folder.to_string_lossy().into_owned()));
    runs(&options.words).into_iter().try_for_each(|named| in_browsers(&environment, named))
}

/// The flows with this word in their name, or all, in each browser beside the others: none of them keeps two cores busy.
fn in_browsers(environment: &Environment, named: Option<&str>) -> Result<()> {
    const FLOWS: [&str; 2] = ["--package=crookwise-tests", "--test=flows"];
    // Compiled once, before they start.
    shell::run(&mut cargo_test(environment, &[&FLOWS[..], &["--no-run"]].concat()))?;
    let name = |browser: &str| browser.trim().to_owned();
    let browsers =
        environment.iter().find(|(key, _)| *key == BROWSERS).map(|(_, names)| names.split(',').map(name));
    let lane = |browser: String| {
        let mut words = FLOWS.to_vec();
        if let Some(named) = named {
            words.extend(["--", named]);
        }
        let mut command = cargo_test(environment, &words);
        command.env(BROWSERS, &browser);
        (browser, command)
    };
    beside::run(browsers.into_iter().flatten().map(lane).collect())
}

/// The runner takes one word at a time; without any it runs all.
fn runs(words: &[String]) -> Vec<Option<&str>> {
    if words.is_empty() { vec![None] } else { words.iter().map(|word| Some(word.as_str())).collect() }
}

/// Looks for trouble with made-up input: `labels`, `links` or `files`, for so many seconds.
pub fn fuzz(options: &Options) -> Result<()> {
    let (package, test) = match options.words.first().map(String::as_str) {
        Some("labels") => ("--package=crookwise-theory", "--test=fuzz_labels"),
        Some("links") => ("--package=crookwise-share", "--test=fuzz_links"),
        Some("files") => ("--package=crookwise-musicxml", "--test=fuzz_files"),
        _ => anyhow::bail!("say what to try: cargo xtask fuzz labels|links|files --seconds N"),
    };
    let seconds = options.seconds.unwrap_or(60).to_string();
    let environment = vec![("CROOKWISE_FUZZ_SECONDS", seconds)];
    shell::run(&mut cargo_test(&environment, &["--release", package, test, "--", "--nocapture"]))
}

/// Takes the pictures of the README anew.
pub fn pictures() -> Result<()> {
    site::build_release()?;
    shell::run(harness_program("shots").arg("docs/pictures"))
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
