//! Ties and slurs: from head to head, and over the ends of a system.

use super::chord::Chord;
use super::marks;
use super::skyline::Skyline;
use crate::drawing::Shape;
use crate::units::{Point, StaffSpace};
use crookwise_theory::Pitch;

/// How long a curve is whose other end stands on another system.
const LOOSE: f64 = 2.2;
/// From a head to the tip of a curve.
const GAP: f64 = 0.15;

/// A tie that waits for its other head.
pub(super) struct OpenTie {
    pub voice: usize,
    pub pitch: Pitch,
    pub from: Point,
    pub above: bool,
    /// The bar it begins in.
    pub bar: usize,
}

/// The curve of a tie.
pub(super) fn tie(from: Point, to: Point, above: bool) -> Shape {
    let length = (to.x - from.x).0.max(0.4);
    let rise = (0.3 + 0.06 * length).min(1.1);
    Shape::Tie {
        from,
        to: Point { x: from.x + StaffSpace(length), y: to.y },
        rise: StaffSpace(if above { rise } else { -rise }),
    }
}

/// The curve of a slur, over or under all that stands between its ends.
pub(super) fn slur(from: Point, to: Point, above: bool, skyline: &Skyline) -> Shape {
    let (left, right) = (from.x.0, to.x.0.max(from.x.0 + 0.6));
    let middle = (from.y.0 + to.y.0) / 2.0;
    let inside = (left + 0.4, right - 0.4);
    let needed = if above {
        middle - skyline.top(inside.0, inside.1).min(middle) + 0.3
    } else {
        skyline.bottom(inside.0, inside.1).max(middle) - middle + 0.3
    };
    // What stands inside the staff is no obstacle to a curve that lies outside its heads.
    let needed = if needed > 6.0 { 6.0 } else { needed };
    let rise = (0.6 + 0.05 * (right - left)).min(2.2).max(needed.min(3.0));
    let to = Point::new(right, to.y.0);
    Shape::Tie { from, to, rise: StaffSpace(if above { rise } else { -rise }) }
}

/// Where a tie begins at a head, and where it ends at one.
pub(super) fn tie_tips(chord: &Chord<'_>, x: f64, place: i32, head_x: f64, above: bool) -> (Point, Point) {
    let y = super::chord::y_of(place);
    let outer = if above { place >= chord.highest() } else { place <= chord.lowest() };
    let side = if above { -1.0 } else { 1.0 };
    let left = x + head_x;
    let right = left + chord.head_width();
    if outer {
        let y = y + 0.62 * side;
        (Point::new(right - chord.head_width() * 0.3, y), Point::new(left + chord.head_width() * 0.3, y))
    } else {
        let y = y + 0.2 * side;
        (Point::new(right + GAP, y), Point::new(left - GAP, y))
    }
}

/// Where a slur touches a chord: outside its signs of articulation.
pub(super) fn slur_tip(chord: &Chord<'_>, x: f64, above: bool, skyline: &Skyline) -> Point {
    let middle = x + chord.head_width() / 2.0;
    let stem_there = chord.has_stem() && chord.up == above;
    let mut y = match (above, stem_there) {
        (_, true) => chord.stem().1,
        (true, false) => super::chord::y_of(chord.highest()) - 0.5,
        (false, false) => super::chord::y_of(chord.lowest()) + 0.5,
    };
    if marks::are_on_side(chord, above) {
        let (left, right) = (middle - 0.2, middle + 0.2);
        y = if above { y.min(skyline.top(left, right)) } else { y.max(skyline.bottom(left, right)) };
    }
    Point::new(middle, if above { y - 0.3 } else { y + 0.3 })
}

/// A curve that comes from the system before.
pub(super) fn into(to: Point, left: f64, above: bool) -> Shape {
    tie(Point::new((to.x.0 - LOOSE).max(left), to.y.0), to, above)
}

/// A curve that goes on in the next system.
pub(super) fn out_of(from: Point, right: f64, above: bool) -> Shape {
    tie(from, Point::new(right.max(from.x.0 + 0.8), from.y.0), above)
}
