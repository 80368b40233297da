//! What joins rows at the left: a brace for the staves of one instrument, a bracket for a family.

use super::MusicSheet;
use crate::drawing::{Drawing, Ink, Shape};
use crate::glyph::measured;
use crate::units::{Point, StaffSpace};
use crookwise_score::score::GroupSign;

/// Thickness of a bracket (engraving default of the font).
const BRACKET: f64 = 0.5;
/// From a bracket or brace to the staves.
const GAP: f64 = 0.35;

/// Rows of a sheet that are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SheetGroup {
    /// The first of them.
    pub first: usize,
    /// The last of them.
    pub last: usize,
    /// By what.
    pub sign: GroupSign,
}

impl MusicSheet {
    /// Draws what joins rows with these tops, to the left of staves that begin at `left`.
    pub(super) fn draw_groups(&self, drawing: &mut Drawing, tops: &[f64], left: f64) {
        for group in &self.groups {
            let (Some(top), Some(last)) = (tops.get(group.first), tops.get(group.last)) else { continue };
            let (top, bottom) = (*top, last + 4.0);
            match group.sign {
                GroupSign::Brace => {
                    let at = Point::new(left - GAP, top);
                    drawing.push(Shape::Brace { top: at, height: StaffSpace(bottom - top) }, Ink::Sign, None);
                }
                GroupSign::Bracket => bracket(drawing, left - GAP, (top, bottom)),
                GroupSign::Line => {
                    let x = left - GAP;
                    let (from, to) = (Point::new(x, top), Point::new(x, bottom));
                    drawing.push(Shape::Line { from, to, thickness: StaffSpace(0.16) }, Ink::Sign, None);
                }
                GroupSign::None => {}
            }
        }
    }
}

/// A bracket with its right edge at `right`; its ends reach over the staves.
fn bracket(drawing: &mut Drawing, right: f64, (top, bottom): (f64, f64)) {
    let left = right - BRACKET;
    for (sign, y) in [(&measured::BRACKET_TOP, top), (&measured::BRACKET_BOTTOM, bottom)] {
        drawing.push(Shape::Sign { sign, at: Point::new(left, y), scale: 1.0 }, Ink::Sign, None);
    }
    let x = left + BRACKET / 2.0;
    let (from, to) = (Point::new(x, top), Point::new(x, bottom));
    drawing.push(Shape::Line { from, to, thickness: StaffSpace(BRACKET) }, Ink::Sign, None);
}
