//! Comparisons with what lies outside this repository. One whose outside is not on this machine is skipped, and the
//! runner says so beside its name and counts it in its last line as ignored.

use libtest_mimic::{Arguments, Trial};
use std::process::ExitCode;

/// Names a Python that has what `tests/python/requirements.txt` lists.
pub const PYTHON: &str = "CROOKWISE_PYTHON";
/// Names a folder of real scores.
pub const SCORES: &str = "CROOKWISE_SCORES";

/// A comparison with its name. It is given what the variable of its file says.
pub type Comparison = (&'static str, fn(&str));

/// Comparisons by their functions.
#[macro_export]
macro_rules! comparisons {
    ($($comparison:ident),+ $(,)?) => { [$((stringify!($comparison), $comparison as fn(&str))),+] };
}

/// Runs the comparisons of these files, each with the variable that it needs: those that the command line names, or all.
pub fn run_files(files: &[(&str, &str, &'static [Comparison])]) -> ExitCode {
    let mut trials = Vec::new();
    for (file, variable, comparisons) in files {
        let outside = std::env::var(variable).ok();
        for (name, compare) in *comparisons {
            let called = format!("{file}::{name}");
            trials.push(match outside.clone() {
                Some(outside) => Trial::test(called, move || {
                    compare(&outside);
                    Ok(())
                }),
                None => Trial::test(called, || Ok(()))
                    .with_kind(format!("skipped: {variable} is not set"))
                    .with_ignored_flag(true),
            });
        }
    }
    libtest_mimic::run(&Arguments::from_args(), trials).exit_code()
}
