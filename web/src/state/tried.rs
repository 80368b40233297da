//! A note that is only tried: under the finger, or where the mouse would place one.

use crate::state::gesture::{Gesture, Pointer};
use crate::state::score_sheet::System;
use crate::state::view::View;
use crookwise_share::ReadPage;
use crookwise_theory::{Printed, Reading, StaffPosition};

/// Where the reader points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pointed {
    /// Nowhere.
    Away,
    /// Over a staff, a column and a place, with nothing pressed.
    Over(usize, usize, StaffPosition),
    /// A finger, pen or mouse is down.
    Down(Gesture),
}

/// A note that would be placed.
#[derive(Clone, Debug, PartialEq)]
pub struct Tried {
    /// Its column.
    pub column: usize,
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

/// The note a gesture stands for and what it would sound.
#[must_use]
pub fn note(view: &View, page: &ReadPage, gesture: Gesture) -> (Printed, Option<Reading>) {
    let standing = view.columns.get(gesture.column).filter(|_| gesture.still_there);
    match standing.and_then(|column| column.printed) {
        Some(printed) => (printed, standing.and_then(|column| column.reading)),
        None => view.try_place(page, gesture.place),
    }
}

impl Tried {
    /// What is tried on a staff of a system; `None` where the reader points elsewhere.
    #[must_use]
    pub fn on(system: &System, staff: usize, view: &View, page: &ReadPage, pointed: Pointed) -> Option<Self> {
        let (column, (printed, reading), by_finger) = match pointed {
            Pointed::Over(over, column, place) if over == staff => {
                (column, view.try_place(page, place), false)
            }
            Pointed::Down(gesture) if gesture.staff == staff => {
                (gesture.column, note(view, page, gesture), gesture.pointer == Pointer::Finger)
            }
            _ => return None,
        };
        let middle = system.left(column)? + system.column / 2.0;
        let words = match reading {
            Some(reading) => {
                format!("{} → {}", view.names.note(printed.0), view.names.note(reading.sounding.0))
            }
            None => view.names.note(printed.0),
        };
        Some(Self {
            column,
            printed,
            words,
            by_finger,
            room_on_the_left: middle > (system.head + system.column * system.columns.len() as f64) / 2.0,
            middle,
        })
    }
}
