//! The one handle on everything the reader has made and sees: values that can be watched, and named actions.

use crate::state::document::Document;
use crate::state::gesture::{Gesture, Pointer, Target};
use crate::state::hearing::Way;
use crate::state::kept::{Cell, Derived};
use crate::state::keys::{Focus, KeyAction};
use crate::state::ladder::Ladder;
use crate::state::place::Place;
use crate::state::preferences::Preferences;
use crate::state::score_sheet::{Reducer, Room, Sheet};
use crate::state::start;
use crate::state::tried::{self, Pointed};
use crate::state::view::{PageView, View};
use crate::state::wall::Wall;
use crate::words::Names;
use crookwise_score::{MOST_COLUMNS, PassageError};
use crookwise_share::{Link, ReadPage};
use crookwise_theory::{Clef, Printed, StaffPosition, Written};
use leptos::prelude::*;
use std::sync::Arc;

/// Handles on the state; copy it where it is needed.
#[derive(Clone, Copy, Debug)]
pub struct Session {
    document: Cell<Document>,
    /// The page as it stands.
    pub page: Derived<ReadPage>,
    /// What all its staves mean.
    pub whole: Derived<PageView>,
    /// What the selected player of the selected staff reads.
    pub view: Derived<View>,
    /// How it is laid on the screen.
    pub sheet: Derived<Sheet>,
    /// The series of the crook.
    pub ladder: Derived<Option<Ladder>>,
    /// How notes are named.
    pub names: Cell<Names>,
    /// Where the reader is in the app.
    pub place: Cell<Place>,
    /// Where the reader points on the staff.
    pub pointed: Cell<Pointed>,
    /// Whether the page is on the wall, and what is shown there.
    pub wall: Cell<Wall>,
    /// Whether the settings of the selected staff are open on a page of several.
    pub setting_up: Cell<bool>,
    /// As whom notes are heard.
    pub way: Cell<Way>,
    /// How loud, in hundredths.
    pub volume: Cell<u8>,
    /// Whether something is being heard.
    pub playing: Cell<bool>,
    /// A sentence about something that could not be done.
    pub notice: Cell<Option<String>>,
    /// Whether the page is still the one everybody begins with.
    pub untouched: Derived<bool>,
    /// What writes together what several play, when it is here.
    pub reducer: Cell<Reducer>,
    room: Cell<Room>,
}

impl Session {
    /// A session that begins with a page.
    #[must_use]
    pub fn new(page: ReadPage, preferences: Preferences, notice: Option<String>, room: Room) -> Self {
        let document = Cell::new(Document::new(page));
        let names = Cell::new(preferences.names);
        let page = Derived::new(move || ReadPage::clone(document.get().page()));
        let whole = Derived::new(move || PageView::of(&page.get(), *names.get()));
        let view = Derived::new(move || whole.get().current());
        let room = Cell::new(room);
        let wall = Cell::new(Wall::default());
        let reducer = Cell::new(Reducer::AWAITED);
        let sheet = Derived::new(move || {
            Sheet::of(&whole.get(), &page.get(), Room { wall: wall.get().on, ..*room.get() }, *reducer.get())
        });
        let ladder = Derived::new(move || Ladder::of(&view.get(), &page.get().intonation));
        let untouched = Derived::new(move || page.get().passage == start::page().passage);
        Self {
            document,
            page,
            whole,
            view,
            sheet,
            ladder,
            names,
            place: Cell::new(Place::Read),
            pointed: Cell::new(Pointed::Away),
            wall,
            setting_up: Cell::new(false),
            way: Cell::new(preferences.way),
            volume: Cell::new(preferences.volume),
            playing: Cell::new(false),
            notice: Cell::new(notice),
            untouched,
            room,
            reducer,
        }
    }

    /// The session of this page.
    ///
    /// # Panics
    /// Never in the app, which provides it before anything else is made.
    #[must_use]
    pub fn get() -> Self {
        use_context::<Self>().expect("the app provides the session")
    }

    /// What is kept of the reader's wishes.
    #[must_use]
    pub fn preferences(self) -> Preferences {
        Preferences { names: *self.names.get(), way: *self.way.get(), volume: *self.volume.get() }
    }

    /// The document, to look at.
    #[must_use]
    pub fn document(self) -> Arc<Document> {
        self.document.get()
    }

    /// Changes the document by one of its named actions.
    pub fn act(self, action: impl FnOnce(&mut Document)) {
        let mut document = Document::clone(&self.document.get_untracked());
        action(&mut document);
        self.document.set(document);
    }

    /// The same for an action that may fail: the reason becomes the notice.
    pub fn attempt(self, action: impl FnOnce(&mut Document) -> Result<(), PassageError>) {
        let mut document = Document::clone(&self.document.get_untracked());
        let outcome = action(&mut document);
        self.document.set(document);
        self.notice.set(outcome.err().map(|error| error.to_string()));
    }

    /// Whether a note is selected.
    #[must_use]
    pub fn has_note(self) -> bool {
        self.view.get().selected_column().is_some_and(|column| column.printed.is_some())
    }

    /// Whether there is room for another column.
    #[must_use]
    pub fn has_room(self) -> bool {
        self.view.get().columns.len() < MOST_COLUMNS
    }

    /// Adds a staff and opens its settings: it needs a label.
    pub fn add_staff(self) {
        self.attempt(|document| document.add_staff(""));
        self.setting_up.set(true);
    }

    /// Whether the label and the settings of the selected staff are on the screen: always for a single staff, and
    /// for a new one that has no label yet.
    #[must_use]
    pub fn shows_setup(self) -> bool {
        let whole = self.whole.get();
        let labelled = whole.staves.get(whole.staff).is_some_and(|staff| !staff.label.is_empty());
        whole.staves.len() < 2 || *self.setting_up.get() || !labelled
    }

    /// The link to the page, without the address of the app.
    #[must_use]
    pub fn link(self) -> String {
        Link::Read(Box::new(ReadPage::clone(&self.page.get()))).encode()
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

    /// The sheet has so much room now, in pixels.
    pub fn set_width(self, width: f64) {
        self.room.set(Room { width, wall: false });
    }

    /// The gesture under way.
    #[must_use]
    pub fn gesture(self) -> Option<Gesture> {
        match *self.pointed.get_untracked() {
            Pointed::Down(gesture) => Some(gesture),
            _ => None,
        }
    }

    /// What the player reads who gets a note on a staff: the selected one on his own staff and for what sounds, else
    /// the first.
    #[must_use]
    pub fn reader_of(self, on: Target) -> View {
        let whole = self.whole.get();
        match on {
            Target::Written(staff) if staff != whole.staff => {
                whole.voice(staff, 0).cloned().unwrap_or_default()
            }
            _ => whole.current(),
        }
    }

    /// A finger, pen or mouse comes down on a column of a staff under the clef `clef`, `y` in pixels downwards.
    pub fn touch(self, pointer: Pointer, on: (Target, usize), place: StaffPosition, clef: Clef, y: f64) {
        let view = untrack(|| self.reader_of(on.0));
        let column = view.columns.get(on.1);
        let (standing, reach) = match on.0 {
            Target::Written(_) => (column.and_then(|column| Some(column.printed?.0)), view.reach()),
            Target::Sounding(_) => (
                column.and_then(|column| Some(column.reading?.sounding.0)),
                (StaffPosition(-24), StaffPosition(30)),
            ),
        };
        let existing = standing.map(|pitch| clef.position(pitch));
        self.pointed.set(Pointed::Down(Gesture::begin(pointer, on, place, existing, y, reach)));
    }

    /// It moves.
    pub fn drag(self, gesture: Gesture) {
        self.pointed.set(Pointed::Down(gesture));
    }

    /// A mouse moves over a staff, a column and a place with nothing pressed, or away.
    pub fn hover(self, over: Option<(Target, usize, StaffPosition)>) {
        if self.gesture().is_none() {
            self.pointed.set(over.map_or(Pointed::Away, |(on, column, place)| {
                let (low, high) = match on {
                    Target::Written(_) => untrack(|| self.reader_of(on)).reach(),
                    Target::Sounding(_) => (StaffPosition(-24), StaffPosition(30)),
                };
                Pointed::Over(on, column, StaffPosition(place.0.clamp(low.0, high.0)))
            }));
        }
    }

    /// What was under way is given up.
    pub fn point_away(self) {
        self.pointed.set(Pointed::Away);
    }

    /// The finger lets go: the note is placed, or the one it held is selected.
    pub fn let_go(self) {
        let Some(gesture) = self.gesture() else { return };
        let view = untrack(|| self.reader_of(gesture.on));
        let whole = self.whole.get_untracked();
        let (staff, player) = match gesture.on {
            Target::Written(staff) if staff != whole.staff => (staff, 0),
            _ => (whole.staff, whole.player),
        };
        self.point_away();
        if gesture.still_there {
            self.act(|document| document.select_on(staff, player, Some(gesture.column)));
            return;
        }
        let sheet = self.sheet.get_untracked();
        let picture = sheet.systems.first().and_then(|system| system.picture(gesture.on));
        let note =
            picture.and_then(|picture| tried::note(&view, &self.page.get_untracked(), picture, gesture));
        if let Some((_, printed, _)) = note {
            self.attempt(|document| document.place(staff, gesture.column, printed));
        }
    }

    /// Enters a written note behind the selected one, as the staff prints it.
    pub fn enter_written(self, written: Written) {
        let view = self.view.get_untracked();
        let printed =
            view.place.as_ref().map_or(Printed(written.0), |place| place.notation().printed(written));
        self.attempt(|document| document.enter_note(printed));
    }

    /// Enters a note in the middle of a staff behind the last column, to be moved from there.
    pub fn add_note(self, staff: usize, player: usize) {
        let whole = self.whole.get_untracked();
        let view = whole.voice(staff, player).cloned().unwrap_or_default();
        let (printed, _) = view.try_place(&self.page.get_untracked(), StaffPosition(4));
        self.attempt(|document| {
            document.select_on(staff, player, whole.columns().checked_sub(1));
            document.enter_note(printed)
        });
    }

    /// The element that stands for what is selected: a note, or the place of the next one.
    #[must_use]
    pub fn selected_element(self) -> String {
        let whole = self.whole.get_untracked();
        let (staff, player) = (whole.staff, whole.player);
        match self.view.get_untracked().selected {
            Some(column) => format!("note-{staff}-{player}-{column}"),
            None => format!("next-{staff}-{player}"),
        }
    }

    /// Selects the staff so many places further down.
    pub fn select_staff_by(self, places: isize) {
        let whole = self.whole.get_untracked();
        let column = self.view.get_untracked().selected;
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
        let whole = self.whole.get();
        let selected = self.view.get().selected;
        whole.staff == staff && whole.player == player && (column.is_none() || column == selected)
    }

    /// Selects what an action needs to work on a cell: a letter goes into it, so what is before it is selected.
    fn select_for(self, action: KeyAction, (staff, player, column): Focus) {
        let here = column.or_else(|| self.whole.get_untracked().columns().checked_sub(1));
        let column = match (action, column) {
            (KeyAction::Undo | KeyAction::Redo, _) => return,
            (KeyAction::Enter(_) | KeyAction::EnterAltered(..), Some(column)) => column.checked_sub(1),
            _ => here,
        };
        self.act(|document| document.select_on(staff, player, column));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn session() -> (Owner, Session) {
        let owner = Owner::new();
        owner.set();
        let session = Session::new(
            ReadPage::of_label("Corni in Es"),
            Preferences::default(),
            None,
            Room { width: 700.0, wall: false },
        );
        (owner, session)
    }

    #[test]
    fn a_gesture_shows_what_would_sound_and_places_it() {
        let (_owner, session) = session();
        session.touch(Pointer::Exact, (Target::Written(0), 0), StaffPosition(7), Clef::TREBLE, 10.0);
        let gesture = session.gesture().unwrap();
        let sheet = session.sheet.get();
        let picture = sheet.systems[0].picture(gesture.on).unwrap();
        let (_, printed, reading) =
            tried::note(&session.view.get(), &session.page.get(), picture, gesture).unwrap();
        assert_eq!(printed.to_string(), "E5");
        assert_eq!(reading.unwrap().sounding.to_string(), "G4");
        session.let_go();
        assert_eq!(session.view.get().columns[0].name, "written E5, sounds G4, partial 10, 14 cents flat");
        assert_eq!(*session.pointed.get(), Pointed::Away);
    }

    #[test]
    fn a_tap_on_what_sounds_writes_it_for_the_player() {
        let (_owner, session) = session();
        session.act(|document| document.set_movement(Some("Eb major".parse().unwrap())));
        // The second line of the sounding treble staff is G4: a horn in E-flat reads E5.
        session.touch(Pointer::Exact, (Target::Sounding(0), 0), StaffPosition(2), Clef::TREBLE, 10.0);
        session.let_go();
        assert_eq!(session.view.get().columns[0].name, "written E5, sounds G4, partial 10, 14 cents flat");
        // Taken hold of and dragged to the middle line, B-flat 4 by the signature: G5.
        session.touch(Pointer::Exact, (Target::Sounding(0), 0), StaffPosition(3), Clef::TREBLE, 10.0);
        let gesture = session.gesture().unwrap();
        session.drag(gesture.drag(StaffPosition(4), 0.0));
        session.let_go();
        assert_eq!(session.view.get().columns[0].printed.unwrap().to_string(), "G5");
    }

    #[test]
    fn a_link_goes_round_and_a_damaged_one_changes_nothing() {
        let (_owner, session) = session();
        session.key(KeyAction::Enter(crookwise_theory::Step::E), None);
        let link = session.link();
        session.act(Document::clear);
        session.open_link(&link);
        assert_eq!(session.link(), link);
        session.open_link(&link[..link.len() - 3]);
        assert!(session.notice.get().as_ref().as_ref().unwrap().contains("damaged"));
        assert_eq!(session.link(), link);
    }

    #[test]
    fn a_key_works_on_the_cell_that_has_the_focus() {
        let (_owner, session) = session();
        let letter = |letter| KeyAction::Enter(crookwise_theory::Step::from_letter(letter).unwrap());
        session.act(|document| document.set_players(2).unwrap());
        session.key(letter('C'), None);
        session.key(letter('D'), None);
        let notes = |player| {
            let whole = session.whole.get_untracked();
            let columns = &whole.voice(0, player).unwrap().columns;
            let note = |column: &crate::state::view::ColumnView| {
                column.printed.map_or("-".to_owned(), |printed| printed.to_string())
            };
            columns.iter().map(note).collect::<Vec<_>>().join(" ")
        };
        // The second player's first column, which no other key reaches.
        session.key(letter('G'), Some((0, 1, Some(0))));
        session.key(letter('A'), Some((0, 1, Some(0))));
        assert_eq!((notes(0), notes(1)), ("C5 D5".into(), "G4 A4".into()));
        session.key(KeyAction::Move(1), Some((0, 0, Some(0))));
        assert_eq!((notes(0), notes(1)), ("D5 D5".into(), "G4 A4".into()));
        session.key(letter('E'), Some((0, 1, None)));
        assert_eq!((notes(0), notes(1)), ("D5 D5 -".into(), "G4 A4 E4".into()));
        session.key(KeyAction::Undo, Some((0, 0, Some(0))));
        assert_eq!((notes(0), notes(1)), ("D5 D5".into(), "G4 A4".into()));
    }

    #[test]
    fn a_rung_enters_its_note_as_the_staff_prints_it() {
        let (_owner, session) = session();
        session.act(|document| document.set_clef(Clef::BASS));
        session.enter_written(Written("C4".parse().unwrap()));
        let view = session.view.get();
        assert_eq!(view.columns[0].printed, Some(Printed("C3".parse().unwrap())));
        assert_eq!(view.columns[0].reading.unwrap().sounding.to_string(), "Eb3");
    }
}
