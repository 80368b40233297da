//! Comparisons with what lies outside this repository. One whose outside is not on this machine is skipped, and the
//! runner says so beside its name and counts it in its last line as ignored.

use libtest_mimic::{Arguments, Trial};
use std::path::PathBuf;
use std::process::ExitCode;

/// Names a Python that has what `tests/python/requirements.txt` lists.
pub const PYTHON: &str = "CROOKWISE_PYTHON";
/// Names a folder of real scores.
pub const SCORES: &str = "CROOKWISE_SCORES";

/// Names the folder where npm has put what `tests/node/package.json` lists.
pub const MODULES: &str = "CROOKWISE_MODULES";

/// A comparison with its name. It is given what the first variable of its file says.
pub type Comparison = (&'static str, fn(&str));

/// A file of comparisons: its name, the variables that it needs, the first first, and what it compares.
pub type File<'a> = (&'a str, &'a [&'a str], &'static [Comparison]);

/// What a variable says; nothing where it is not set.
#[must_use]
pub fn said(variable: &str) -> String {
    std::env::var(variable).unwrap_or_default()
}

/// The folder of real scores; where there is none, it is said that a flow is skipped.
#[allow(clippy::print_stdout, reason = "what is skipped is said in the runner's own output")]
#[must_use]
pub fn scores() -> Option<PathBuf> {
    let scores = std::env::var_os(SCORES).map(PathBuf::from);
    if scores.is_none() {
        println!("skipped: {SCORES} is not set");
    }
    scores
}

/// Comparisons by their functions.
#[macro_export]
macro_rules! comparisons {
    ($($comparison:ident),+ $(,)?) => { [$((stringify!($comparison), $comparison as fn(&str))),+] };
}

/// Runs the comparisons of these files: those that the command line names, or all.
pub fn run_files(files: &[File<'_>]) -> ExitCode {
    let mut trials = Vec::new();
    for (file, variables, comparisons) in files {
        let missing = variables.iter().find(|variable| std::env::var_os(variable).is_none());
        let outside = variables.first().map_or_else(String::new, |first| said(first));
        for (name, compare) in *comparisons {
            let called = format!("{file}::{name}");
            let outside = outside.clone();
            trials.push(match missing {
                None => Trial::test(called, move || {
                    compare(&outside);
                    Ok(())
                }),
                Some(variable) => Trial::test(called, || Ok(()))
                    .with_kind(format!("skipped: {variable} is not set"))
                    .with_ignored_flag(true),
            });
        }
    }
    libtest_mimic::run(&Arguments::from_args(), trials).exit_code()
}

/// Holds what a comparison found against what `docs/files.md` says of it; see [`hold_in`].
///
/// # Panics
/// Where the document says something else.
pub fn hold(heading: &str, lines: &[String]) {
    hold_in("docs/files.md", heading, lines);
}

/// Holds what a comparison found against what a document says of it: the block under a heading. With `UPDATE=1` it is written
/// there instead.
///
/// # Panics
/// Where the document says something else.
#[allow(clippy::panic, reason = "a document that is no longer true is a failure of its test")]
pub fn hold_in(document: &str, heading: &str, lines: &[String]) {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(document);
    let text = std::fs::read_to_string(&path).unwrap_or_default();
    let block = format!("```\n{}\n```", lines.join("\n"));
    let said = text.split_once(&format!("## {heading}\n")).and_then(|(before, after)| {
        let start = after.find("```\n")?;
        let end = start + 4 + after.get(start + 4..)?.find("\n```")? + 4;
        let at = before.len() + heading.len() + 4;
        Some(at + start..at + end)
    });
    let Some(said) = said else { panic!("{document} has no block under “{heading}”") };
    if text.get(said.clone()) == Some(block.as_str()) {
        return;
    }
    assert!(
        std::env::var_os("UPDATE").is_some(),
        "{document}, “{heading}”, is no longer true; UPDATE=1 rewrites it. Found:\n{block}"
    );
    let new = format!("{}{block}{}", &text[..said.start], &text[said.end..]);
    std::fs::write(&path, new).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
}
