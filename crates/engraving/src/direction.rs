//! What stands over a staff, clear of the notes under it and of one another: directions such as "muta in D" over the
//! column they hold from, numbers of bars over their lines.

use crate::drawing::{Drawing, Ink, Shape, TextAlign, TextFace};
use crate::units::{Bounds, Point, StaffSpace};

/// The size of the type of a direction, and of a number.
const SIZE: StaffSpace = StaffSpace(1.9);
const NUMBER: StaffSpace = StaffSpace(1.5);
/// Between a direction and what stands under it.
const GAP: StaffSpace = StaffSpace(0.7);
/// The same for a number.
const NUMBER_GAP: StaffSpace = StaffSpace(0.45);

/// A text over a staff.
pub(crate) struct Over<'a> {
    text: &'a str,
    /// Where it stands, and which of its ends.
    at: (StaffSpace, TextAlign),
    size: StaffSpace,
    gap: StaffSpace,
    face: TextFace,
}

impl<'a> Over<'a> {
    /// A direction that begins at the left edge of its column.
    pub(crate) fn direction(text: &'a str, left: StaffSpace) -> Self {
        Self { text, at: (left, TextAlign::Start), size: SIZE, gap: GAP, face: TextFace::Italic }
    }

    /// The number of a bar over the middle of its line; at the head of a staff over its left end.
    pub(crate) fn number(text: &'a str, line: Option<StaffSpace>) -> Self {
        let at = line.map_or((StaffSpace::ZERO, TextAlign::Start), |line| (line, TextAlign::Middle));
        Self { text, at, size: NUMBER, gap: NUMBER_GAP, face: TextFace::Upright }
    }
}

/// Draws texts over a staff so long, each over those before it that are in its way. One that would be longer than the
/// staff ends at its right end.
pub(crate) fn draw_over(drawing: &mut Drawing, over: Vec<Over<'_>>, width: StaffSpace) {
    let mut set: Vec<Bounds> = drawing.items.iter().map(|item| item.shape.bounds()).collect();
    for Over { text, at, size, gap, face } in over.into_iter().filter(|over| !over.text.is_empty()) {
        let shape = |left: StaffSpace, base: StaffSpace| Shape::Text {
            text: text.to_owned(),
            at: Point { x: left, y: base },
            size,
            align: TextAlign::Start,
            face,
        };
        let long = shape(StaffSpace::ZERO, StaffSpace::ZERO).bounds().width();
        let left = if at.1 == TextAlign::Middle { at.0 - long / 2.0 } else { at.0 };
        let left = left.min(width - long).max(StaffSpace::ZERO);
        let under = set.iter().filter(|ink| ink.right > left && ink.left < left + long);
        let base = under.fold(StaffSpace::ZERO, |top, ink| top.min(ink.top)) - gap;
        let shape = shape(left, base);
        set.push(shape.bounds());
        drawing.push(shape, Ink::Sign, None);
    }
}
