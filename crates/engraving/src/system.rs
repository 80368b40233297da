//! Staves under each other: how far apart, and what joins them at the left.

use crate::drawing::{Drawing, Ink, Shape, brace_scale};
use crate::glyph::Glyph;
use crate::layout::StaffLayout;
use crate::units::{Bounds, Point, StaffSpace};

/// Thickness of a thin bar line (engraving default of the font).
pub(crate) const BAR_LINE: StaffSpace = StaffSpace(0.16);
/// Between a brace and the staves.
const BRACE_GAP: StaffSpace = StaffSpace(0.25);
/// The least room between the lines of two staves.
const LEAST_ROOM: StaffSpace = StaffSpace(4.0);

/// What joins the staves of a system at the left.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Join {
    /// Nothing.
    None,
    /// A line.
    #[default]
    Line,
    /// A line and a brace, as for a keyboard.
    Brace,
}

/// Staves under each other. y = 0 is the top line of the first.
#[derive(Clone, Debug, PartialEq)]
pub struct System {
    /// What is drawn.
    pub drawing: Drawing,
    /// The top line of each staff.
    pub tops: Vec<StaffSpace>,
    /// The tightest rectangle round all ink.
    pub bounds: Bounds,
}

/// Sets staves under each other with so much room between the ink of neighbours, and at least four spaces between
/// their lines.
#[must_use]
pub fn stack_staves(staves: Vec<StaffLayout>, room: StaffSpace, join: Join) -> System {
    let mut system = System { drawing: Drawing::default(), tops: Vec::new(), bounds: Bounds::default() };
    let mut above: Option<(StaffSpace, StaffSpace)> = None;
    for staff in staves {
        let top = match above {
            None => StaffSpace::ZERO,
            Some((line, ink)) => (ink + room - staff.bounds.top).max(line + LEAST_ROOM),
        };
        above = Some((top + StaffSpace(4.0), top + staff.bounds.bottom));
        system.bounds = system.bounds.union(staff.bounds.shifted(StaffSpace::ZERO, top));
        system.tops.push(top);
        system.drawing.place(staff.drawing, StaffSpace::ZERO, top);
    }
    let Some((bottom, _)) = above else { return system };
    let mut joints = Drawing::default();
    if join != Join::None {
        let x = BAR_LINE / 2.0;
        let (from, to) = (Point { x, y: StaffSpace::ZERO }, Point { x, y: bottom });
        joints.push(Shape::Line { from, to, thickness: BAR_LINE }, Ink::Staff, None);
    }
    if join == Join::Brace {
        let right = Glyph::Brace.bounds().right * brace_scale(bottom).0;
        let top = Point { x: -BRACE_GAP - right, y: StaffSpace::ZERO };
        joints.push(Shape::Brace { top, height: bottom }, Ink::Sign, None);
    }
    if let Some(ink) = joints.bounds() {
        system.bounds = system.bounds.union(ink);
    }
    system.drawing.place(joints, StaffSpace::ZERO, StaffSpace::ZERO);
    system
}
