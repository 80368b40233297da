//! The stand: how the page on the desk is laid on the screen, and where the reader points on it.

use crate::state::desk::Desk;
use crate::state::gesture::{Gesture, Pointer, Target};
use crate::state::kept::{Derived, Watched};
use crate::state::reducer::Reducer;
use crate::state::score_sheet::{Room, Sheet};
use crate::state::tried::{self, Pointed};
use crate::state::view::{PageView, View};
use crate::state::wall::Wall;
use crookwise_theory::{Clef, StaffPosition};
use leptos::prelude::*;

/// Handles on what lies on the screen; copy it where it is needed.
#[derive(Clone, Copy, Debug)]
pub struct Stand {
    desk: Desk,
    room: Watched<Room>,
    /// How the page is laid.
    pub sheet: Derived<Sheet>,
    /// What writes together what several play, when it is here.
    pub reducer: Watched<Reducer>,
    /// Where the reader points.
    pub pointed: Watched<Pointed>,
}

impl Stand {
    /// A stand for what is on the desk, with so much room to begin with.
    #[must_use]
    pub fn new(desk: Desk, wall: Wall, room: Room) -> Self {
        let room = Watched::new(room);
        let reducer = Watched::new(Reducer::AWAITED);
        let sheet = Derived::new(move || {
            let room = Room { wall: wall.is_on(), ..room.get() };
            Sheet::of(&desk.whole.read(), &desk.page.read(), room, reducer.get())
        });
        Self { desk, room, sheet, reducer, pointed: Watched::new(Pointed::Away) }
    }

    /// How many columns there are.
    #[must_use]
    pub fn columns(self) -> usize {
        self.desk.whole.with_untracked(PageView::columns)
    }

    /// The sheet has so much room now, in pixels.
    pub fn set_width(self, width: f64) {
        self.room.set(Room { width, wall: false });
    }

    /// The gesture under way.
    #[must_use]
    pub fn gesture(self) -> Option<Gesture> {
        match self.pointed.get_untracked() {
            Pointed::Down(gesture) => Some(gesture),
            _ => None,
        }
    }

    /// What the player reads who gets a note on a staff: the selected one on his own staff and for what sounds, else
    /// the first.
    #[must_use]
    pub fn reader_of(self, on: Target) -> View {
        let whole = self.desk.whole.read();
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
            Target::Written(_) => (column.and_then(|column| Some(column.printed?.0)), view.reach(on.1)),
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
                    Target::Written(_) => untrack(|| self.reader_of(on)).reach(column),
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
        let whole = self.desk.whole.read_untracked();
        let (staff, player) = match gesture.on {
            Target::Written(staff) if staff != whole.staff => (staff, 0),
            _ => (whole.staff, whole.player),
        };
        self.point_away();
        if gesture.still_there {
            self.desk.act(|document| document.select_on(staff, player, Some(gesture.column)));
            return;
        }
        let sheet = self.sheet.read_untracked();
        let system = sheet.systems.iter().find(|system| system.columns.contains(&gesture.column));
        let picture = system.and_then(|system| system.picture(gesture.on));
        let note = picture
            .and_then(|picture| tried::note(&view, &self.desk.page.read_untracked(), picture, gesture));
        if let Some((_, printed, _)) = note {
            self.desk.attempt(|document| document.place(staff, gesture.column, printed));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::notices::Notices;
    use crate::words::Names;
    use crookwise_share::ReadPage;

    fn stand() -> (Owner, Desk, Stand) {
        let owner = Owner::new();
        owner.set();
        let names = Watched::new(Names::default());
        let desk = Desk::new(ReadPage::of_label("Corni in Es"), names, Notices::new(None));
        let stand = Stand::new(desk, Wall::new(), Room { width: 700.0, wall: false });
        (owner, desk, stand)
    }

    /// A tap places a note on the third of five staves: what was decoded, laid and copied before is used again.
    #[test]
    fn a_tap_decodes_no_label_lays_only_what_changed_and_shares_the_page() {
        let owner = Owner::new();
        owner.set();
        let labels = ["Flauti", "Corni+in+Es", "Trombe+in+D", "Viole", "Bassi"];
        let staff = |label: &&str| format!("staff={label}&notes=C4.D4.E4.F4");
        let link = format!("/read?{}&muta=3_in+D", labels.iter().map(staff).collect::<Vec<_>>().join("&"));
        let Ok(Some(crookwise_share::Link::Read(page))) = crookwise_share::Link::decode(&link) else {
            panic!("{link}")
        };
        let names = Watched::new(Names::default());
        let desk = Desk::new(*page, names, Notices::new(None));
        let stand = Stand::new(desk, Wall::new(), Room { width: 700.0, wall: false });
        let before = stand.sheet.read();
        assert_eq!(before.systems.len(), 1);
        let (labels, layouts) = (crate::state::decoding::labels_read(), crate::state::laying::layouts_made());
        stand.touch(Pointer::Exact, (Target::Written(2), 1), StaffPosition(5), Clef::TREBLE, 10.0);
        stand.let_go();
        let after = stand.sheet.read();
        assert_ne!(before, after);
        assert_eq!(crate::state::decoding::labels_read() - labels, 0);
        // The written staff, and the two of what sounds at most.
        let laid = crate::state::laying::layouts_made() - layouts;
        assert!((1..=3).contains(&laid), "{laid}");
        for staff in [0, 1, 3, 4] {
            let svg = |sheet: &Sheet| std::sync::Arc::clone(&sheet.systems[0].written[staff].svg);
            assert!(std::sync::Arc::ptr_eq(&svg(&before), &svg(&after)), "{staff}");
        }
        assert!(std::sync::Arc::ptr_eq(&desk.page.read(), desk.document().page()));
    }

    #[test]
    fn a_gesture_shows_what_would_sound_and_places_it() {
        let (_owner, desk, stand) = stand();
        stand.touch(Pointer::Exact, (Target::Written(0), 0), StaffPosition(7), Clef::TREBLE, 10.0);
        let gesture = stand.gesture().unwrap();
        let sheet = stand.sheet.read();
        let picture = sheet.systems[0].picture(gesture.on).unwrap();
        let (_, printed, reading) =
            tried::note(&desk.view.read(), &desk.page.read(), picture, gesture).unwrap();
        assert_eq!(printed.to_string(), "E5");
        assert_eq!(reading.unwrap().sounding.to_string(), "G4");
        stand.let_go();
        assert_eq!(desk.view.read().columns[0].name, "written E5, sounds G4, partial 10, 14 cents flat");
        assert_eq!(stand.pointed.get(), Pointed::Away);
    }

    #[test]
    fn a_tap_on_what_sounds_writes_it_for_the_player() {
        let (_owner, desk, stand) = stand();
        desk.act(|document| document.set_movement(Some("Eb major".parse().unwrap())));
        // The second line of the sounding treble staff is G4: a horn in E-flat reads E5.
        stand.touch(Pointer::Exact, (Target::Sounding(0), 0), StaffPosition(2), Clef::TREBLE, 10.0);
        stand.let_go();
        assert_eq!(desk.view.read().columns[0].name, "written E5, sounds G4, partial 10, 14 cents flat");
        // Taken hold of and dragged to the middle line, B-flat 4 by the signature: G5.
        stand.touch(Pointer::Exact, (Target::Sounding(0), 0), StaffPosition(3), Clef::TREBLE, 10.0);
        let gesture = stand.gesture().unwrap();
        stand.drag(gesture.drag(StaffPosition(4), 0.0));
        stand.let_go();
        assert_eq!(desk.view.read().columns[0].printed.unwrap().to_string(), "G5");
    }
}
