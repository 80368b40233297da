//! A finger, pen or mouse on the staff, from touching down to letting go.

use crookwise_theory::{Clef, StaffPosition};

/// Pixels a finger moves for one line or space: finer than the staff itself, so that a thick finger hits.
const FINGER_PIXELS: f64 = 14.0;
/// Places from a note within which a mouse takes hold of it.
pub const POINT_GRIP: i32 = 1;
/// Pixels that a finger may tremble while it taps. One that goes further scrolls.
const TREMBLE: f64 = 10.0;

/// Whether a finger that went so far to the right and down has tapped, and not scrolled.
#[must_use]
pub fn is_tap(right: f64, down: f64) -> bool {
    right.abs() <= TREMBLE && down.abs() <= TREMBLE
}

/// What touches the staff.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pointer {
    /// A mouse: it points exactly, and moves a note as it stands.
    Exact,
    /// A finger or a pen: it taps, and everything else it does scrolls.
    Finger,
    /// A finger or a pen on the handle of the selected note. It covers what it points at, so moving it moves finely.
    Handle,
}

/// Which staff is touched.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Target {
    /// A written staff, by its number from the top.
    Written(usize),
    /// A staff that sounds, by its number from the top: what is placed there is written for the selected player.
    Sounding(usize),
}

/// Where a pointer is on a staff.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StaffSpot {
    /// The staff.
    pub on: Target,
    /// The column; the next one behind the last.
    pub column: usize,
    /// The line or space.
    pub place: StaffPosition,
    /// The clef in force there.
    pub clef: Clef,
    /// Pixels from the left end of the staff.
    pub x: f64,
    /// Pixels downwards from the top of its picture.
    pub y: f64,
}

/// A note being placed, moved or selected.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gesture {
    /// What touches.
    pub pointer: Pointer,
    /// The staff it touched.
    pub on: Target,
    /// The player whose note it is.
    pub player: usize,
    /// The column it touched.
    pub column: usize,
    /// Where the note would stand if let go now.
    pub place: StaffPosition,
    /// Whether it is about a note that stood there already and has not moved.
    pub still_there: bool,
    start: StaffPosition,
    start_x: f64,
    start_y: f64,
    reach: (StaffPosition, StaffPosition),
}

impl Gesture {
    /// Touches a staff; `existing` is the note that stands there. A finger selects it wherever in its column it taps, a
    /// mouse takes hold of it where it stands.
    #[must_use]
    pub fn begin(
        pointer: Pointer,
        player: usize,
        touched: StaffSpot,
        existing: Option<StaffPosition>,
        reach: (StaffPosition, StaffPosition),
    ) -> Self {
        let near = |note: &StaffPosition| (note.0 - touched.place.0).abs() <= POINT_GRIP;
        let taken = existing.filter(|note| pointer != Pointer::Exact || near(note));
        let place = taken.unwrap_or(StaffPosition(touched.place.0.clamp(reach.0.0, reach.1.0)));
        Self {
            pointer,
            on: touched.on,
            player,
            column: touched.column,
            place,
            still_there: taken.is_some(),
            start: place,
            start_x: touched.x,
            start_y: touched.y,
            reach,
        }
    }

    /// Moves to another spot; `None` where that is no tap any more, but a finger that scrolls.
    #[must_use]
    pub fn drag(self, to: StaffSpot) -> Option<Self> {
        let place = match self.pointer {
            Pointer::Exact if self.still_there && (to.place.0 - self.start.0).abs() <= POINT_GRIP => {
                self.start.0
            }
            Pointer::Exact => to.place.0,
            Pointer::Handle => self.start.0 + ((self.start_y - to.y) / FINGER_PIXELS).round() as i32,
            Pointer::Finger => {
                return is_tap(to.x - self.start_x, to.y - self.start_y).then_some(self);
            }
        };
        let place = StaffPosition(place.clamp(self.reach.0.0, self.reach.1.0));
        Some(Self { place, still_there: self.still_there && place == self.start, ..self })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const REACH: (StaffPosition, StaffPosition) = (StaffPosition(-12), StaffPosition(12));

    fn spot(place: i32, x: f64, y: f64) -> StaffSpot {
        StaffSpot { on: Target::Written(0), column: 2, place: StaffPosition(place), clef: Clef::TREBLE, x, y }
    }

    fn begin(pointer: Pointer, touched: StaffSpot, existing: Option<i32>) -> Gesture {
        Gesture::begin(pointer, 0, touched, existing.map(StaffPosition), REACH)
    }

    #[test]
    fn a_handle_moves_its_note_finely_wherever_the_finger_took_it() {
        let down = begin(Pointer::Handle, spot(6, 50.0, 100.0), Some(3));
        assert_eq!((down.place, down.still_there), (StaffPosition(3), true));
        let place = |y| down.drag(spot(9, 90.0, y)).unwrap().place.0;
        assert_eq!([94.0, 86.0, 142.0, 9_000.0].map(place), [3, 4, 0, -12]);
        assert!(!down.drag(spot(9, 50.0, 86.0)).unwrap().still_there);
    }

    #[test]
    fn a_finger_taps_or_scrolls() {
        let tap = begin(Pointer::Finger, spot(6, 50.0, 100.0), None);
        assert_eq!((tap.place, tap.still_there), (StaffPosition(6), false));
        assert_eq!(tap.drag(spot(5, 54.0, 107.0)), Some(tap));
        assert_eq!(tap.drag(spot(5, 50.0, 115.0)), None);
        assert_eq!(tap.drag(spot(5, 62.0, 100.0)), None);
        // Anywhere in the column of a note it is about that note.
        let filled = begin(Pointer::Finger, spot(12, 50.0, 100.0), Some(-3));
        assert_eq!((filled.place, filled.still_there), (StaffPosition(-3), true));
    }

    #[test]
    fn a_mouse_points() {
        let down = begin(Pointer::Exact, spot(6, 50.0, 50.0), Some(4));
        assert_eq!((down.place, down.still_there), (StaffPosition(6), false));
        assert_eq!(down.drag(spot(-2, 50.0, 80.0)).unwrap().place, StaffPosition(-2));
        let on_note = begin(Pointer::Exact, spot(5, 50.0, 50.0), Some(4));
        assert!(on_note.still_there && on_note.drag(spot(5, 50.0, 51.0)).unwrap().still_there);
        assert_eq!(on_note.drag(spot(6, 50.0, 40.0)).unwrap().place, StaffPosition(6));
    }
}
