//! What the reader has made: the page of Read with its history. Plain data, changed by named actions only; those on
//! the staff stand in `staff`, those on its notes in `notes`, those on the order of staves in `margin`,
//! those on what changes in the course of a staff in `changes`.

mod changes;
mod margin;
mod notes;
mod staff;

use crate::state::steps::Steps;
use crate::state::view::resolved;
use crookwise_score::PassageError;
use crookwise_share::ReadPage;
use crookwise_theory::Clef;
use std::sync::Arc;

/// Steps that can be undone.
const MEMORY: usize = 200;

/// The page and how it came about.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    page: Arc<ReadPage>,
    steps: Steps<Arc<ReadPage>, MEMORY>,
    /// Whether the last step was typing in the label: more typing belongs to the same step.
    typing: bool,
    /// Counts the changes the reader made, so that only those are saved.
    changes: u64,
}

impl Document {
    /// A document that begins with a page.
    #[must_use]
    pub fn new(page: ReadPage) -> Self {
        Self { page: Arc::new(page), steps: Steps::default(), typing: false, changes: 0 }
    }

    /// The page as it stands.
    #[must_use]
    pub fn page(&self) -> &Arc<ReadPage> {
        &self.page
    }

    /// How many changes the reader has made since the document was opened.
    #[must_use]
    pub const fn changes(&self) -> u64 {
        self.changes
    }

    /// Whether there is something to undo.
    #[must_use]
    pub fn can_undo(&self) -> bool {
        self.steps.ways().0
    }

    /// Whether there is something to redo.
    #[must_use]
    pub fn can_redo(&self) -> bool {
        self.steps.ways().1
    }

    /// Takes back the last step.
    pub fn undo(&mut self) {
        let before = self.steps.back(Arc::clone(&self.page));
        self.go(before);
    }

    /// Does the step again that was taken back last.
    pub fn redo(&mut self) {
        let after = self.steps.forth(Arc::clone(&self.page));
        self.go(after);
    }

    fn go(&mut self, there: Option<Arc<ReadPage>>) {
        if let Some(page) = there {
            self.page = page;
            self.after_step();
        }
    }

    fn after_step(&mut self) {
        self.typing = false;
        self.changes += 1;
    }

    /// Puts another page in place of this one; it can be undone. Nothing of that page is the reader's own yet.
    pub fn open(&mut self, page: ReadPage) {
        self.set(|here| *here = page);
        self.changes = 0;
    }

    /// One step that can be undone; nothing happens where it fails or changes nothing.
    fn step(
        &mut self,
        change: impl FnOnce(&mut ReadPage) -> Result<(), PassageError>,
    ) -> Result<(), PassageError> {
        let mut page = ReadPage::clone(&self.page);
        change(&mut page)?;
        if page != *self.page {
            self.steps.made(core::mem::replace(&mut self.page, Arc::new(page)));
            self.after_step();
        }
        Ok(())
    }

    /// A step that cannot fail.
    fn set(&mut self, change: impl FnOnce(&mut ReadPage)) {
        self.step(|page| {
            change(page);
            Ok(())
        })
        .unwrap_or_default();
    }

    fn set_staff(&mut self, change: impl FnOnce(&mut crookwise_score::Staff)) {
        self.set(|page| {
            if let Some(staff) = page.passage.staff_mut(page.staff) {
                change(staff);
            }
        });
    }

    /// Clef and signature of the staff in a column, the treble clef and none where its label is not understood.
    fn head_at(&self, column: usize) -> (Clef, crookwise_theory::Signature) {
        resolved(&self.page, self.page.staff)
            .place_at(column, self.page.player)
            .map_or((Clef::TREBLE, crookwise_theory::Signature::NONE), |place| {
                (place.habits.clef, place.signature)
            })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_score::Event;
    use crookwise_theory::{Printed, Step};

    fn document(label: &str, notes: &str) -> Document {
        let mut document = Document::new(ReadPage::of_label(label));
        for name in notes.split_whitespace() {
            document.enter_note(Printed(name.parse().unwrap())).unwrap();
        }
        document
    }

    fn notes(document: &Document) -> String {
        let passage = &document.page().passage;
        let word = |column| match passage.event(0, column, 0) {
            Some(Event::Note(printed)) => printed.to_string(),
            Some(Event::Held) => "_".into(),
            _ => "-".into(),
        };
        (0..passage.columns().len()).map(word).collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn what_the_example_says_of_itself_goes_with_its_label() {
        let mut document = Document::new(crate::state::start::page());
        let (notes, selected) =
            (document.page().passage.staves()[0].cells().to_vec(), document.page().selected);
        document.type_label("Corni in D");
        let page = document.page();
        assert_eq!((page.passage.movement, page.in_hand.clone()), (None, None));
        assert_eq!(page.intonation, crookwise_theory::Intonation::default());
        assert_eq!((page.passage.staves()[0].cells(), page.selected), (notes.as_slice(), selected));
        // What the reader has set on a page stays under another label.
        document.set_movement("D major".parse().ok());
        document.type_label("Corni in E");
        assert!(document.page().passage.movement.is_some());
    }

    #[test]
    fn notes_are_entered_behind_the_selected_one() {
        let mut document = document("Corni in Es", "C4 G4");
        document.select(Some(0));
        document.enter_note(Printed("E4".parse().unwrap())).unwrap();
        document.hold().unwrap();
        document.rest().unwrap();
        assert_eq!(notes(&document), "C4 E4 _ - G4");
        assert_eq!(document.page().selected, Some(3));
    }

    #[test]
    fn holding_before_a_held_column_keeps_the_note() {
        let held = || {
            let mut document = document("Corni in Es", "C4");
            document.hold().unwrap();
            document.select(Some(0));
            document
        };
        let mut longer = held();
        longer.hold().unwrap();
        assert_eq!(notes(&longer), "C4 _ _");
        let mut cut = held();
        cut.enter_note(Printed("G4".parse().unwrap())).unwrap();
        assert_eq!(notes(&cut), "C4 G4 -");
    }

    #[test]
    fn letters_take_the_nearest_octave_and_the_signature() {
        let mut document = document("Clarinetto in B", "G4");
        document.set_movement(Some("F major".parse().unwrap()));
        for letter in ['C', 'F', 'A', 'D'] {
            document.enter_letter(Step::from_letter(letter).unwrap()).unwrap();
        }
        // F major on a clarinet in B-flat is written with one sharp.
        assert_eq!(notes(&document), "G4 C5 F#5 A5 D6");
    }

    #[test]
    fn undo_and_redo_go_through_every_step() {
        let mut document = document("Corni in Es", "C4");
        document.alter_by(1);
        document.move_by(2);
        document.move_octaves(1);
        assert_eq!(notes(&document), "E5");
        document.undo();
        document.undo();
        assert_eq!(notes(&document), "C#4");
        document.redo();
        assert_eq!(notes(&document), "E4");
        while document.can_undo() {
            document.undo();
        }
        assert_eq!(notes(&document), "");
        while document.can_redo() {
            document.redo();
        }
        assert_eq!(notes(&document), "E5");
    }

    #[test]
    fn typing_is_one_step() {
        let mut document = document("Corni in Es", "");
        for end in 1..=5 {
            document.type_label(&"Trompete in H"[..end]);
        }
        document.finish_typing();
        document.type_label("Tromp.");
        document.undo();
        assert_eq!(document.page().passage.staves()[0].label, "Tromp");
        document.undo();
        assert_eq!(document.page().passage.staves()[0].label, "Corni in Es");
    }

    #[test]
    fn a_label_that_counts_sets_the_players_and_takes_nobodys_notes() {
        let mut document = document("Corni in Es", "C4 E4");
        let players = |document: &Document| document.page().passage.staves()[0].players();
        for label in ["2", "2 Corni in Es"] {
            document.type_label(label);
        }
        assert_eq!(players(&document), 1);
        document.finish_typing();
        assert_eq!(players(&document), 2);
        // Typing and what follows from it are one step.
        document.undo();
        assert_eq!((players(&document), document.can_undo()), (1, true));
        document.redo();
        document.set_label("Corni I. II. in Es, III. IV. in C");
        assert_eq!(players(&document), 4);
        // What the label named goes with the label.
        document.set_label("Corni in Es");
        assert_eq!(players(&document), 1);
        document.undo();
        assert_eq!(players(&document), 4);
        document.select_on(0, 2, Some(0));
        document.set_label("Corno 1 in F");
        assert_eq!((players(&document), document.page().player), (1, 0));
        document.set_players(2).unwrap();
        document.select_on(0, 1, Some(0));
        document.place(0, 0, Printed("G4".parse().unwrap())).unwrap();
        // The second player has a note of his own now.
        document.set_label("Corno 1 in Es");
        assert_eq!(players(&document), 2);
        document.set_label("Corni in F");
        assert_eq!(players(&document), 2);
    }

    #[test]
    fn removing_selects_the_one_before() {
        let mut document = document("Corni in Es", "C4 E4 G4");
        document.remove();
        assert_eq!((notes(&document).as_str(), document.page().selected), ("C4 E4", Some(1)));
        document.remove();
        document.remove();
        document.remove();
        assert_eq!((notes(&document).as_str(), document.page().selected), ("", None));
    }

    #[test]
    fn a_step_that_fails_changes_nothing() {
        let mut document = document("Corni in Es", "");
        assert_eq!(document.hold(), Err(PassageError::NothingToHold));
        assert!(!document.can_undo());
        assert_eq!(document.place(0, 3, Printed("C4".parse().unwrap())), Err(PassageError::Nowhere));
    }

    #[test]
    fn entered_notes_stay_within_reach() {
        let mut document = document("Corni in Es", "C8");
        document.move_octaves(40);
        for _ in 0..9 {
            document.alter_by(1);
        }
        assert_eq!(notes(&document), "C###8");
    }

    #[test]
    fn selection_is_no_step_and_stays_inside() {
        let mut document = document("Corni in Es", "C4 E4");
        let steps = document.changes();
        document.select_by(-5);
        assert_eq!(document.page().selected, Some(0));
        document.select_by(9);
        assert_eq!(document.page().selected, Some(1));
        document.select(Some(7));
        assert_eq!(document.page().selected, None);
        assert_eq!(document.changes(), steps);
    }

    #[test]
    fn a_page_that_was_opened_is_the_readers_own_only_when_changed() {
        let mut document = document("Corni in Es", "C4");
        document.open(ReadPage::of_label("Trombe in D"));
        assert_eq!((document.changes(), document.can_undo()), (0, true));
        document.undo();
        assert_eq!((document.changes(), notes(&document).as_str()), (1, "C4"));
    }

    #[test]
    fn no_label_is_longer_than_a_link_takes() {
        let mut document = document("Corni in Es", "C4");
        document.set_label(&"Ω".repeat(10_000));
        let link = crookwise_share::Link::Read(Box::new(ReadPage::clone(document.page())));
        assert_eq!(crookwise_share::Link::decode(&link.encode()), Ok(Some(link)));
    }
}
