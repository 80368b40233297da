//! Changes in the course of a staff: as print has them over the staff, and as they are said.

use crate::words::{Names, signature};
use crookwise_score::{BarNumber, Change, ChangeTo, Column, SignatureSource};
use crookwise_theory::{Clef, Signature};

texts! {
    STAYS = "stays";
    NEW_BAR = "new bar";
    CHANGE_HERE = "Change here";
    CROOK_OF = "The crook of";
    CHANGE_AS_PRINTED = "Change of crook, as printed";
    MUTA_IN = "muta in …";
    NEW_CROOK = "New crook";
    NEW_CLEF = "New clef";
    NEW_SIGNATURE = "New signature";
    NEW_KEY = "New key of the movement";
    NOTHING_CHANGES = "Nothing changes here";
    ALL_PLAYERS = "all players";
}

/// One of several players.
#[must_use]
pub fn player(number: u32) -> String {
    format!("player {number} alone")
}

/// Before which column something changes.
#[must_use]
pub fn before_column(column: usize) -> String {
    format!("What changes before column {}", column + 1)
}

/// Why the word for a crook changes nothing.
#[must_use]
pub fn not_understood(text: &str) -> String {
    format!("“{text}” is not understood here: the crook stays")
}

/// Over the staff: what the score prints, and where one of several players changes, which. `number` is his.
#[must_use]
pub fn direction(text: &str, number: Option<u32>) -> String {
    let text = text.trim();
    let printed = if is_bare(text) { format!("muta {}", with_in(text)) } else { text.to_owned() };
    match number {
        Some(number) => format!("{} {printed}", roman(number)),
        None => printed,
    }
}

/// "D" and "in B basso" are crooks alone; whoever writes more says it in his own words.
fn is_bare(text: &str) -> bool {
    text.strip_prefix("in ").unwrap_or(text).split(' ').next().is_some_and(|word| word.chars().count() <= 3)
}

fn with_in(text: &str) -> String {
    if text.starts_with("in ") { text.to_owned() } else { format!("in {text}") }
}

/// Numbers of players as scores print them.
#[must_use]
pub fn roman(number: u32) -> String {
    const ROMAN: [&str; 12] = ["I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX", "X", "XI", "XII"];
    let known = number.checked_sub(1).and_then(|at| ROMAN.get(usize::try_from(at).ok()?));
    known.map_or_else(|| number.to_string(), |roman| (*roman).to_owned())
}

/// What heads a later system where the crook has changed: "in D"; where one player's has, his change: "I muta in D".
#[must_use]
pub fn held(last: &str) -> &str {
    last.strip_prefix("muta ").unwrap_or(last)
}

/// A bar by its number.
#[must_use]
pub fn bar(number: BarNumber) -> String {
    if number == BarNumber::NONE { NEW_BAR.to_owned() } else { format!("bar {number}") }
}

/// The number of a bar beside what is said of a note in it.
#[must_use]
pub fn beside_bar(number: BarNumber, said: &str) -> String {
    [bar(number).as_str(), said].into_iter().filter(|text| !text.is_empty()).collect::<Vec<_>>().join(" · ")
}

/// What is said at the column before which a bar begins or something changes: "bar 67; muta in D; bass clef".
#[must_use]
pub fn said(changes: &[&Change], column: &Column, names: Names) -> String {
    let change = |change: &&Change| match &change.to {
        ChangeTo::Label(text) => direction(text, None),
        ChangeTo::Clef(clef) => clef_said(*clef),
        ChangeTo::Signature(SignatureSource::None) => signature(Signature::NONE),
        ChangeTo::Signature(SignatureSource::Movement) => "signature as the movement needs".to_owned(),
        ChangeTo::Signature(SignatureSource::Typed(typed)) => signature(*typed),
    };
    let key = column.movement.map(|key| names.key(key));
    column
        .bar
        .map(bar)
        .into_iter()
        .chain(changes.iter().map(change))
        .chain(key)
        .collect::<Vec<_>>()
        .join("; ")
}

/// "bass clef", "treble clef, an octave lower".
#[must_use]
pub fn clef_said(clef: Clef) -> String {
    let name = clef.name();
    match name.split_once(", ") {
        Some((name, mark)) => format!("{name} clef, {mark}"),
        None => format!("{name} clef"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    #[test]
    fn directions_are_printed_as_scores_have_them() {
        let last = |text: &str, player| held(&direction(text, player)).to_owned();
        assert_eq!(
            (last("in D", None), last("B basso", Some(1))),
            ("in D".into(), "I muta in B basso".into())
        );
        assert_eq!(last("Piccolo", None), "Piccolo");
        assert_eq!(direction("in D", None), "muta in D");
        assert_eq!(direction("D", Some(2)), "II muta in D");
        assert_eq!(direction("muta in B basso", Some(1)), "I muta in B basso");
        assert_eq!(direction("Corni in F", None), "Corni in F");
        assert_eq!(direction("umstimmen in E", Some(14)), "14 umstimmen in E");
    }

    #[test]
    fn what_changes_is_said_in_order() {
        let change = |to| Change { column: 1, player: None, to };
        let (label, clef) = (change(ChangeTo::Label("D".into())), change(ChangeTo::Clef(Clef::BASS)));
        let of = |column: Column| said(&[&label, &clef], &column, Names::default());
        let column = Column { movement: Some("F major".parse().unwrap()), ..Column::default() };
        assert_eq!(of(column), "muta in D; bass clef; F major");
        assert_eq!(
            of(Column { bar: BarNumber::new("67"), ..column }),
            "bar 67; muta in D; bass clef; F major"
        );
        assert_eq!(
            of(Column { bar: Some(BarNumber::NONE), ..Column::default() }),
            "new bar; muta in D; bass clef"
        );
    }

    #[test]
    fn a_bar_stands_beside_what_is_said() {
        let bar = BarNumber::new("12a").unwrap();
        assert_eq!(beside_bar(bar, "Partial 10, open"), "bar 12a · Partial 10, open");
        assert_eq!(beside_bar(bar, ""), "bar 12a");
    }
}
