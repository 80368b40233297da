//! The list of staves to choose from, by family.

use crate::crook::{Crook, CrookFamily, OctaveWord};
use crate::instrument::{Family, Instrument};
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
    let family = match row.id {
        "horn" => CrookFamily::Horn,
        "trumpet" => CrookFamily::Trumpet,
        _ => return vec![entry(label(row))],
    };
    family.crooks().iter().map(|crook| entry(crook_label(row, crook))).collect()
}

fn entry(label: String) -> CatalogueEntry {
    let decoded = decode(&label, DecodeOptions::default());
    let name = decoded.staves.first().map_or_else(
        || label.clone(),
        |staff| match staff.instrument.id {
            "bcl_fr" => format!("{} (French notation)", staff.name()),
            "bcl_de" => format!("{} (German notation)", staff.name()),
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
    match row.id {
        "wt_t_bb" => "Wagner tenor tuba in B-flat".to_owned(),
        "wt_t_bbb" => "Wagner tenor tuba in B-flat basso".to_owned(),
        "wt_t_eb" => "Wagner tenor tuba in E-flat".to_owned(),
        "wt_b_f" => "Wagner bass tuba in F".to_owned(),
        "wt_b_bb" => "Wagner bass tuba in B-flat basso".to_owned(),
        "va_k364" => "Viola tuned a semitone up".to_owned(),
        "vc_treble_old" => "Cello (old treble clef)".to_owned(),
        "cl_b" => "Clarinet in B natural".to_owned(),
        "baritone" => "Baritone horn in B-flat".to_owned(),
        "bcl_fr" => "Bass clarinet in B-flat (French notation)".to_owned(),
        "bcl_de" => "Bass clarinet in B-flat (German notation)".to_owned(),
        "tenor_voice" => "Tenor voice".to_owned(),
        "bassi" => "Cellos and basses".to_owned(),
        "timp_old" => "Timpani".to_owned(),
        _ => plain(row.english),
    }
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
