//! Directions over a staff: "muta in D" over the column it holds from, clear of the notes under it and of one another.

use crate::drawing::{Drawing, Ink, Shape, TextAlign, TextFace};
use crate::metrics::Metrics;
use crate::units::{Bounds, Point, StaffSpace};

/// The size of the type.
const SIZE: StaffSpace = StaffSpace(1.9);
/// Between a direction and what stands under it.
const GAP: StaffSpace = StaffSpace(0.7);

/// Draws the directions of some columns, counted from the system's first. Each begins at the left edge of its column,
/// or ends at the right end of the staff where it would be longer than that.
pub(crate) fn draw_directions(
    drawing: &mut Drawing,
    directions: &[(usize, &Vec<String>)],
    metrics: &Metrics,
    width: StaffSpace,
) {
    let mut set: Vec<Bounds> = drawing.items.iter().map(|item| item.shape.bounds()).collect();
    for &(at, lines) in directions {
        for text in lines.iter().rev() {
            let shape = |left: StaffSpace, base: StaffSpace| Shape::Text {
                text: text.clone(),
                at: Point { x: left, y: base },
                size: SIZE,
                align: TextAlign::Start,
                face: TextFace::Italic,
            };
            let long = shape(StaffSpace::ZERO, StaffSpace::ZERO).bounds().width();
            let left = metrics.left(at).min(width - long).max(StaffSpace::ZERO);
            let under = set.iter().filter(|ink| ink.right > left && ink.left < left + long);
            let base = under.fold(StaffSpace::ZERO, |top, ink| top.min(ink.top)) - GAP;
            let shape = shape(left, base);
            set.push(shape.bounds());
            drawing.push(shape, Ink::Sign, None);
        }
    }
}
