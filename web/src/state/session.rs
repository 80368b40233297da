//! The one handle on everything the reader has made and sees: signals and named actions.

use crate::state::document::Document;
use crate::state::gesture::Gesture;
use crate::state::keys::KeyAction;
use crate::state::ladder::Ladder;
use crate::state::score_sheet::{Room, Sheet};
use crate::state::view::View;
use crookwise_score::PassageError;
use crookwise_share::{Link, ReadPage};
use crookwise_theory::{Printed, Written};
use leptos::prelude::*;
use std::sync::Arc;

/// Handles on the state; copy it where it is needed.
#[derive(Clone, Copy, Debug)]
pub struct Session {
    document: RwSignal<Document>,
    /// The page as it stands.
    pub page: Memo<Arc<ReadPage>>,
    /// What it means.
    pub view: Memo<Arc<View>>,
    /// How it is laid on the screen.
    pub sheet: Memo<Arc<Sheet>>,
    /// The series of the crook.
    pub ladder: Memo<Option<Ladder>>,
    /// The note under the finger, not let go yet.
    pub gesture: RwSignal<Option<Gesture>>,
    /// A sentence about something that could not be done.
    pub notice: RwSignal<Option<String>>,
    /// Whether the page is still the one everybody begins with.
    pub untouched: Memo<bool>,
    room: RwSignal<Room>,
}

impl Session {
    /// A session that begins with a page.
    #[must_use]
    pub fn new(page: ReadPage, notice: Option<String>, room: Room) -> Self {
        let start = crate::state::start::page();
        let document = RwSignal::new(Document::new(page));
        let page = Memo::new(move |_| Arc::clone(document.read().page()));
        let empty = View::of(&start);
        let view =
            Memo::new(move |before: Option<&Arc<View>>| match (View::of(&page.read()), before, &empty) {
                (Some(view), _, _) => Arc::new(view),
                (None, Some(before), _) => Arc::clone(before),
                (None, None, Some(empty)) => Arc::new(empty.clone()),
                // A page has a staff; the start page has one too.
                (None, None, None) => unreachable_view(),
            });
        let room = RwSignal::new(room);
        let sheet = Memo::new(move |_| Arc::new(Sheet::of(&view.read(), room.get())));
        let ladder = Memo::new(move |_| Ladder::of(&view.read(), &page.read().intonation));
        let untouched = Memo::new(move |_| page.read().passage == start.passage);
        Self {
            document,
            page,
            view,
            sheet,
            ladder,
            gesture: RwSignal::new(None),
            notice: RwSignal::new(notice),
            untouched,
            room,
        }
    }

    /// The session of this page.
    ///
    /// # Panics
    /// Never in the app, which provides it before anything else is made.
    #[must_use]
    #[expect(clippy::expect_used, reason = "the app provides the session before it makes any component")]
    pub fn get() -> Self {
        use_context::<Self>().expect("the app provides the session")
    }

    /// Changes the document by one of its named actions.
    pub fn act(self, action: impl FnOnce(&mut Document)) {
        self.document.update(action);
    }

    /// The same for an action that may fail: the reason becomes the notice.
    pub fn attempt(self, action: impl FnOnce(&mut Document) -> Result<(), PassageError>) {
        let mut outcome = Ok(());
        self.document.update(|document| outcome = action(document));
        self.notice.set(outcome.err().map(|error| error.to_string()));
    }

    /// Whether there is something to undo.
    #[must_use]
    pub fn can_undo(self) -> bool {
        self.document.read().can_undo()
    }

    /// Whether there is something to redo.
    #[must_use]
    pub fn can_redo(self) -> bool {
        self.document.read().can_redo()
    }

    /// How many changes the reader has made here.
    #[must_use]
    pub fn changes(self) -> u64 {
        self.document.read().changes()
    }

    /// The link to the page, without the address of the app.
    #[must_use]
    pub fn link(self) -> String {
        Link::Read(Box::new(ReadPage::clone(&self.page.read()))).encode()
    }

    /// Opens a link; a damaged one becomes a sentence and nothing is changed.
    pub fn open_link(self, text: &str) {
        match Link::decode(text) {
            Ok(Some(Link::Read(page))) => {
                self.notice.set(None);
                self.act(|document| document.open(*page));
            }
            Ok(None) => {}
            Err(error) => self.notice.set(Some(error.to_string())),
        }
    }

    /// The sheet has so much room now.
    pub fn set_room(self, room: Room) {
        if self.room.get_untracked() != room {
            self.room.set(room);
        }
    }

    /// The note of a gesture and what it would sound.
    #[must_use]
    pub fn tried(self, gesture: Gesture) -> (Printed, Option<crookwise_theory::Reading>) {
        let view = self.view.read();
        let standing = view.columns.get(gesture.column).filter(|_| gesture.still_there);
        match standing.and_then(|column| column.printed) {
            Some(printed) => (printed, standing.and_then(|column| column.reading)),
            None => view.try_place(&self.page.read(), gesture.place),
        }
    }

    /// The finger lets go: the note is placed, or the one it held is selected.
    pub fn let_go(self) {
        let Some(gesture) = self.gesture.get_untracked() else { return };
        self.gesture.set(None);
        if gesture.still_there {
            self.act(|document| document.select(Some(gesture.column)));
        } else {
            let (printed, _) = untrack(|| self.tried(gesture));
            self.attempt(|document| document.place(gesture.column, printed));
        }
    }

    /// Enters a written note behind the selected one, as the staff prints it.
    pub fn enter_written(self, written: Written) {
        let printed = untrack(|| {
            self.view
                .read()
                .place
                .as_ref()
                .map_or(Printed(written.0), |place| place.notation().printed(written))
        });
        self.attempt(|document| document.enter_note(printed));
    }

    /// Enters a note in the middle of the staff, to be moved from there.
    pub fn add_note(self) {
        let (printed, _) =
            untrack(|| self.view.read().try_place(&self.page.read(), crookwise_theory::StaffPosition(4)));
        self.act(|document| document.select(document.page().passage.columns().len().checked_sub(1)));
        self.attempt(|document| document.enter_note(printed));
    }

    /// Does what a key asks for.
    pub fn key(self, action: KeyAction) {
        match action {
            KeyAction::Enter(step) => self.attempt(|document| document.enter_letter(step)),
            KeyAction::Select(places) => self.act(|document| document.select_by(places)),
            KeyAction::Move(letters) => self.act(|document| document.move_by(letters)),
            KeyAction::Octave(octaves) => self.act(|document| document.move_octaves(octaves)),
            KeyAction::Alter(semitones) => self.act(|document| document.alter_by(semitones)),
            KeyAction::Remove => self.act(Document::remove),
            KeyAction::Undo => self.act(Document::undo),
            KeyAction::Redo => self.act(Document::redo),
        }
    }
}

/// A view of a staff without a label.
fn unreachable_view() -> Arc<View> {
    let page = ReadPage::of_label("");
    let staff = crookwise_score::ResolvedStaff::of(&page.passage.staves()[0], Default::default());
    Arc::new(View { staff, place: None, columns: Vec::new(), in_hand: None, selected: None })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::gesture::Pointer;
    use crookwise_theory::StaffPosition;

    fn session() -> (Owner, Session) {
        let owner = Owner::new();
        owner.set();
        let session = Session::new(ReadPage::of_label("Corni in Es"), None, Room { width: 700.0 });
        (owner, session)
    }

    #[test]
    fn a_gesture_shows_what_would_sound_and_places_it() {
        let (_owner, session) = session();
        let reach = session.view.read().reach();
        let gesture = Gesture::begin(Pointer::Exact, 0, StaffPosition(7), None, 10.0, reach);
        session.gesture.set(Some(gesture));
        let (printed, reading) = session.tried(gesture);
        assert_eq!(printed.to_string(), "E5");
        assert_eq!(reading.unwrap().sounding.to_string(), "G4");
        session.let_go();
        assert_eq!(session.view.read().columns[0].name, "written E5, sounds G4, partial 10, 14 cents flat");
        assert!(session.gesture.get().is_none());
    }

    #[test]
    fn a_link_goes_round_and_a_damaged_one_changes_nothing() {
        let (_owner, session) = session();
        session.key(KeyAction::Enter(crookwise_theory::Step::E));
        let link = session.link();
        session.act(Document::clear);
        session.open_link(&link);
        assert_eq!(session.link(), link);
        session.open_link(&link[..link.len() - 3]);
        assert!(session.notice.get().unwrap().contains("damaged"));
        assert_eq!(session.link(), link);
    }

    #[test]
    fn a_rung_enters_its_note_as_the_staff_prints_it() {
        let (_owner, session) = session();
        session.act(|document| document.set_clef(crookwise_theory::Clef::BASS));
        session.enter_written(Written("C4".parse().unwrap()));
        let view = session.view.get();
        assert_eq!(view.columns[0].printed, Some(Printed("C3".parse().unwrap())));
        assert_eq!(view.columns[0].reading.unwrap().sounding.to_string(), "Eb3");
    }
}
