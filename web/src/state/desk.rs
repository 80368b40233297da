//! The desk: the page the reader has made and everything it means, with named actions.

use crate::state::document::Document;
use crate::state::kept::{Derived, Watched};
use crate::state::keys::{self, Focus, KeyAction};
use crate::state::ladder::Ladder;
use crate::state::notices::Notices;
use crate::state::start;
use crate::state::store::desk::same;
use crate::state::view::{PageView, View};
use crate::words::Names;
use crookwise_score::{MOST_COLUMNS, PassageError};
use crookwise_share::{Link, ReadPage};
use crookwise_theory::{Printed, StaffPosition, Written};
use leptos::prelude::*;
use std::sync::Arc;

/// Handles on the page and what follows from it; copy it where it is needed.
#[derive(Clone, Copy, Debug)]
pub struct Desk {
    document: Watched<Document>,
    notices: Notices,
    kept: Watched<Option<(String, ReadPage)>>,
    /// The page as it stands.
    pub page: Derived<ReadPage>,
    /// What all its staves mean.
    pub whole: Derived<PageView>,
    /// What the selected player of the selected staff reads.
    pub view: Derived<View>,
    /// The series of the crook.
    pub ladder: Derived<Option<Ladder>>,
    /// Whether the page is still the one everybody begins with.
    pub untouched: Derived<bool>,
    /// Whether a staff among several is being named above the page.
    pub setting_up: Watched<bool>,
    /// Whether the labels of several staves stand beside them, where they are edited in place.
    pub beside: Watched<bool>,
    /// How many staves the reader has added: the label of the last waits to be typed.
    pub added: Watched<usize>,
}

impl Desk {
    /// A desk with this page on it.
    #[must_use]
    pub fn new(page: ReadPage, names: Watched<Names>, notices: Notices) -> Self {
        let document = Watched::new(Document::new(page));
        let page = Derived::shared(move || document.with(|document| Arc::clone(document.page())));
        let whole = Derived::new(move || PageView::of(&page.read(), names.get()));
        let view = Derived::new(move || whole.with(PageView::current));
        Self {
            document,
            notices,
            kept: Watched::new(None),
            page,
            whole,
            view,
            ladder: Derived::new(move || Ladder::of(&view.read(), &page.read().intonation)),
            untouched: Derived::new(move || page.read().passage == start::page().passage),
            setting_up: Watched::new(false),
            beside: Watched::new(false),
            added: Watched::new(0),
        }
    }

    /// The document, to look at.
    #[must_use]
    pub fn document(self) -> Arc<Document> {
        self.document.read()
    }

    /// Changes the document by one of its named actions.
    pub fn act(self, action: impl FnOnce(&mut Document)) {
        let mut document = self.document.get_untracked();
        action(&mut document);
        self.document.set(document);
    }

    /// The same for an action that may fail: the reason becomes the notice.
    pub fn attempt(self, action: impl FnOnce(&mut Document) -> Result<(), PassageError>) {
        let mut document = self.document.get_untracked();
        let outcome = action(&mut document);
        self.document.set(document);
        self.notices.show(outcome.err().map(|error| error.to_string()));
    }

    /// Whether a note is selected.
    #[must_use]
    pub fn has_note(self) -> bool {
        self.view.read().selected_column().is_some_and(|column| column.printed.is_some())
    }

    /// Whether there is room for another column.
    #[must_use]
    pub fn has_room(self) -> bool {
        self.view.read().columns.len() < MOST_COLUMNS
    }

    /// Adds a staff: it needs a label, which is typed where it stands.
    pub fn add_staff(self) {
        self.attempt(|document| document.add_staff(""));
        self.setting_up.set(!self.beside.get_untracked());
        self.added.update(|added| *added += 1);
    }

    /// The label of the selected staff is finished: goes on to the next staff, and behind the last one that has a label
    /// adds another.
    pub fn next_label(self) {
        self.act(Document::finish_typing);
        let whole = self.whole.read_untracked();
        if whole.staff + 1 < whole.staves.len() {
            self.select_staff_by(1);
        } else if whole.staves.get(whole.staff).is_some_and(|staff| !staff.label.is_empty()) {
            self.add_staff();
        }
    }

    /// The cell under the selected one, which a letter is for then: of the next player or staff, below the last one the
    /// next column of the first. `None` where the focus is elsewhere, or one player has the page to himself.
    #[must_use]
    pub fn below(self, focus: Option<Focus>) -> Option<String> {
        let whole = self.whole.read_untracked();
        let (staff, player, column) = focus.filter(|_| !whole.is_alone())?;
        let column = column.filter(|&column| untrack(|| self.is_selected((staff, player, Some(column)))))?;
        let players = whole.staves.get(staff)?.players.len();
        let (staff, player, column) = match (player + 1 < players, staff + 1 < whole.staves.len()) {
            (true, _) => (staff, player + 1, column),
            (false, true) => (staff + 1, 0, column),
            (false, false) => (0, 0, column + 1),
        };
        Some(keys::id((staff, player, Some(column).filter(|&column| column < whole.columns()))))
    }

    /// Whether the label and the settings of the selected staff stand above the page: always for a single staff, and
    /// for a new one while it is named, unless that is done beside the staff.
    #[must_use]
    pub fn shows_setup(self) -> bool {
        let whole = self.whole.read();
        let labelled = whole.staves.get(whole.staff).is_some_and(|staff| !staff.label.is_empty());
        whole.staves.len() < 2 || self.setting_up.get() || (!labelled && !self.beside.get())
    }

    /// What the address says of the page: all of it, or where that is too long, the name under which it is kept, or only
    /// that it lies here.
    #[must_use]
    pub fn address(self) -> String {
        let page = self.page.read();
        self.link().short().unwrap_or_else(|| {
            let kept = self.kept.and_then(|(name, kept)| same(kept, &page).then(|| name.clone()));
            kept.map_or_else(|| Link::READ.to_owned(), |name| Link::Kept(name).encode())
        })
    }

    /// Remembers that the page as it now stands is kept under a name.
    pub fn is_kept_as(self, name: &str) {
        let kept = (!name.is_empty()).then(|| (name.to_owned(), self.page.get_untracked()));
        self.kept.set(kept);
    }

    /// Remembers that no page is kept under a name any more.
    pub fn is_not_kept_as(self, name: &str) {
        if self.kept.with_untracked(|kept| kept.as_ref().is_some_and(|(known, _)| known == name)) {
            self.kept.set(None);
        }
    }

    /// The link to the page.
    #[must_use]
    pub fn link(self) -> Link {
        Link::Read(Box::new(self.page.get()))
    }

    /// Whether nobody has made anything here yet: the page everybody begins with, as it came.
    #[must_use]
    pub fn is_bare(self) -> bool {
        self.untouched.get() && self.document.with(|document| document.changes() == 0)
    }

    /// Puts a page on the desk, unless it lies there already.
    pub fn show(self, page: ReadPage) {
        if *self.page.read_untracked() != page {
            self.act(|document| document.open(page));
        }
    }

    /// Enters a written note behind the selected one, as the staff prints it.
    pub fn enter_written(self, written: Written) {
        let view = self.view.read_untracked();
        let printed = view.here().map_or(Printed(written.0), |place| place.notation().printed(written));
        self.attempt(|document| document.enter_note(printed));
    }

    /// Enters a note in the middle of a staff behind the last column, to be moved from there.
    pub fn add_note(self, staff: usize, player: usize) {
        let whole = self.whole.read_untracked();
        let view = whole.voice(staff, player).cloned().unwrap_or_default();
        let last = whole.columns().checked_sub(1);
        let (printed, _) = view.try_place(&self.page.read_untracked(), last.unwrap_or(0), StaffPosition(4));
        self.attempt(|document| {
            document.select_on(staff, player, last);
            document.enter_note(printed)
        });
    }

    /// The element that stands for what is selected: a note, or the place of the next one.
    #[must_use]
    pub fn selected_element(self) -> String {
        let whole = self.whole.read_untracked();
        keys::id((whole.staff, whole.player, self.view.read_untracked().selected))
    }

    /// Selects the staff so many places further down.
    pub fn select_staff_by(self, places: isize) {
        let whole = self.whole.read_untracked();
        let column = self.view.read_untracked().selected;
        if let Some(staff) =
            whole.staff.checked_add_signed(places).filter(|&staff| staff < whole.staves.len())
        {
            self.act(|document| document.select_on(staff, 0, column));
        }
    }

    /// Does what a key asks for that is pressed on a cell of the sheet, or on the sheet itself. A cell that has the
    /// focus is the one it works on, also where another is selected.
    pub fn key(self, action: KeyAction, focus: Option<Focus>) {
        if let Some(focus) = focus.filter(|&focus| untrack(|| !self.is_selected(focus))) {
            self.select_for(action, focus);
        }
        match action {
            KeyAction::Enter(step) => self.attempt(|document| document.enter_letter(step)),
            KeyAction::EnterAltered(step, alter) => self.attempt(|document| {
                document.enter_letter(step)?;
                document.set_alteration(alter);
                Ok(())
            }),
            KeyAction::Rest => self.attempt(Document::rest),
            KeyAction::Select(places) => self.act(|document| document.select_by(places)),
            KeyAction::SelectStaff(places) => self.select_staff_by(places),
            KeyAction::Move(letters) => self.act(|document| document.move_by(letters)),
            KeyAction::Octave(octaves) => self.act(|document| document.move_octaves(octaves)),
            KeyAction::Alter(semitones) => self.act(|document| document.alter_by(semitones)),
            KeyAction::Remove => self.act(Document::remove),
            KeyAction::Undo => self.act(Document::undo),
            KeyAction::Redo => self.act(Document::redo),
        }
    }

    /// Whether this cell is the selected one. Behind the last column, the place of the next note goes with the player.
    fn is_selected(self, (staff, player, column): Focus) -> bool {
        let whole = self.whole.read();
        let selected = self.view.read().selected;
        whole.staff == staff && whole.player == player && (column.is_none() || column == selected)
    }

    /// Selects what an action needs to work on a cell: a letter goes into it, so what is before it is selected.
    fn select_for(self, action: KeyAction, (staff, player, column): Focus) {
        let here = column.or_else(|| self.whole.read_untracked().columns().checked_sub(1));
        let column = match (action, column) {
            (KeyAction::Undo | KeyAction::Redo, _) => return,
            (KeyAction::Enter(_) | KeyAction::EnterAltered(..) | KeyAction::Rest, Some(column)) => {
                column.checked_sub(1)
            }
            _ => here,
        };
        self.act(|document| document.select_on(staff, player, column));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_theory::{Clef, Step};

    fn desk() -> (Owner, Desk) {
        let owner = Owner::new();
        owner.set();
        let names = Watched::new(Names::default());
        (owner, Desk::new(ReadPage::of_label("Corni in Es"), names, Notices::new(None)))
    }

    #[test]
    fn a_key_works_on_the_cell_that_has_the_focus() {
        let (_owner, desk) = desk();
        let letter = |letter| KeyAction::Enter(Step::from_letter(letter).unwrap());
        desk.act(|document| document.set_players(2).unwrap());
        desk.key(letter('C'), None);
        desk.key(letter('D'), None);
        let notes = |player| {
            let whole = desk.whole.read_untracked();
            let columns = &whole.voice(0, player).unwrap().columns;
            let note = |column: &crate::state::view::ColumnView| {
                column.printed.map_or("-".to_owned(), |printed| printed.to_string())
            };
            columns.iter().map(note).collect::<Vec<_>>().join(" ")
        };
        // The second player's first column, which no other key reaches.
        desk.key(letter('G'), Some((0, 1, Some(0))));
        desk.key(letter('A'), Some((0, 1, Some(0))));
        assert_eq!((notes(0), notes(1)), ("C5 D5".into(), "G4 A4".into()));
        desk.key(KeyAction::Move(1), Some((0, 0, Some(0))));
        assert_eq!((notes(0), notes(1)), ("D5 D5".into(), "G4 A4".into()));
        desk.key(letter('E'), Some((0, 1, None)));
        assert_eq!((notes(0), notes(1)), ("D5 D5 -".into(), "G4 A4 E4".into()));
        desk.key(KeyAction::Undo, Some((0, 0, Some(0))));
        assert_eq!((notes(0), notes(1)), ("D5 D5".into(), "G4 A4".into()));
    }

    #[test]
    fn a_column_is_entered_downwards_through_all_players() {
        let (_owner, desk) = desk();
        let letter = |letter| KeyAction::Enter(Step::from_letter(letter).unwrap());
        desk.act(|document| document.set_players(2).unwrap());
        desk.attempt(|document| document.add_staff("Viole"));
        desk.act(|document| document.select_on(0, 0, None));
        let mut focus = Some((0, 0, None));
        for key in ['C', 'G', 'E', 'D', 'A', 'F'] {
            assert_eq!(desk.below(focus), None, "{key} is not entered yet");
            desk.key(letter(key), focus);
            let below = desk.below(keys::cell(&desk.selected_element())).unwrap();
            focus = keys::cell(&below);
        }
        assert_eq!(focus, Some((0, 0, None)));
        let whole = desk.whole.read_untracked();
        let notes = |staff, player| {
            let columns = &whole.voice(staff, player).unwrap().columns;
            columns.iter().map(|column| column.printed.unwrap().0.step).collect::<Vec<_>>()
        };
        assert_eq!((notes(0, 0), notes(0, 1)), (vec![Step::C, Step::D], vec![Step::G, Step::A]));
        assert_eq!(notes(1, 0), [Step::E, Step::F]);
        // A rest goes where a letter would.
        desk.key(KeyAction::Rest, Some((0, 1, Some(0))));
        assert!(desk.whole.read_untracked().voice(0, 1).unwrap().columns[0].printed.is_none());
    }

    #[test]
    fn labels_are_typed_one_after_the_other_beside_their_staves() {
        let (_owner, desk) = desk();
        desk.beside.set(true);
        let labels = || {
            let page = desk.page.read();
            page.passage.staves().iter().map(|staff| staff.label.clone()).collect::<Vec<_>>().join("|")
        };
        for label in ["Flauti", "Oboi", "2 Corni in Es"] {
            desk.next_label();
            assert!(!desk.shows_setup(), "its label stands beside it");
            desk.act(|document| document.type_label(label));
        }
        assert_eq!(labels(), "Corni in Es|Flauti|Oboi|2 Corni in Es");
        desk.next_label();
        assert_eq!((labels().as_str(), desk.added.get()), ("Corni in Es|Flauti|Oboi|2 Corni in Es|", 4));
        assert_eq!(desk.whole.read().staves[3].players.len(), 2);
        // One without a label is enough.
        desk.next_label();
        assert_eq!(desk.added.get(), 4);
        desk.act(|document| document.select_on(0, 0, None));
        desk.next_label();
        assert_eq!(desk.whole.read().staff, 1);
    }

    #[test]
    fn a_rung_enters_its_note_as_the_staff_prints_it() {
        let (_owner, desk) = desk();
        desk.act(|document| document.set_clef(Clef::BASS));
        desk.enter_written(Written("C4".parse().unwrap()));
        let view = desk.view.read();
        assert_eq!(view.columns[0].printed, Some(Printed("C3".parse().unwrap())));
        assert_eq!(view.columns[0].reading.unwrap().sounding.to_string(), "Eb3");
    }
}
