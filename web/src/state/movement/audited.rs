//! The audit as it is shown: rows, and the notes that a row leads to.

use crookwise_opened::{AuditLineRow, AuditStaff, MadeHow, NotesRow};

/// Notes that were asked for: staff, crook and kind, each by its place in the audit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AskedNotes {
    /// The staff.
    pub staff: usize,
    /// The crook.
    pub crook: usize,
    /// The kind.
    pub kind: usize,
}

/// A bar with notes that were asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BarOfNotes {
    /// The number of the first of them.
    pub note: u32,
    /// The bar, counted from 0.
    pub bar: u32,
    /// How many.
    pub notes: usize,
}

/// Bars that are listed at most.
pub const MOST_BARS: usize = 60;

/// The bars of notes of one kind, each once, and how many more there are.
#[must_use]
pub fn bars(row: &NotesRow) -> (Vec<BarOfNotes>, usize) {
    let mut all: Vec<BarOfNotes> = Vec::new();
    for (note, bar) in &row.notes {
        match all.last_mut() {
            Some(last) if last.bar == *bar => last.notes += 1,
            _ => all.push(BarOfNotes { note: *note, bar: *bar, notes: 1 }),
        }
    }
    let more = all.len().saturating_sub(MOST_BARS);
    all.truncate(MOST_BARS);
    (all, more)
}

/// How many notes of a crook are on the series.
#[must_use]
pub fn on_series(line: &AuditLineRow) -> usize {
    line.notes.iter().filter(|row| !is_off(row)).map(|row| row.notes.len()).sum()
}

/// The kinds of notes of a crook by their place, those off the series first: they are looked for.
#[must_use]
pub fn kinds(line: &AuditLineRow) -> Vec<usize> {
    let places = |off: bool| {
        let rows = line.notes.iter().enumerate().filter(move |(_, row)| is_off(row) == off);
        rows.map(|(at, _)| at)
    };
    places(true).chain(places(false)).collect()
}

/// Whether notes are off the series, or out of reach.
#[must_use]
pub fn is_off(row: &NotesRow) -> bool {
    matches!(row.how, MadeHow::Made(..) | MadeHow::OutOfReach(_))
}

/// What was asked for, where it is still there.
#[must_use]
pub fn shown(audit: &[AuditStaff], shown: AskedNotes) -> Option<(&AuditStaff, &NotesRow)> {
    let staff = audit.get(shown.staff)?;
    Some((staff, staff.crooks.get(shown.crook)?.notes.get(shown.kind)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn notes_of_a_bar_are_one_and_what_is_off_comes_first() {
        let row = |how: MadeHow, notes: &[(u32, u32)]| NotesRow { how, notes: notes.to_vec() };
        let open = row(MadeHow::Open(4), &[(5, 1), (6, 1), (9, 3)]);
        let bar = |note, bar, notes| BarOfNotes { note, bar, notes };
        assert_eq!(bars(&open), (vec![bar(5, 1, 2), bar(9, 3, 1)], 0));
        let many: Vec<(u32, u32)> = (0..70).map(|at| (at, at)).collect();
        assert_eq!(bars(&row(MadeHow::OutOfReach("D3".into()), &many)).1, 10);
        let line = AuditLineRow {
            crook: String::new(),
            bars: (0, 0),
            attacks: 5,
            notes: vec![
                open,
                row(MadeHow::Corrected(11), &[(2, 0)]),
                row(MadeHow::OutOfReach("D3".into()), &[(3, 0)]),
            ],
            lowest: None,
            highest: None,
            high: None,
        };
        assert_eq!(on_series(&line), 4);
        assert_eq!(kinds(&line), [2, 0, 1]);
    }
}
