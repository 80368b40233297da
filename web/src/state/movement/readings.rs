//! What a label of the movement was decoded to, and its other readings.

use crate::state::decoding::decoded;
use crate::state::labelling;
use crate::state::list_item::ListItem;
use crate::words::{self, Names};
use crookwise_opened::{Correction, Reads, StaffRow};
use crookwise_score::{Choice, MOST_PLAYERS};
use crookwise_share::{choice, choice_text};
use crookwise_theory::Transposition;
use crookwise_theory::label::StaffLabel;

/// The value of the reading that the file gives.
pub const BY_FILE: &str = "file";
/// The value of the usual reading.
pub const USUAL: &str = "usual";

/// What the label of a staff means, in plain words; nothing where it names nothing.
#[must_use]
pub fn meaning(row: &StaffRow, names: Names) -> Option<String> {
    let mut staff = staff(row)?;
    if row.as_printed {
        staff.transposition = Transposition::NONE;
    }
    Some(in_words(&staff, names))
}

fn staff(row: &StaffRow) -> Option<StaffLabel> {
    let decoded = decoded(&row.label, None);
    match row.reads.as_deref().and_then(choice) {
        Some(choice) => choice.among(&decoded),
        None => decoded.staves.first().cloned(),
    }
}

fn in_words(staff: &StaffLabel, names: Names) -> String {
    staff.words_by(&|key| names.key_word(key))
}

/// That the label of a staff names more players than are told apart on it.
#[must_use]
pub fn crowded(row: &StaffRow) -> Option<String> {
    let named = labelling::crowded(&decoded(&row.label, None))?;
    Some(words::staves::crowded_part(named, MOST_PLAYERS))
}

/// Whether a label or its reading is another than the file's.
#[must_use]
pub fn is_corrected(row: &StaffRow) -> bool {
    row.label != row.label_by_file || row.reads != row.reads_by_file
}

/// Every reading of the label, that of the file first; one item where there is no choice.
#[must_use]
pub fn readings(row: &StaffRow, names: Names) -> Vec<ListItem> {
    let decoded = decoded(&row.label, None);
    let is_own_label = row.label == row.label_by_file;
    let mut items: Vec<ListItem> = Vec::new();
    let by_file = row.reads_by_file.as_deref().filter(|_| is_own_label).and_then(choice);
    if let Some(staff) = by_file.and_then(|choice| choice.among(&decoded)) {
        items.push(ListItem::new(BY_FILE, words::movement::as_file_has_it(&in_words(&staff, names))));
    }
    if let Some(usual) = decoded.staves.first() {
        items.push(ListItem::new(USUAL, in_words(usual, names)));
    }
    for other in decoded.alternatives.iter().filter(|other| other.of == 0) {
        let chosen = Choice::of(&other.staff);
        if Some(chosen) != by_file {
            items.push(ListItem::new(choice_text(chosen), in_words(&other.staff, names)));
        }
    }
    if items.is_empty() {
        items.push(ListItem::new(value(row), words::movement::AS_THE_FILE));
    }
    items
}

/// Which of the readings holds.
#[must_use]
pub fn value(row: &StaffRow) -> String {
    match &row.reads {
        None => USUAL.to_owned(),
        reads if *reads == row.reads_by_file && row.label == row.label_by_file => BY_FILE.to_owned(),
        Some(reads) => reads.clone(),
    }
}

/// Chooses one.
pub fn choose(correction: &mut Correction, row: &StaffRow, value: &str) {
    let file_is_usual = row.reads_by_file.is_none() || row.label != row.label_by_file;
    correction.reads = match value {
        BY_FILE => Reads::AsGiven,
        USUAL if file_is_usual => Reads::AsGiven,
        USUAL => Reads::Usual,
        other => choice(other).map_or(Reads::AsGiven, Reads::Chosen),
    };
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(label: &str, by_file: Option<&str>) -> StaffRow {
        let by_file = by_file.map(str::to_owned);
        StaffRow {
            label: label.into(),
            label_by_file: label.into(),
            reads: by_file.clone(),
            reads_by_file: by_file,
            ..StaffRow::default()
        }
    }

    #[test]
    fn a_label_is_told_with_what_it_sounds() {
        let names = Names::default();
        assert_eq!(
            meaning(&row("Corni in Es", None), names).unwrap(),
            "Horn in E-flat — sounds a major sixth lower"
        );
        assert_eq!(meaning(&row("Xyzzyq", None), names), None);
        let drums = StaffRow { as_printed: true, ..row("Timpani in D A", None) };
        assert!(meaning(&drums, names).unwrap().ends_with("as written"), "{:?}", meaning(&drums, names));
    }

    #[test]
    fn the_reading_of_the_file_and_the_usual_one_can_be_chosen() {
        let names = Names::default();
        let horn = row("C Horn", Some("horn_0_0"));
        let items = readings(&horn, names);
        assert_eq!(items[0].value, BY_FILE);
        assert!(items.iter().any(|item| item.value == USUAL && item.text.contains("octave")), "{items:?}");
        assert_eq!(value(&horn), BY_FILE);
        let mut correction = Correction::default();
        choose(&mut correction, &horn, USUAL);
        assert_eq!(correction.reads, Reads::Usual);
        choose(&mut correction, &horn, BY_FILE);
        assert!(correction.is_nothing());
        // Where there is no choice the list says what holds.
        assert_eq!(readings(&row("Violini", None), names).len(), 1);
        let unknown = readings(&row("Xyzzyq", None), names);
        assert_eq!((unknown[0].value.as_str(), unknown.len()), (USUAL, 1));
        assert_eq!(unknown[0].text, words::movement::AS_THE_FILE);
    }

    #[test]
    fn more_players_than_are_told_apart_are_told() {
        assert!(crowded(&row("6 Corni in F", None)).unwrap().contains("6 players"));
        assert_eq!(crowded(&row("4 Corni in F", None)), None);
    }

    #[test]
    fn what_is_corrected_can_be_told() {
        let horn = row("C Horn", Some("horn_0_0"));
        assert!(!is_corrected(&horn));
        assert!(is_corrected(&StaffRow { reads: None, ..horn.clone() }));
        assert!(is_corrected(&StaffRow { label: "Corni in C".into(), ..horn }));
    }
}
