//! The steps of a run: each with its heading, and how long it took.

use crate::shell;
use anyhow::Result;
use std::fmt::{self, Display};
use std::time::Instant;

/// What has been done so far.
#[derive(Debug)]
pub struct Steps {
    begin: Instant,
    /// Each step with its seconds.
    done: Vec<(String, f64)>,
}

impl Steps {
    /// Nothing yet.
    pub fn new() -> Self {
        Self { begin: Instant::now(), done: Vec::new() }
    }

    /// Takes a step. Its time counts whether it went well or not.
    pub fn take<T>(&mut self, name: &str, step: impl FnOnce() -> Result<T>) -> Result<T> {
        shell::heading(name);
        let begin = Instant::now();
        let outcome = step();
        self.done.push((name.to_owned(), begin.elapsed().as_secs_f64()));
        outcome
    }
}

impl Display for Steps {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (name, seconds) in &self.done {
            writeln!(f, "{seconds:6.0} s  {name}")?;
        }
        write!(f, "{:6.0} s  in all", self.begin.elapsed().as_secs_f64())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_that_fails_is_in_the_table() {
        let mut steps = Steps::new();
        assert_eq!(steps.take("one", || Ok(1)).expect("one"), 1);
        assert!(steps.take("two", || -> Result<()> { anyhow::bail!("no") }).is_err());
        let table = steps.to_string();
        let lines: Vec<&str> = table.lines().map(str::trim_start).collect();
        assert_eq!(lines, ["0 s  one", "0 s  two", "0 s  in all"]);
    }
}
