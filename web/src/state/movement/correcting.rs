//! What the reader corrects in a movement: the label of a staff, its reading, its notation; step by step, and back.

use super::{CorrectingSteps, Movement};
use crookwise_opened::{Correction, Reads, StaffRow};

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
    use crookwise_opened::Summary;
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
        movement.correct(3, |one| *one = Correction { staff: 3, label, reads: Reads::Usual, old_bass: true });
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
}
