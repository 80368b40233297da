//! How notes of natural brass are made, held against the tables as text.

use super::spoken::note;
use super::{Judge, Said};
use crookwise_practice::{Answer, Which};

const HORN: &str = include_str!("../../../../crates/theory/data/reach_horn.csv");
const TRUMPET: &str = include_str!("../../../../crates/theory/data/reach_trumpet.csv");

/// Semitones above the first partial, by number from 1; 11 and 13 as either key, then the other.
const PARTIALS: [&[i32]; 16] = [
    &[0],
    &[12],
    &[19],
    &[24],
    &[28],
    &[31],
    &[34],
    &[36],
    &[38],
    &[40],
    &[41, 42],
    &[43],
    &[44, 45],
    &[46],
    &[47],
    &[48],
];

/// The row of the table for a written note, by the names of its columns.
fn row(own: &Judge<'_>, column: &str) -> Option<&'static str> {
    // "Trombe", of the labels of these tests.
    let table = if own.staff.label.starts_with("Tr") { TRUMPET } else { HORN };
    let mut lines = table.lines();
    let at = lines.next()?.split(',').position(|name| name == column)?;
    let midi = (own.written().1 + 12).to_string();
    let row = lines.find(|line| line.split(',').next() == Some(&midi))?;
    row.split(',').nth(at)
}

/// The number of the partial that has the written note, if any.
fn number(own: &Judge<'_>) -> Option<usize> {
    // Written C3 is the second.
    let above = own.written().1 - 36 + 12;
    PARTIALS.iter().position(|keys| keys.contains(&above)).map(|at| at + 1)
}

fn production(word: &str) -> &'static str {
    match word {
        "open" => "open",
        "handOut" => "open, hand out",
        "quarter" => "a quarter stopped",
        "half" => "half stopped",
        "threeQuarter" => "three quarters stopped",
        "full" => "fully stopped",
        "lipped" => "lipped",
        other => panic!("{other}"),
    }
}

/// "Partial 8, open." or "Half stopped, made from partial 10."
pub(super) fn making(own: &Judge<'_>, said: Said<'_>) {
    assert!(own.staff.natural(), "{}", said.0);
    let made = row(own, "production");
    match made {
        None | Some("unavailable") => {
            let known = ["Not to be had on the plain series.", "Below the series"];
            assert!(known.iter().any(|one| said.0.starts_with(one)), "{}", said.0);
        }
        Some(made) => {
            let words = production(made);
            let expected = match (number(own), row(own, "from")) {
                (Some(partial), _) => format!("partial {partial}, {words}."),
                (None, Some(from)) if !from.is_empty() => format!("{words}, made from {from}."),
                // The table of the trumpet does not name it: the lip bends it by two semitones at most.
                _ => {
                    let from =
                        said.0.split_once(", made from partial ").map(|(_, from)| from.trim_end_matches('.'));
                    let near = |from: &str| {
                        let keys = PARTIALS[from.parse::<usize>().unwrap() - 1];
                        keys.iter().any(|key| (key - (own.written().1 - 24)).abs() <= 2)
                    };
                    assert!(from.is_none_or(near), "{}", said.0);
                    let from = from.map(|from| format!(", made from partial {from}"));
                    format!("{words}{}.", from.unwrap_or_default())
                }
            };
            assert_eq!(said.0.to_lowercase(), expected);
        }
    }
}

pub(super) fn partial(own: &Judge<'_>, lines: &[Said<'_>]) {
    let mut lines = lines.to_vec();
    if own.printed != own.written() {
        let mut said = lines.remove(0);
        said.begins("Printed ");
        assert_eq!(note(said.up_to(", but to be read as a written ")), own.printed);
        assert_eq!(note(said.up_to(".")), own.written());
    }
    let mut said = lines[0];
    said.begins("Written ");
    let Some(number) = number(own) else {
        assert_eq!(note(said.up_to(" lies between the partials of the crook.")), own.written());
        return making(own, lines[1]);
    };
    assert_eq!(note(said.up_to(" is partial ")), own.written());
    assert_eq!(said.up_to(", where written ").parse(), Ok(number));
    for known in said.up_to(".").split(" and ") {
        let (name, partial) = known.split_once(" is partial ").unwrap();
        let above = note(name).1 - 36 + 12;
        let partial: usize = partial.parse().unwrap();
        assert_eq!(PARTIALS[partial - 1], [above], "{known}");
        assert_ne!(partial, number, "it tells nothing of itself");
    }
    let words = row(own, "production").map_or("not on the plain series", production);
    assert_eq!(lines[1].0, format!("It is {words}."));
}

pub(super) fn made(own: &Judge<'_>, lines: &[Said<'_>]) {
    making(own, lines[0]);
    let Some(line) = lines.get(1) else { return };
    let grade = row(own, "grade").unwrap();
    assert!(line.0.starts_with(&format!("Grade {grade}: ")), "{}", line.0);
    let bend: f64 = row(own, "bend_cents").and_then(|cents| cents.parse().ok()).unwrap_or_default();
    if let Some((_, rest)) = line.0.split_once("It must come ") {
        let (way, rest) = rest.split_once(" by ").unwrap();
        assert_eq!(way, if bend < 0.0 { "down" } else { "up" });
        let cents: f64 = rest.split_once(" cents").unwrap().0.parse().unwrap();
        assert!((cents - bend.abs()).abs() < 0.7, "{cents} {bend}");
    }
    let other = row(own, "other_way").filter(|other| !other.is_empty());
    let told = line.0.split_once("Another way: ").map(|(_, other)| other.trim_end_matches('.'));
    assert_eq!(told, other.map(|other| production(other.split(' ').next().unwrap_or_default())));
}

/// Cents from the fourth partial to those that lie off the keyboard (1200 times the binary logarithm of n/4).
fn cents_above_fourth(number: usize) -> f64 {
    match number {
        5 => 386.31,
        7 => 968.83,
        10 => 1586.31,
        11 => 1751.32,
        13 => 2040.53,
        14 => 2168.83,
        15 => 2288.27,
        other => panic!("partial {other} lies on the keyboard"),
    }
}

pub(super) fn natural(own: &Judge<'_>, lines: &[Said<'_>]) {
    let number = number(own).unwrap();
    let mut said = lines[0];
    let which = if own.question.right == Answer::Which(Which::First) { "The first" } else { "The second" };
    said.begins(which);
    said.begins(" is partial ");
    assert_eq!(said.up_to(" as the tube gives it, ").parse(), Ok(number));
    let cents: f64 = said.up_to(" cents ").parse().unwrap();
    let side = said.up_to(" than the tuning has the note.");
    // Against the keys of equal temperament, the crook's own C in tune.
    let above = f64::from(own.written().1 - 48);
    let drift = cents_above_fourth(number) - above * 100.0;
    assert_eq!(side, if drift < 0.0 { "lower" } else { "higher" });
    assert!((drift.abs() - cents).abs() <= 0.5, "{drift} {cents}");
}
