//! A note that is only tried: under the finger, or where the mouse would place one.

use crate::state::gesture::{Gesture, Pointer, Target};
use crate::state::score_sheet::{SheetSystem, StaffPicture};
use crate::state::view::View;
use crate::words;
use crookwise_share::ReadPage;
use crookwise_theory::{Pitch, Printed, Reading, Sounding, StaffPosition};

/// Where the reader points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pointed {
    /// Nowhere.
    Away,
    /// Over a staff, a column and a place, with nothing pressed.
    Over(Target, usize, StaffPosition),
    /// A finger, pen or mouse is down.
    Down(Gesture),
}

/// A note that would be placed.
#[derive(Clone, Debug, PartialEq)]
pub struct Tried {
    /// Its column.
    pub column: usize,
    /// As it stands on the staff that is pointed at.
    pub shown: Pitch,
    /// As printed.
    pub printed: Printed,
    /// What is printed and what would sound.
    pub words: String,
    /// Whether a finger covers it.
    pub by_finger: bool,
    /// Whether there is more room to its left than to its right.
    pub room_on_the_left: bool,
    /// The middle of its column in pixels.
    pub middle: f64,
}

/// A note on the staff that is pointed at, and what it means for the player who reads.
pub type Meant = (Pitch, Printed, Option<Reading>);

/// What a place on a staff means for a player.
#[must_use]
pub fn at_place(
    view: &View,
    page: &ReadPage,
    (on, column): (Target, usize),
    staff: &StaffPicture,
    place: StaffPosition,
) -> Option<Meant> {
    match on {
        Target::Written(_) => {
            let (printed, reading) = view.try_place(page, column, place);
            Some((printed.0, printed, reading))
        }
        Target::Sounding(_) => {
            let (clef, signature) = staff.head_at(column);
            let natural = clef.pitch_at(place);
            let pitch = Pitch { alter: signature.alteration(natural.step), ..natural };
            let (printed, reading) = view.write_sounding(page, column, Sounding(pitch))?;
            Some((pitch, printed, Some(reading)))
        }
    }
}

/// The note a gesture stands for.
#[must_use]
pub fn note(view: &View, page: &ReadPage, staff: &StaffPicture, gesture: Gesture) -> Option<Meant> {
    let standing = view.columns.get(gesture.column).filter(|_| gesture.still_there);
    match standing.and_then(|column| column.printed) {
        Some(printed) => {
            let reading = standing.and_then(|column| column.reading);
            let shown = match (gesture.on, reading) {
                (Target::Sounding(_), Some(reading)) => reading.sounding.0,
                _ => printed.0,
            };
            Some((shown, printed, reading))
        }
        None => at_place(view, page, (gesture.on, gesture.column), staff, gesture.place),
    }
}

impl Tried {
    /// What is tried on a staff of a system; `None` where the reader points elsewhere.
    #[must_use]
    pub fn on(
        system: &SheetSystem,
        on: Target,
        view: &View,
        page: &ReadPage,
        pointed: Pointed,
    ) -> Option<Self> {
        let staff = system.picture(on)?;
        let (column, (shown, printed, reading), by_finger) = match pointed {
            Pointed::Over(over, column, place) if over == on => {
                (column, at_place(view, page, (on, column), staff, place)?, false)
            }
            Pointed::Down(gesture) if gesture.on == on => {
                // A finger in the column of a note only selects it.
                if gesture.pointer == Pointer::Finger && gesture.still_there {
                    return None;
                }
                (gesture.column, note(view, page, staff, gesture)?, gesture.pointer != Pointer::Exact)
            }
            _ => return None,
        };
        let middle = system.left(column)? + system.column / 2.0;
        let words = match reading {
            Some(reading) => {
                format!("{} → {}", view.names.note(printed.0), view.names.note(reading.sounding.0))
            }
            None if view.place_at(column).is_some_and(|place| !place.staff.is_pitched()) => {
                words::STROKE.to_owned()
            }
            None => view.names.note(printed.0),
        };
        Some(Self {
            column,
            shown,
            printed,
            words,
            by_finger,
            room_on_the_left: middle > system.width() / 2.0,
            middle,
        })
    }
}
