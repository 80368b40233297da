//! Programs run beside each other.

use crate::shell;
use anyhow::{Context, Result, bail};
use std::process::{Command, Output};
use std::thread;

/// Runs all of them to their ends; an error with the names of those that fail. What the first prints is seen as it comes,
/// what the others print when all have ended, so that nobody's lines are torn apart.
pub fn run(programs: Vec<(String, Command)>) -> Result<()> {
    let mut programs = programs.into_iter();
    let Some((name, mut first)) = programs.next() else { return Ok(()) };
    let others: Vec<_> =
        programs.map(|(name, mut command)| (name, thread::spawn(move || command.output()))).collect();
    let mut failed = Vec::new();
    shell::heading(&name);
    if !first.status().with_context(|| format!("could not run what is for {name}"))?.success() {
        failed.push(name);
    }
    for (name, running) in others {
        let ended = running.join().ok().and_then(Result::ok);
        let Output { status, stdout, stderr } =
            ended.with_context(|| format!("could not run what is for {name}"))?;
        shell::heading(&name);
        print!("{}", String::from_utf8_lossy(&stdout));
        eprint!("{}", String::from_utf8_lossy(&stderr));
        if !status.success() {
            failed.push(name);
        }
    }
    if !failed.is_empty() {
        bail!("what failed: {}", failed.join(", "));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shell(script: &str) -> Command {
        let mut command = Command::new("sh");
        command.args(["-c", script]);
        command
    }

    #[test]
    fn each_runs_while_the_others_do_and_those_that_fail_are_named() {
        // Each waits for the other: one after the other they would never end.
        let folder = std::env::temp_dir().join(format!("beside-{}", std::process::id()));
        std::fs::create_dir_all(&folder).expect("a folder");
        let wait = |own: &str, other: &str, code: u8| {
            let (own, other) = (folder.join(own), folder.join(other));
            let (own, other) = (own.display(), other.display());
            shell(&format!("echo here > {own}; while [ ! -f {other} ]; do sleep 0.05; done; exit {code}"))
        };
        let outcome = run(vec![("one".into(), wait("a", "b", 0)), ("two".into(), wait("b", "a", 3))]);
        std::fs::remove_dir_all(&folder).expect("the folder goes");
        assert_eq!(outcome.expect_err("the second fails").to_string(), "what failed: two");
    }
}
