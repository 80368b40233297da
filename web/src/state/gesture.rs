//! A finger, pen or mouse on the staff, from touching down to letting go.

use crookwise_theory::StaffPosition;

/// Pixels a finger moves for one line or space: finer than the staff itself, so that a thick finger hits.
const FINGER_PIXELS: f64 = 14.0;
/// Places from a note within which a finger takes hold of it.
const FINGER_GRIP: i32 = 4;
/// Places from a note within which a mouse or pen takes hold of it.
const POINT_GRIP: i32 = 1;

/// What touches the staff.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pointer {
    /// A mouse or a pen: it points exactly.
    Exact,
    /// A finger: it covers what it points at, so moving it moves finely.
    Finger,
}

/// Which staff is touched.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Target {
    /// A written staff, by its number from the top.
    Written(usize),
    /// A staff that sounds, by its number from the top: what is placed there is written for the selected player.
    Sounding(usize),
}

/// A note being placed or moved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gesture {
    /// What touches.
    pub pointer: Pointer,
    /// The staff it touched.
    pub on: Target,
    /// The column it touched.
    pub column: usize,
    /// Where the note would stand if let go now.
    pub place: StaffPosition,
    /// Whether a note that stood there already has been taken hold of and has not moved.
    pub still_there: bool,
    start: StaffPosition,
    start_y: f64,
    reach: (StaffPosition, StaffPosition),
}

impl Gesture {
    /// Touches a column at a place, `y` in pixels downwards; `existing` is the note that stands there.
    #[must_use]
    pub fn begin(
        pointer: Pointer,
        (on, column): (Target, usize),
        touched: StaffPosition,
        existing: Option<StaffPosition>,
        y: f64,
        reach: (StaffPosition, StaffPosition),
    ) -> Self {
        let grip = match pointer {
            Pointer::Exact => POINT_GRIP,
            Pointer::Finger => FINGER_GRIP,
        };
        let taken = existing.filter(|note| (note.0 - touched.0).abs() <= grip);
        let place = taken.unwrap_or(StaffPosition(touched.0.clamp(reach.0.0, reach.1.0)));
        Self { pointer, on, column, place, still_there: taken.is_some(), start: place, start_y: y, reach }
    }

    /// Moves; `touched` is the place under the pointer, `y` its height in pixels.
    #[must_use]
    pub fn drag(self, touched: StaffPosition, y: f64) -> Self {
        let place = match self.pointer {
            Pointer::Exact if self.still_there && (touched.0 - self.start.0).abs() <= POINT_GRIP => {
                self.start.0
            }
            Pointer::Exact => touched.0,
            Pointer::Finger => self.start.0 + ((self.start_y - y) / FINGER_PIXELS).round() as i32,
        };
        let place = StaffPosition(place.clamp(self.reach.0.0, self.reach.1.0));
        Self { place, still_there: self.still_there && place == self.start, ..self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const REACH: (StaffPosition, StaffPosition) = (StaffPosition(-12), StaffPosition(12));

    #[test]
    fn a_finger_moves_finely_from_where_it_touched() {
        let down =
            Gesture::begin(Pointer::Finger, (Target::Written(0), 2), StaffPosition(3), None, 100.0, REACH);
        assert_eq!(down.place, StaffPosition(3));
        assert_eq!(down.drag(StaffPosition(9), 94.0).place, StaffPosition(3));
        assert_eq!(down.drag(StaffPosition(9), 86.0).place, StaffPosition(4));
        assert_eq!(down.drag(StaffPosition(9), 142.0).place, StaffPosition(0));
        assert_eq!(down.drag(StaffPosition(9), 9_000.0).place, StaffPosition(-12));
    }

    #[test]
    fn a_finger_takes_hold_of_a_note_it_covers() {
        let down = Gesture::begin(
            Pointer::Finger,
            (Target::Written(0), 0),
            StaffPosition(6),
            Some(StaffPosition(4)),
            50.0,
            REACH,
        );
        assert_eq!((down.place, down.still_there), (StaffPosition(4), true));
        let moved = down.drag(StaffPosition(0), 36.0);
        assert_eq!((moved.place, moved.still_there), (StaffPosition(5), false));
    }

    #[test]
    fn a_mouse_points() {
        let down = Gesture::begin(
            Pointer::Exact,
            (Target::Written(0), 0),
            StaffPosition(6),
            Some(StaffPosition(4)),
            50.0,
            REACH,
        );
        assert_eq!((down.place, down.still_there), (StaffPosition(6), false));
        assert_eq!(down.drag(StaffPosition(-2), 80.0).place, StaffPosition(-2));
        let on_note = Gesture::begin(
            Pointer::Exact,
            (Target::Written(0), 0),
            StaffPosition(5),
            Some(StaffPosition(4)),
            50.0,
            REACH,
        );
        assert!(on_note.still_there && on_note.drag(StaffPosition(5), 51.0).still_there);
        assert_eq!(on_note.drag(StaffPosition(6), 40.0).place, StaffPosition(6));
    }
}
