//! The list of staves to choose from, by family.

use crate::crook::{Crook, OctaveWord};
use crate::instrument::{Family, Instrument};
use crate::notation::Scheme;
use crate::tables::INSTRUMENTS;

use super::naming::key_words;
use super::{DecodeOptions, decode};

/// A staff to choose.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CatalogueEntry {
    /// Its English name.
    pub name: String,
    /// A label that [`decode`] understands as exactly this staff.
    pub label: String,
}

/// Every staff of the table of instruments, one for each crook of horn and trumpet, by family in score order.
#[must_use]
pub fn catalogue() -> Vec<(Family, Vec<CatalogueEntry>)> {
    Family::ALL
        .into_iter()
        .map(|family| {
            let rows = INSTRUMENTS.iter().filter(|row| row.family == family);
            (family, rows.flat_map(entries).collect())
        })
        .collect()
}

fn entries(row: &'static Instrument) -> Vec<CatalogueEntry> {
    match row.crooks {
        Some(family) => family.crooks().iter().map(|crook| entry(crook_label(row, crook))).collect(),
        None => vec![entry(label(row))],
    }
}

fn entry(label: String) -> CatalogueEntry {
    let decoded = decode(&label, DecodeOptions::default());
    let name = decoded.staves.first().map_or_else(
        || label.clone(),
        |staff| match staff.instrument.scheme {
            Some(Scheme::French) if has_twin_row(staff.instrument) => {
                format!("{} (French notation)", staff.name())
            }
            Some(Scheme::German) => format!("{} (German notation)", staff.name()),
            _ => staff.name(),
        },
    );
    CatalogueEntry { name, label }
}

fn crook_label(row: &Instrument, crook: &Crook) -> String {
    let key = key_words(crook.tonic);
    match crook.octave {
        Some(OctaveWord::Alto) => format!("{} in {key} alto", row.english),
        Some(OctaveWord::Basso) => format!("{} in {key} basso", row.english),
        None if needs_high(crook) => format!("{} in {key} alto", row.english),
        None if needs_low(crook) => format!("{} in {key} basso", row.english),
        None => format!("{} in {key}", row.english),
    }
}

/// The same instrument in another system of notation is a row too.
fn has_twin_row(row: &Instrument) -> bool {
    INSTRUMENTS.iter().any(|other| other != row && other.systems == row.systems && other.key() == row.key())
}

/// The bare name of a pair whose other half is called basso.
fn needs_high(crook: &Crook) -> bool {
    has_twin(crook, OctaveWord::Basso)
}

/// The bare name of a pair whose other half is called alto.
fn needs_low(crook: &Crook) -> bool {
    has_twin(crook, OctaveWord::Alto)
}

fn has_twin(crook: &Crook, word: OctaveWord) -> bool {
    crook.family.in_key(crook.tonic).iter().any(|other| other.octave == Some(word))
}

/// A label for a row other than horn and trumpet.
fn label(row: &Instrument) -> String {
    if row.label.is_empty() { plain(row.english) } else { row.label.to_owned() }
}

/// The English name without its remarks.
fn plain(english: &str) -> String {
    let mut out = String::new();
    let mut depth = 0_u32;
    for ch in english.chars() {
        match ch {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            _ if depth == 0 => out.push(ch),
            _ => {}
        }
    }
    out.split_whitespace().collect::<Vec<_>>().join(" ")
}
