//! The closed lists in `types.d.ts` against the tables they come from.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crookwise_js::problem::Code;
use crookwise_practice::Mistake;
use crookwise_theory::label::Mechanism;
use crookwise_theory::tables::{INSTRUMENTS, TEMPERAMENTS};
use crookwise_theory::{BassNotation, Clef, Production, Scheme};

const TYPES: &str = include_str!("../src/types.d.ts");

/// The words of `export type Name = "a" | "b";`.
fn union(name: &str) -> Vec<String> {
    let start = TYPES.find(&format!("export type {name} =")).unwrap_or_else(|| panic!("no type {name}"));
    let end = TYPES[start..].find(';').unwrap();
    TYPES[start..start + end].split('"').skip(1).step_by(2).map(String::from).collect()
}

#[test]
fn closed_lists_are_the_tables() {
    assert_eq!(union("InstrumentId"), INSTRUMENTS.iter().map(|row| row.id).collect::<Vec<_>>());
    assert_eq!(union("TemperamentId"), TEMPERAMENTS.iter().map(|row| row.id).collect::<Vec<_>>());
    assert_eq!(union("ErrorCode"), Code::ALL.map(Code::id));
    assert_eq!(union("Mechanism"), [Mechanism::Natural, Mechanism::Valves].map(Mechanism::id));
    assert_eq!(union("BassNotation"), [BassNotation::Old, BassNotation::New].map(BassNotation::id));
    let schemes: Vec<_> =
        Scheme::BASS_CLARINET.into_iter().chain(Scheme::WAGNER_TUBA).map(Scheme::id).collect();
    assert_eq!(union("Scheme"), schemes);
    assert_eq!(union("Production"), Production::ALL.map(Production::id));
    assert_eq!(union("Mistake"), Mistake::ALL.map(Mistake::id));
    let mut clefs: Vec<String> = Clef::ALL.iter().map(ToString::to_string).collect();
    let mut named = union("ClefName");
    clefs.sort();
    named.sort();
    assert_eq!(named, clefs);
}

#[test]
fn every_field_is_described() {
    let lines: Vec<&str> = TYPES.lines().collect();
    for (at, line) in lines.iter().enumerate() {
        let is_comment = line.trim_start().starts_with('*');
        let is_field = line.starts_with("    ") && !is_comment && line.ends_with(';') && line.contains(": ");
        let is_export = line.starts_with("export ");
        if is_field || is_export {
            assert!(lines[at - 1].trim_end().ends_with("*/"), "without a description: {line}");
        }
    }
}
