//! What the reader corrects in a movement: the label of a staff, its reading, its notation; step by step, and back.

use super::{CorrectingSteps, Movement};
use crate::state::changing::printed_crooks;
use crate::state::decoding::decoded;
use crate::state::list_item::ListItem;
use crate::words::{self, Names};
use crookwise_opened::{Correction, Reads, StaffRow, UnheededRow};
use crookwise_theory::label::StaffLabel;

impl Movement {
    /// Corrects a staff.
    pub fn correct(self, staff: u32, change: impl FnOnce(&mut Correction)) {
        let before = self.corrections.get_untracked();
        self.corrections.update(|all| {
            let at = all.iter().position(|one| one.staff == staff).unwrap_or_else(|| {
                all.push(Correction { staff, ..Correction::default() });
                all.len() - 1
            });
            if let Some(one) = all.get_mut(at) {
                change(one);
            }
            all.retain(|one| !one.is_nothing());
        });
        if self.corrections.with_untracked(|now| *now != before) {
            self.steps.update(|steps| steps.made(before));
        }
    }

    /// Lets a staff change its crook with a bar, as print has it: "D" and "muta in D" are the same. Where nothing is said it does
    /// there what its file does.
    pub fn change_crook(self, staff: u32, bar: u32, text: &str) {
        let text = text.trim();
        let is_label = text.is_empty() || !decoded(text, None).staves.is_empty();
        let printed = if is_label { text.to_owned() } else { words::changes::direction(text, None) };
        self.correct(staff, |one| one.change(bar, &printed));
    }

    /// What the reader lets a staff change to with a bar; empty for nothing.
    #[must_use]
    pub fn changed_crook(self, staff: u32, bar: u32) -> String {
        let of =
            |one: &Correction| one.changes.iter().find(|change| change.bar == bar).map(|own| own.to.clone());
        self.corrections
            .with(|all| all.iter().find(|one| one.staff == staff).and_then(of))
            .unwrap_or_default()
    }

    /// What is known of a staff.
    #[must_use]
    pub fn staff_row(self, staff: u32) -> Option<StaffRow> {
        self.open.and_then(|open| {
            let mut staves = open.summary.parts.iter().flat_map(|part| &part.staves);
            staves.find(|own| own.staff == staff).cloned()
        })
    }

    /// Takes back what was corrected last. False where there is nothing to take back.
    pub fn undo(self) -> bool {
        self.take(CorrectingSteps::back)
    }

    /// Corrects again what was taken back last. False where nothing was.
    pub fn redo(self) -> bool {
        self.take(CorrectingSteps::forth)
    }

    fn take(
        self,
        way: impl FnOnce(&mut CorrectingSteps, Vec<Correction>) -> Option<Vec<Correction>>,
    ) -> bool {
        let now = self.corrections.get_untracked();
        let there = self.steps.update(|steps| way(steps, now));
        let is_one = there.is_some();
        if let Some(there) = there {
            self.corrections.set(there);
        }
        is_one
    }

    /// Whether something can be taken back, and made again.
    #[must_use]
    pub fn ways(self) -> (bool, bool) {
        self.steps.with(CorrectingSteps::ways)
    }
}

/// The words for another crook that its file does not heed, and after which a staff plays in a bar.
#[must_use]
pub fn unheeded_before(row: &StaffRow, bar: u32) -> Option<&UnheededRow> {
    let words = row.unheeded.iter().rfind(|words| words.from <= bar)?;
    // Another crook has come since.
    let is_over = row.changes.iter().any(|change| change.bar > words.from && change.bar <= bar);
    (!is_over).then_some(words)
}

/// The crooks that a staff may change to, as print has it, behind what the file does; empty where it changes none.
#[must_use]
pub fn crooks(row: &StaffRow, names: Names) -> Vec<ListItem> {
    let family = decoded(&row.label, None).staves.first().and_then(StaffLabel::crook_family);
    let Some(family) = family else { return Vec::new() };
    let by_file = ListItem::new("", words::movement::AS_THE_FILE);
    core::iter::once(by_file).chain(printed_crooks(family, names)).collect()
}

/// How a staff is as its file has it again: its label and its reading.
pub fn as_by_file(correction: &mut Correction) {
    correction.label = None;
    correction.reads = Reads::AsGiven;
}

/// How a staff is corrected by a label: nothing where it is the file's own.
pub fn by_label(correction: &mut Correction, row: &StaffRow, label: &str) {
    let label = label.trim();
    correction.label = (label != row.label_by_file && !label.is_empty()).then(|| label.to_owned());
    correction.reads = Reads::AsGiven;
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::movement::{ComesFrom, OpenMovement};
    use crookwise_opened::{StaffChangeRow, Summary};
    use leptos::prelude::Owner;

    fn open() -> OpenMovement {
        OpenMovement { source: ComesFrom::Demo, file: String::new(), summary: Summary::default() }
    }

    fn movement() -> (Owner, Movement) {
        let owner = Owner::new();
        owner.set();
        let movement = Movement::new();
        movement.show(open(), Vec::new(), None);
        (owner, movement)
    }

    #[test]
    fn what_was_corrected_is_taken_back_step_by_step_and_made_again() {
        let (_owner, movement) = movement();
        assert_eq!((movement.ways(), movement.undo()), ((false, false), false));
        movement.correct(1, |one| one.label = Some("Corni in Es".into()));
        movement.correct(1, |one| one.old_bass = true);
        // What changes nothing is no step.
        movement.correct(3, |one| one.old_bass = false);
        let all = movement.corrections.get();
        assert!(movement.undo());
        assert_eq!(Correction::write(&movement.corrections.get()), "staff=1&label=Corni+in+Es");
        assert!(movement.undo());
        assert_eq!((movement.corrections.get(), movement.ways()), (Vec::new(), (false, true)));
        assert!(movement.redo() && movement.redo());
        assert_eq!((movement.corrections.get(), movement.ways()), (all, (true, false)));
        // A new step leaves no way forth, another movement none at all.
        movement.undo();
        movement.correct(2, |one| one.old_bass = true);
        assert_eq!(movement.ways(), (true, false));
        movement.show(open(), Vec::new(), None);
        assert_eq!(movement.ways(), (false, false));
    }

    #[test]
    fn the_file_has_its_own_label_back_and_old_notation_stays() {
        let (_owner, movement) = movement();
        let label = Some("Corni in Es".to_owned());
        let usual =
            Correction { staff: 3, label, reads: Reads::Usual, old_bass: true, ..Correction::default() };
        movement.correct(3, |one| *one = usual);
        movement.correct(3, as_by_file);
        let one = Correction { staff: 3, old_bass: true, ..Correction::default() };
        assert_eq!(movement.corrections.get(), [one]);
    }

    #[test]
    fn a_correction_that_is_taken_back_is_none() {
        let (_owner, movement) = movement();
        let row = StaffRow { label_by_file: "Corni in D".into(), ..StaffRow::default() };
        movement.correct(3, |one| by_label(one, &row, " Corni in Es "));
        assert_eq!(movement.corrections.get()[0].label.as_deref(), Some("Corni in Es"));
        movement.correct(3, |one| by_label(one, &row, "Corni in D"));
        assert!(movement.corrections.get().is_empty());
    }

    #[test]
    fn a_crook_changes_with_a_bar_and_no_longer() {
        let (_owner, movement) = movement();
        movement.change_crook(1, 11, " D ");
        movement.change_crook(1, 4, "Corno in G");
        assert_eq!(
            Correction::write(&movement.corrections.get()),
            "staff=1&from=4&to=Corno+in+G&from=11&to=muta+in+D"
        );
        assert_eq!(
            (movement.changed_crook(1, 11), movement.changed_crook(2, 11)),
            ("muta in D".into(), String::new())
        );
        movement.change_crook(1, 11, "in E");
        assert_eq!(movement.changed_crook(1, 11), "muta in E");
        // As the file has it, step by step and back.
        movement.change_crook(1, 11, "");
        movement.change_crook(1, 4, "");
        assert!(movement.corrections.get().is_empty());
        assert!(movement.undo() && movement.undo());
        assert_eq!(movement.changed_crook(1, 11), "muta in E");
    }

    #[test]
    fn the_crooks_of_horn_or_trumpet_are_offered() {
        let row = |label: &str| StaffRow { label: label.into(), ..StaffRow::default() };
        let all = crooks(&row("Corno I in F"), Names::default());
        assert_eq!((all[0].value.as_str(), all[0].text.as_str()), ("", words::movement::AS_THE_FILE));
        assert!(all.iter().any(|item| item.value == "muta in D" && item.text == "D"), "{all:?}");
        assert!(crooks(&row("Clarinetto in B"), Names::default()).is_empty());
        assert!(crooks(&row("Xyzzyq"), Names::default()).is_empty());
    }

    #[test]
    fn words_that_are_not_heeded_stand_beside_the_notes_after_them() {
        let words = |from: u32| UnheededRow { bar: from - 1, from, words: format!("muta {from}") };
        let change = StaffChangeRow { bar: 20, ..StaffChangeRow::default() };
        let row =
            StaffRow { unheeded: vec![words(4), words(9)], changes: vec![change], ..StaffRow::default() };
        let beside = |bar| unheeded_before(&row, bar).map(|words| words.from);
        assert_eq!([beside(3), beside(4), beside(8), beside(15)], [None, Some(4), Some(4), Some(9)]);
        assert_eq!(beside(20), None, "another crook has come since");
    }
}
