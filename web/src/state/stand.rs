//! The stand: how the page on the desk is laid on the screen, and where the reader points on it.

use crate::state::desk::Desk;
use crate::state::gesture::{Gesture, POINT_GRIP, Pointer, StaffSpot, Target};
use crate::state::kept::{Derived, Watched};
use crate::state::reducer::Reducer;
use crate::state::score_sheet::{Room, Sheet, SheetSystem};
use crate::state::tried::{self, Pointed};
use crate::state::view::{PageView, View};
use crate::state::wall::{Hidden, Wall};
use crookwise_theory::{Clef, StaffPosition};
use leptos::prelude::*;

/// How much of a window's height the bars of a telephone's browser take when they come back, and a little, in pixels.
const BARS: f64 = 120.0;

/// Handles on what lies on the screen; copy it where it is needed.
#[derive(Clone, Copy, Debug)]
pub struct Stand {
    desk: Desk,
    wall: Wall,
    room: Watched<Room>,
    /// How the page is laid.
    pub sheet: Derived<Sheet>,
    /// What writes together what several play, when it is here.
    pub reducer: Watched<Reducer>,
    /// Where the reader points.
    pub pointed: Watched<Pointed>,
    /// Whether a finger has touched a staff: then the selected note has its handle, whatever the device says of itself.
    pub fingers: Watched<bool>,
    /// The staff that a finger touched last.
    last: Watched<Target>,
    /// How far the strip has run to the left under the finger, in pixels.
    pub run: Watched<f64>,
}

impl Stand {
    /// A stand for what is on the desk, with so much room to begin with.
    #[must_use]
    pub fn new(desk: Desk, wall: Wall, room: Room) -> Self {
        let room = Watched::new(room);
        let reducer = Watched::new(Reducer::AWAITED);
        let sheet = Derived::new(move || {
            let room = Room { wall: wall.is_on(), ..room.get() };
            // What is hidden from the back row leaves its room to what is seen.
            if room.wall && !wall.shows(Hidden::Sounding) {
                return Sheet::written(&desk.whole.read(), room);
            }
            Sheet::of(&desk.whole.read(), &desk.page.read(), room, reducer.get())
        });
        Self {
            desk,
            wall,
            room,
            sheet,
            reducer,
            pointed: Watched::new(Pointed::Away),
            fingers: Watched::new(false),
            last: Watched::new(Target::Written(0)),
            run: Watched::new(0.0),
        }
    }

    /// How many columns there are.
    #[must_use]
    pub fn columns(self) -> usize {
        self.desk.whole.with_untracked(PageView::columns)
    }

    /// The sheet has so much room now, in pixels: its width, and how much of the window's height is left from its upper
    /// edge. Bars of a telephone's browser that come and go lay nothing out anew.
    pub fn set_room(self, width: f64, height: f64) {
        self.desk.beside.set(Room::wide(width).has_margin());
        let before = self.room.get_untracked();
        let bars = if self.wall.is_on_untracked() { 0.0 } else { BARS };
        let near = before.height.is_some_and(|known| (known - height).abs() <= bars);
        if before.width.to_bits() != width.to_bits() || !near {
            self.room.set(Room { width, height: Some(height), wall: false });
        }
    }

    /// How many columns stand behind the right edge of what is seen, where the page runs sideways.
    #[must_use]
    pub fn beyond(self) -> usize {
        let sheet = self.sheet.read();
        let seen = sheet.room + self.run.get() + 1.0;
        let ends = |column: usize| Some(sheet.systems.first()?.left(column)? + sheet.systems.first()?.column);
        let columns = if sheet.runs { self.desk.whole.with(PageView::columns) } else { 0 };
        (0..columns).filter(|&column| ends(column).is_some_and(|end| end > seen)).count()
    }

    /// How far into the strip the heads of the staves reach that stand over it, in pixels; 0 where they run with it.
    fn heads_end(self) -> f64 {
        let still = self.sheet.read().still();
        if still > 0.0 { self.run.get() + still } else { 0.0 }
    }

    /// The left edge and the width of the selected column of a system, in pixels; `None` where it is, in part, under the heads.
    #[must_use]
    pub fn selected_in(self, system: &SheetSystem) -> Option<(f64, f64)> {
        let left = system.left(self.desk.view.read().selected?)?;
        (left + 0.5 >= self.heads_end()).then_some((left, system.column))
    }

    /// The column under x in pixels from the left end of a system, as it is counted in the passage; `None` on the heads of the
    /// staves, also where they stand over a strip that has run under them.
    #[must_use]
    pub fn column_at(self, system: &SheetSystem, x: f64) -> Option<usize> {
        system.column_at(x, self.columns()).filter(|_| x >= self.heads_end())
    }

    /// How far the strip must run for the selected column to be seen whole, and behind the last the place of the next
    /// note; `None` where they are.
    #[must_use]
    pub fn run_to(self) -> Option<f64> {
        let sheet = self.sheet.read();
        let system = sheet.systems.first().filter(|_| sheet.runs)?;
        let columns = self.desk.whole.with(PageView::columns);
        let column = self.desk.view.read().selected.unwrap_or(columns);
        let (left, run) = (system.left(column)?, self.run.get_untracked());
        let furthest = left - sheet.still();
        if furthest < run {
            // The head of the staff is seen with its first column.
            return Some(if column == 0 { 0.0 } else { furthest });
        }
        let last = if column + 1 == columns { system.left(columns).unwrap_or(left) } else { left };
        let beyond = last + system.column - sheet.room;
        (beyond > run).then_some(beyond)
    }

    /// How many places on the page a staff moves that is dragged so many pixels down: it takes the place of another when it
    /// is more than half over it.
    #[must_use]
    pub fn places_off(self, staff: usize, down: f64) -> isize {
        let sheet = self.sheet.read_untracked();
        let Some(system) = sheet.systems.first() else { return 0 };
        let rows: Vec<f64> =
            system.written.iter().map(|staff| staff.frame.height().0 * sheet.scale).collect();
        let others: Vec<f64> = if down < 0.0 {
            rows.iter().take(staff).rev().copied().collect()
        } else {
            rows.iter().skip(staff + 1).copied().collect()
        };
        let mut end = 0.0;
        let passed = others.into_iter().take_while(|row| {
            end += row;
            end - row / 2.0 < down.abs()
        });
        let places = isize::try_from(passed.count()).unwrap_or(0);
        if down < 0.0 { -places } else { places }
    }

    /// The gesture under way.
    #[must_use]
    pub fn gesture(self) -> Option<Gesture> {
        match self.pointed.get_untracked() {
            Pointed::Down(gesture) => Some(gesture),
            _ => None,
        }
    }

    /// What the player reads who gets a note on a staff: while a pointer is down on it the one whose note that is, else
    /// the selected one on his own staff and for what sounds, on other staves the first.
    #[must_use]
    pub fn reader_of(self, on: Target) -> View {
        let whole = self.desk.whole.read();
        let player = match self.pointed.get() {
            Pointed::Down(gesture) if gesture.on == on => gesture.player,
            _ => usual_player(&whole, on),
        };
        whole.voice(staff_of(&whole, on), player).cloned().unwrap_or_default()
    }

    /// A finger, pen or mouse comes down on a staff. On the wall whatever comes only selects, as a finger does: what a class
    /// looks at never changes under the hand of who shows it.
    pub fn touch(self, pointer: Pointer, touched: StaffSpot) {
        let whole = self.desk.whole.read_untracked();
        let StaffSpot { on, column, place, clef, .. } = touched;
        let on_the_wall = self.wall.is_on_untracked();
        if on_the_wall && column >= whole.columns() {
            return;
        }
        let pointer = if on_the_wall { Pointer::Finger } else { pointer };
        let staff = staff_of(&whole, on);
        let standing = |player: usize| standing(whole.voice(staff, player)?, on, column, clef);
        let usual = usual_player(&whole, on);
        let off = |player: &usize| standing(*player).map_or(i32::MAX, |note| (note.0 - place.0).abs());
        // A player's note is taken where it is nearer than that of the one who is meant otherwise.
        let players = match on {
            Target::Written(staff) => whole.staves.get(staff).map_or(1, |staff| staff.players.len()),
            Target::Sounding(_) => 0,
        };
        let nearest =
            (0..players).fold(usual, |best, other| if off(&other) < off(&best) { other } else { best });
        let player = match pointer {
            Pointer::Exact if off(&nearest) <= POINT_GRIP => nearest,
            Pointer::Finger if standing(usual).is_some() => nearest,
            _ => usual,
        };
        // Alone on his page, a player's rests are columns of their own: they are selected as notes are. So is any on the wall.
        let filled =
            on_the_wall || (whole.is_alone() && column < whole.columns() && pointer == Pointer::Finger);
        let existing = standing(player).or(filled.then_some(place));
        let reach = whole.voice(staff, player).map_or((place, place), |view| reach(view, on, column));
        if pointer != Pointer::Exact && !on_the_wall {
            self.fingers.set(true);
        }
        self.pointed.set(Pointed::Down(Gesture::begin(pointer, player, touched, existing, reach)));
    }

    /// It moves. A finger that scrolls gives up what it began.
    pub fn drag(self, gesture: Gesture, to: StaffSpot) {
        self.pointed.set(gesture.drag(to).map_or(Pointed::Away, Pointed::Down));
    }

    /// A mouse moves over a staff, a column and a place with nothing pressed, or away. Nothing is tried on the wall.
    pub fn hover(self, over: Option<(Target, usize, StaffPosition)>) {
        if self.gesture().is_none() {
            let over = over.filter(|_| !self.wall.is_on_untracked());
            self.pointed.set(over.map_or(Pointed::Away, |(on, column, place)| {
                let (low, high) = reach(&untrack(|| self.reader_of(on)), on, column);
                Pointed::Over(on, column, StaffPosition(place.0.clamp(low.0, high.0)))
            }));
        }
    }

    /// What was under way is given up.
    pub fn point_away(self) {
        self.pointed.set(Pointed::Away);
    }

    /// The finger lets go: the note is placed, or the one it is about is selected.
    pub fn let_go(self) {
        let Some(gesture) = self.gesture() else { return };
        let view = untrack(|| self.reader_of(gesture.on));
        let staff = staff_of(&self.desk.whole.read_untracked(), gesture.on);
        self.point_away();
        // A finger that scrolled has given up its gesture: the handle stays where it was.
        if gesture.pointer != Pointer::Exact {
            self.last.set(gesture.on);
        }
        if gesture.still_there {
            self.desk.act(|document| document.select_on(staff, gesture.player, Some(gesture.column)));
            return;
        }
        let sheet = self.sheet.read_untracked();
        let system = sheet.systems.iter().find(|system| system.columns.contains(&gesture.column));
        let picture = system.and_then(|system| system.picture(gesture.on));
        let note = picture
            .and_then(|picture| tried::note(&view, &self.desk.page.read_untracked(), picture, gesture));
        if let Some((_, printed, _)) = note {
            self.desk.attempt(|document| {
                document.select_on(staff, gesture.player, Some(gesture.column));
                document.place(staff, gesture.column, printed)
            });
        }
    }

    /// Where on a staff the handle of the selected note is: its column, and the line or space of the note.
    #[must_use]
    pub fn handle(self, on: Target, system: &SheetSystem) -> Option<(usize, StaffPosition)> {
        if self.wall.is_on() {
            return None;
        }
        let whole = self.desk.whole.read();
        let here = match self.last.get() {
            Target::Sounding(lower) => on == Target::Sounding(lower),
            Target::Written(_) => on == Target::Written(whole.staff),
        };
        let view = whole.voice(whole.staff, whole.player).filter(|_| here)?;
        let column = view.selected.filter(|column| system.columns.contains(column))?;
        let note = standing(view, on, column, system.picture(on)?.head_at(column).0)?;
        Some(match self.pointed.get() {
            Pointed::Down(gesture) if gesture.on == on && gesture.column == column => (column, gesture.place),
            _ => (column, note),
        })
    }
}

/// The staff whose player gets a note: what is placed where it sounds is written on the selected one.
fn staff_of(whole: &PageView, on: Target) -> usize {
    match on {
        Target::Written(staff) => staff,
        Target::Sounding(_) => whole.staff,
    }
}

/// The player who gets a note on a staff: the selected one on his own, on others the first.
fn usual_player(whole: &PageView, on: Target) -> usize {
    if staff_of(whole, on) == whole.staff { whole.player } else { 0 }
}

/// Where the note of a player stands on a staff in a column, under a clef.
fn standing(view: &View, on: Target, column: usize, clef: Clef) -> Option<StaffPosition> {
    let shown = view.columns.get(column)?;
    let pitch = match on {
        Target::Written(_) => shown.printed?.0,
        Target::Sounding(_) => shown.reading?.sounding.0,
    };
    Some(clef.position(pitch))
}

/// The lowest and highest places that can be meant on a staff in a column.
fn reach(view: &View, on: Target, column: usize) -> (StaffPosition, StaffPosition) {
    match on {
        Target::Written(_) => view.reach(column),
        Target::Sounding(_) => (StaffPosition(-24), StaffPosition(30)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::document::Document;
    use crate::state::notices::Notices;
    use crate::words::Names;
    use crookwise_share::ReadPage;

    fn spot(on: Target, column: usize, place: i32, y: f64) -> StaffSpot {
        StaffSpot { on, column, place: StaffPosition(place), clef: Clef::TREBLE, x: 100.0, y }
    }

    /// Touches with a finger and lifts it so far down; whether the page is another then.
    fn swept(desk: Desk, stand: Stand, begin: StaffSpot, down: f64) -> bool {
        let before = desk.page.read();
        stand.touch(Pointer::Finger, begin);
        for step in 1..=4 {
            if let Some(gesture) = stand.gesture() {
                stand.drag(gesture, StaffSpot { y: begin.y + down * f64::from(step) / 4.0, ..begin });
            }
        }
        stand.let_go();
        assert_eq!(stand.pointed.get(), Pointed::Away);
        before.passage != desk.page.read().passage
    }

    #[test]
    fn a_finger_that_scrolls_changes_nothing() {
        let (_owner, desk, stand) = stand();
        for column in 0..3 {
            stand.touch(Pointer::Exact, spot(Target::Written(0), column, 7, 10.0));
            stand.let_go();
        }
        let before = desk.page.read();
        for on in [Target::Written(0), Target::Sounding(0)] {
            for (column, place) in [(0, 7), (1, 2), (2, -5), (3, 7)] {
                for down in [-60.0, -14.0, 14.0, 60.0] {
                    swept(desk, stand, spot(on, column, place, 40.0), down);
                    assert_eq!(before, desk.page.read(), "{on:?} {column} {down}");
                    // Nor does the handle come to where the next swipe may begin.
                    assert_eq!(stand.handle(Target::Sounding(0), &stand.sheet.read().systems[0]), None);
                }
            }
        }
    }

    #[test]
    fn a_finger_selects_a_note_wherever_it_taps_in_its_column_and_enters_the_next() {
        let (_owner, desk, stand) = stand();
        assert!(swept(desk, stand, spot(Target::Written(0), 0, 7, 10.0), 3.0));
        assert!(swept(desk, stand, spot(Target::Written(0), 1, 2, 10.0), 0.0));
        assert_eq!(desk.view.read().selected, Some(1));
        for on in [Target::Written(0), Target::Sounding(0)] {
            for (column, place) in [(0, -6), (1, 12), (0, 7)] {
                assert!(!swept(desk, stand, spot(on, column, place, 10.0), 4.0), "{on:?} {column}");
                assert_eq!(desk.view.read().selected, Some(column));
            }
        }
        desk.attempt(Document::rest);
        // A rest of one who is alone is a column too.
        assert!(!swept(desk, stand, spot(Target::Written(0), 1, 4, 10.0), 0.0));
        assert_eq!(desk.view.read().columns.len(), 3);
    }

    #[test]
    fn the_handle_moves_the_selected_note_finely_and_stands_on_the_staff_that_was_touched_last() {
        let (_owner, desk, stand) = stand();
        swept(desk, stand, spot(Target::Written(0), 0, 7, 10.0), 0.0);
        let handle = |on| stand.handle(on, &stand.sheet.read().systems[0]);
        assert_eq!(handle(Target::Written(0)), Some((0, StaffPosition(7))));
        assert_eq!(handle(Target::Sounding(0)), None);
        stand.touch(Pointer::Handle, spot(Target::Written(0), 0, 9, 40.0));
        stand.drag(stand.gesture().unwrap(), spot(Target::Written(0), 0, 3, 12.0));
        assert_eq!(handle(Target::Written(0)), Some((0, StaffPosition(9))));
        stand.let_go();
        assert_eq!(desk.view.read().columns[0].printed.unwrap().to_string(), "G5");
        swept(desk, stand, spot(Target::Sounding(0), 0, 0, 10.0), 0.0);
        assert_eq!(handle(Target::Written(0)), None);
        assert_eq!(handle(Target::Sounding(0)), Some((0, StaffPosition(4))));
    }

    #[test]
    fn a_finger_selects_the_player_whose_note_is_nearest_and_enters_where_one_rests() {
        let owner = Owner::new();
        owner.set();
        let link = "/read?staff=Corni+in+Es&players=2&notes=E5.G5&notes2=C4.-&staff=Viole&notes=-.C4";
        let Ok(Some(crookwise_share::Link::Read(page))) = crookwise_share::Link::decode(link) else {
            panic!("{link}")
        };
        let desk = Desk::new(*page, Watched::new(Names::default()), Notices::new(None));
        let stand = Stand::new(desk, Wall::new(), Room::wide(700.0));
        let tap = |staff, column, place| {
            let changed = swept(desk, stand, spot(Target::Written(staff), column, place, 10.0), 0.0);
            let whole = desk.whole.read();
            (changed, whole.staff, whole.player)
        };
        assert_eq!(tap(0, 0, -3), (false, 0, 1));
        assert_eq!(tap(0, 0, 9), (false, 0, 0));
        assert_eq!(tap(0, 0, -1), (false, 0, 1));
        // The second player rests in the next column, and is the one who is meant.
        assert_eq!(tap(0, 1, 0), (true, 0, 1));
        assert_eq!(tap(1, 1, 5), (false, 1, 0));
        assert_eq!(tap(1, 0, 5), (true, 1, 0));
    }

    #[test]
    fn a_staff_is_dragged_over_those_above_and_below() {
        let (_owner, desk, stand) = stand();
        for label in ["Oboi", "Viole", "Bassi"] {
            desk.attempt(|document| document.add_staff(label));
        }
        stand.set_room(900.0, 700.0);
        let sheet = stand.sheet.read();
        let row = sheet.systems[0].written[0].frame.height().0 * sheet.scale;
        for (staff, rows, places) in [
            (0, 0.4, 0),
            (0, 0.6, 1),
            (0, 2.4, 2),
            (0, 9.0, 3),
            (3, -0.4, 0),
            (3, -1.6, -2),
            (1, -9.0, -1),
            (3, 5.0, 0),
        ] {
            assert_eq!(stand.places_off(staff, rows * row), places, "{staff} {rows}");
        }
    }

    #[test]
    fn bars_that_come_and_go_lay_nothing_out_anew() {
        let (_owner, _desk, stand) = stand();
        stand.set_room(358.0, 400.0);
        let before = stand.sheet.read();
        stand.set_room(358.0, 480.0);
        assert!(std::sync::Arc::ptr_eq(&before, &stand.sheet.read()));
        stand.set_room(358.0, 640.0);
        assert_ne!(before.scale.to_bits(), stand.sheet.read().scale.to_bits());
    }

    #[test]
    fn on_the_wall_what_is_hidden_leaves_its_room_to_what_is_seen() {
        let (_owner, _desk, stand) = stand();
        stand.set_room(1860.0, 1000.0);
        stand.wall.enter();
        let hidden = stand.sheet.read();
        assert!(hidden.systems[0].sounding.is_empty());
        stand.wall.turn(Hidden::Sounding);
        let shown = stand.sheet.read();
        assert!(!shown.systems[0].sounding.is_empty() && shown.scale < hidden.scale);
    }

    #[test]
    fn on_the_wall_a_press_selects_and_never_changes_a_note() {
        let (_owner, desk, stand) = stand();
        for place in [5, 7] {
            stand.touch(Pointer::Exact, spot(Target::Written(0), stand.columns(), place, 10.0));
            stand.let_go();
        }
        stand.wall.enter();
        stand.wall.turn(Hidden::Sounding);
        let before = desk.page.read().passage.clone();
        for pointer in [Pointer::Exact, Pointer::Finger, Pointer::Handle] {
            for on in [Target::Written(0), Target::Sounding(0)] {
                for (column, place, selected) in [(0, -2, 0), (1, 9, 1), (0, 5, 0), (2, 3, 0)] {
                    let begin = spot(on, column, place, 40.0);
                    stand.hover(Some((on, column, begin.place)));
                    assert_eq!(stand.pointed.get(), Pointed::Away);
                    stand.touch(pointer, begin);
                    if let Some(gesture) = stand.gesture() {
                        stand.drag(gesture, StaffSpot { place: StaffPosition(place + 3), y: 33.0, ..begin });
                    }
                    stand.let_go();
                    assert_eq!(desk.page.read().passage, before, "{pointer:?} {on:?} {column} {place}");
                    assert_eq!(desk.view.read().selected, Some(selected), "{pointer:?} {on:?} {column}");
                    assert_eq!(stand.handle(on, &stand.sheet.read().systems[0]), None);
                }
            }
        }
    }

    #[test]
    fn on_a_telephone_a_long_passage_is_one_strip_that_runs_to_what_is_selected() {
        let (_owner, desk, stand) = stand();
        for _ in 0..30 {
            desk.enter_written(crookwise_theory::Written("C5".parse().unwrap()));
        }
        stand.set_room(358.0, 560.0);
        let sheet = stand.sheet.read();
        assert!(sheet.runs && sheet.systems.len() == 1);
        let system = &sheet.systems[0];
        assert!(system.column >= 46.0 && system.width() > 1500.0);
        // The first columns are whole: the edge is between two of them.
        let seen = (358.0 - system.head) / system.column;
        assert!((seen - seen.round()).abs() < 1e-6, "{seen}");
        assert_eq!(stand.beyond(), 30 - seen.round() as usize);
        let end = system.left(30).unwrap() + system.column - 358.0;
        assert_eq!(stand.run_to(), Some(end));
        stand.run.set(end);
        assert_eq!((stand.run_to(), stand.beyond()), (None, 0));
        // The heads stand over the strip: nothing is touched through them, and what is selected comes out from under them.
        assert!(sheet.heads_stay && system.picture(Target::Written(0)).unwrap().head.is_some());
        assert_eq!(stand.column_at(system, end + system.head - 1.0), None);
        let first = stand.column_at(system, end + system.head + 1.0).unwrap();
        assert!(stand.selected_in(system).is_some());
        desk.act(|document| document.select(Some(first - 1)));
        assert_eq!(stand.selected_in(system), None);
        assert_eq!(stand.run_to(), Some(system.left(first - 1).unwrap() - system.head));
        desk.act(|document| document.select(Some(0)));
        assert_eq!(stand.run_to(), Some(0.0));
    }

    #[test]
    fn heads_that_change_go_with_the_strip() {
        let (_owner, desk, stand) = stand();
        for _ in 0..30 {
            desk.enter_written(crookwise_theory::Written("C5".parse().unwrap()));
        }
        desk.act(|document| document.select(Some(9)));
        desk.act(|document| document.change_here(None, crookwise_score::ChangeTo::Clef(Clef::BASS)).unwrap());
        stand.set_room(358.0, 560.0);
        let sheet = stand.sheet.read();
        assert!(sheet.runs && !sheet.heads_stay && sheet.still() == 0.0);
        assert!(sheet.systems[0].picture(Target::Written(0)).unwrap().head.is_none());
    }

    fn stand() -> (Owner, Desk, Stand) {
        let owner = Owner::new();
        owner.set();
        let names = Watched::new(Names::default());
        let desk = Desk::new(ReadPage::of_label("Corni in Es"), names, Notices::new(None));
        let stand = Stand::new(desk, Wall::new(), Room::wide(700.0));
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
        let stand = Stand::new(desk, Wall::new(), Room::wide(700.0));
        let before = stand.sheet.read();
        assert_eq!(before.systems.len(), 1);
        let (labels, layouts) = (crate::state::decoding::labels_read(), crate::state::laying::layouts_made());
        stand.touch(Pointer::Exact, spot(Target::Written(2), 1, 5, 10.0));
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
        stand.touch(Pointer::Exact, spot(Target::Written(0), 0, 7, 10.0));
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
        stand.touch(Pointer::Exact, spot(Target::Sounding(0), 0, 2, 10.0));
        stand.let_go();
        assert_eq!(desk.view.read().columns[0].name, "written E5, sounds G4, partial 10, 14 cents flat");
        // Taken hold of and dragged to the middle line, B-flat 4 by the signature: G5.
        stand.touch(Pointer::Exact, spot(Target::Sounding(0), 0, 3, 10.0));
        let gesture = stand.gesture().unwrap();
        stand.drag(gesture, spot(Target::Sounding(0), 0, 4, 0.0));
        stand.let_go();
        assert_eq!(desk.view.read().columns[0].printed.unwrap().to_string(), "G5");
    }
}
