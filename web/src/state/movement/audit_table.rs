//! The audit as a table for spreadsheets: for every crook a row for its lowest and its highest note, for the longest stretch of
//! high ones, for each kind of note, and for each change of crook.

use crate::words::{Names, audit_table as words, movement};
use crookwise_opened::{AuditLineRow, AuditStaff, MadeHow, NotesRow};
use crookwise_score::table;

/// The table, notes named as on the screen; `printed` is the number of a bar.
#[must_use]
pub fn csv(audit: &[AuditStaff], printed: &dyn Fn(u32) -> String, names: Names) -> String {
    let mut lines = vec![words::HEADS.map(str::to_owned).to_vec()];
    for staff in audit {
        for line in &staff.crooks {
            let rows =
                extremes(line, names).into_iter().chain(line.notes.iter().map(|row| kind(line, row, names)));
            lines.extend(rows.map(|row| row.fields(&staff.name, &line.crook, printed)));
        }
        let changes = staff.changes.iter().map(|change| {
            let what = words::change(&change.from, &change.to, &change.quarters);
            let row = Row { kind: words::CHANGE, what, bar: Some(change.bar), ..Row::default() };
            row.fields(&staff.name, &change.to, printed)
        });
        lines.extend(changes);
    }
    table::csv(&lines)
}

/// What is told of a crook in one row.
#[derive(Default)]
struct Row {
    kind: &'static str,
    what: String,
    /// How many notes are struck, and how many hundredths of its notes.
    notes: String,
    share: String,
    /// The bar of the first of them.
    bar: Option<u32>,
}

impl Row {
    fn fields(self, part: &str, crook: &str, printed: &dyn Fn(u32) -> String) -> Vec<String> {
        let bar = self.bar.map(printed).unwrap_or_default();
        vec![part.to_owned(), crook.to_owned(), self.kind.to_owned(), self.what, self.notes, self.share, bar]
    }
}

fn extremes(line: &AuditLineRow, names: Names) -> Vec<Row> {
    let note = |kind: &'static str, (written, _, bar): &(String, u32, u32)| Row {
        kind,
        what: movement::written(written, names),
        bar: Some(*bar),
        ..Row::default()
    };
    let lowest = line.lowest.as_ref().map(|lowest| note(words::LOWEST, lowest));
    let highest = line.highest.as_ref().map(|highest| note(words::HIGHEST, highest));
    let high = line.high.as_ref().map(|high| Row {
        kind: words::HIGH,
        what: words::high(&high.quarters),
        notes: high.attacks.to_string(),
        bar: Some(high.bar),
        ..Row::default()
    });
    lowest.into_iter().chain(highest).chain(high).collect()
}

fn kind(line: &AuditLineRow, row: &NotesRow, names: Names) -> Row {
    let written = |pitch: &str| movement::written(pitch, names);
    let (kind, what) = match &row.how {
        MadeHow::Open(partial) => (words::OPEN, words::partial(*partial)),
        MadeHow::Corrected(partial) => (words::CORRECTED, words::partial(*partial)),
        MadeHow::Made(pitch, production) => (words::MADE, format!("{}, {production}", written(pitch))),
        MadeHow::OutOfReach(pitch) => (words::OUT_OF_REACH, written(pitch)),
    };
    let share = row.notes.len() * 100 / usize::try_from(line.attacks).unwrap_or(usize::MAX).max(1);
    let bar = row.notes.first().map(|(_, bar)| *bar);
    Row { kind, what, notes: row.notes.len().to_string(), share: share.to_string(), bar }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Letters;
    use crookwise_opened::{ChangeRow, HighRow};

    fn audit() -> Vec<AuditStaff> {
        let row = |how: MadeHow, notes: &[(u32, u32)]| NotesRow { how, notes: notes.to_vec() };
        let line = AuditLineRow {
            crook: "Horn in E-flat".into(),
            attacks: 6,
            notes: vec![
                row(MadeHow::Open(8), &[(0, 0), (1, 0), (2, 1)]),
                row(MadeHow::Corrected(11), &[(5, 2)]),
                row(MadeHow::Made("B4".into(), "half stopped".into()), &[(3, 1)]),
                row(MadeHow::OutOfReach("D3".into()), &[(4, 1)]),
            ],
            lowest: Some(("D3".into(), 4, 1)),
            highest: Some(("F5".into(), 5, 2)),
            high: Some(HighRow { note: 5, bar: 2, quarters: "2".into(), attacks: 1 }),
            ..AuditLineRow::default()
        };
        let change = ChangeRow {
            from: "Horn in E-flat".into(),
            to: "Horn in D".into(),
            note: 9,
            bar: 4,
            quarters: "6".into(),
        };
        let name = "Hörner 1, 2".to_owned();
        vec![AuditStaff { name, crooks: vec![line], changes: vec![change], ..AuditStaff::default() }]
    }

    #[test]
    fn every_row_leads_to_its_bar_and_spreadsheets_know_its_accents() {
        let printed = |bar: u32| (bar + 10).to_string();
        let made = csv(&audit(), &printed, Names::default());
        let lines: Vec<&str> = made.split_terminator("\r\n").collect();
        let own = |rest: &str| format!("\"Hörner 1, 2\",Horn in E-flat,{rest}");
        assert_eq!(lines, [
            "\u{feff}Part,Crook,Kind,What,Notes,Share in hundredths,First bar".to_owned(),
            own("lowest,D3,,,11"),
            own("highest,F5,,,12"),
            own("high,longest stretch above partial 12: 2 quarter notes,1,,12"),
            own("open,partial 8,3,50,10"),
            own("corrected,partial 11,1,16,12"),
            own("made,\"B4, half stopped\",1,16,11"),
            own("out of reach,D3,1,16,11"),
            "\"Hörner 1, 2\",Horn in D,change,\"from Horn in E-flat to Horn in D, after 6 quarter notes of rest\",,,14".to_owned(),
        ]);
    }

    #[test]
    fn notes_are_named_as_on_the_screen() {
        let german = Names { letters: Letters::German, ..Names::default() };
        let made = csv(&audit(), &|bar| bar.to_string(), german);
        assert!(made.contains("made,\"H4, half stopped\","), "{made}");
    }
}
