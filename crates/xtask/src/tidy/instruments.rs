//! A property of an instrument is a column of its table: no code asks for a row by its id, so that a row alone makes a
//! new instrument.

use crate::shell;
use crate::tidy::source;
use anyhow::{Context, Result};

const TABLE: &str = "crates/theory/data/instruments.csv";

/// Every line that compares an id of the table.
pub fn check() -> Result<Vec<String>> {
    let read = |name: &str| {
        std::fs::read_to_string(shell::at(name)).with_context(|| format!("could not read {name}"))
    };
    let table = read(TABLE)?;
    let ids: Vec<&str> = table.lines().skip(1).filter_map(|row| row.split(',').next()).collect();
    let mut problems = Vec::new();
    for name in source::files()? {
        let code = name.ends_with(".rs") && name.contains("/src/") && !name.starts_with("tests/");
        if !code || !shell::at(&name).exists() {
            continue;
        }
        let text = read(&name)?;
        let lines = text.lines().take_while(|line| line.trim() != "#[cfg(test)]").enumerate();
        let code = lines.filter(|(_, line)| !line.trim_start().starts_with("//"));
        for (at, _) in code.filter(|(_, line)| compares_an_id(line, &ids)) {
            problems
                .push(format!("{name}:{}: an instrument is asked for by its id: make it a column", at + 1));
        }
    }
    Ok(problems)
}

/// Whether a line has an id in a match, in a comparison of something called id or instrument, or in a look-up.
fn compares_an_id(line: &str, ids: &[&str]) -> bool {
    line.match_indices('"').any(|(from, _)| {
        let (before, rest) = (line[..from].trim_end(), &line[from + 1..]);
        let Some(to) = rest.find('"') else { return false };
        let (word, after) = (&rest[..to], rest[to + 1..].trim_start());
        let stem = ["id.starts_with(", "instrument.starts_with("].iter().any(|call| before.ends_with(call));
        if stem && word.ends_with('_') {
            return ids.iter().any(|id| id.starts_with(word));
        }
        let compared = ["==", "!="].iter().any(|sign| {
            before
                .strip_suffix(sign)
                .map(str::trim_end)
                .is_some_and(|left| left.ends_with("id") || left.ends_with("instrument"))
        });
        let arm = after.starts_with("=>") || after.starts_with('|') || before.ends_with('|');
        ids.contains(&word) && (arm || compared || before.ends_with("by_id("))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_in_comparisons_are_found() {
        let ids = ["horn", "cl_a", "timp_old"];
        for line in [
            "if staff.instrument.id == \"timp_old\" {",
            "    \"horn\" => Some(CrookFamily::Horn),",
            "matches!(self.id, \"horn\" | \"cl_a\")",
            "Instrument::by_id(\"cl_a\")",
            "id if id.starts_with(\"cl_\") => true,",
        ] {
            assert!(compares_an_id(line, &ids), "{line}");
        }
        for line in [
            "CrookFamily::Horn => \"horn\",",
            "if word.ends_with(\"horn\") {",
            "if token.text == \"horn\" {",
            "    \"oboe\" => 1,",
            "name.starts_with(\"cl_\")",
        ] {
            assert!(!compares_an_id(line, &ids), "{line}");
        }
    }
}
