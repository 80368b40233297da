//! Keys an instrument is built or written in beside its own.

use crate::crook::{CrookFamily, OctaveWord};
use crate::instrument::{Instrument, KeyMeans};
use crate::pitch::{Step, Tonic};
use crate::tables::FORMS;
use crate::transposition::Transposition;

/// How a row transposes in a key, where it is built or written so.
pub(super) fn in_key(row: &Instrument, key: Tonic) -> Option<Transposition> {
    if row.key() == Some(key) {
        return row.transposition;
    }
    let form = FORMS.iter().find(|form| form.id == row.id && form.key == key && form.octave.is_none());
    if let Some(form) = form {
        return Some(form.transposition);
    }
    match row.key_means {
        KeyMeans::HowItIsBuilt => row.transposition,
        KeyMeans::AsTrumpet => {
            let crooks = CrookFamily::Trumpet.in_key(key).into_iter().map(|crook| crook.transposition);
            crooks.min_by_key(|transposition| transposition.0.semitones.abs())
        }
        KeyMeans::HowItSounds => {
            let sounds_c = row.key().is_none() && key == Tonic::new(Step::C, 0);
            row.transposition.filter(|_| sounds_c)
        }
    }
}

/// The low form of a row: the clarinet in G and the Wagner tuba in F have one.
pub(super) fn octave_lower(row: &Instrument) -> Option<Transposition> {
    let low = |octave| octave == Some(OctaveWord::Basso);
    FORMS.iter().find(|form| form.id == row.id && low(form.octave)).map(|form| form.transposition)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pitch::Pitch;
    use crate::tables::{HABITS, READINGS};

    /// The three numbers as the remarks print them.
    fn printed(transposition: Transposition) -> [String; 2] {
        let numbers = transposition.to_musicxml();
        let short = format!("{},{}", numbers.diatonic, numbers.chromatic);
        [format!("{short},{}", numbers.octave_change), short]
    }

    #[test]
    fn forms_stand_in_the_remarks_or_are_marked() {
        let file = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("data/forms.csv");
        let rows: Vec<csv::StringRecord> =
            csv::Reader::from_path(file).unwrap().records().map(Result::unwrap).collect();
        assert_eq!(rows.len(), FORMS.len());
        for (form, row) in FORMS.iter().zip(&rows) {
            let remark = Instrument::by_id(form.id).unwrap().notes().unwrap().remark;
            let numbers = printed(form.transposition);
            match &row[6] {
                "remark" => {
                    assert!(numbers.iter().any(|one| remark.contains(one)), "{}: {}", form.id, form.key);
                }
                mark => assert!(matches!(mark, "C" | "M"), "{}: {mark}", form.id),
            }
            let sounding = Pitch::natural(Step::C, 4) + form.transposition.0;
            assert_eq!(sounding.tonic(), form.key, "{}", form.id);
        }
    }

    #[test]
    fn tables_beside_the_rows_name_rows() {
        let ids = HABITS
            .iter()
            .map(|habit| habit.id)
            .chain(READINGS.iter().flat_map(|other| [other.id, other.other]));
        for id in ids {
            assert!(Instrument::by_id(id).is_some(), "{id}");
        }
        assert!(READINGS.iter().all(|other| !other.reason.is_empty()));
    }
}
