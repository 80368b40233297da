//! The corners of what has no outline in the font, from the upper left and clockwise.

use crate::drawing::{TIE_MIDDLE, TIE_TIP};
use crate::units::{Point, StaffSpace};

/// A beam, whose ends are upright, from its left to its right end.
pub(super) fn beam(from: Point, to: Point, thickness: StaffSpace) -> [(f64, f64); 4] {
    let half = thickness.0 / 2.0;
    let (left, right) = (from.x.0, to.x.0);
    [(left, from.y.0 - half), (right, to.y.0 - half), (right, to.y.0 + half), (left, from.y.0 + half)]
}

/// A line that is neither upright nor level; begins at the left of who walks along it.
pub(super) fn slanted(from: Point, to: Point, thickness: StaffSpace) -> [(f64, f64); 4] {
    let (dx, dy) = ((to.x - from.x).0, (to.y - from.y).0);
    // A square root is exact on every machine.
    let reach = thickness.0 / 2.0 / (dx * dx + dy * dy).sqrt();
    let (ox, oy) = (dy * reach, -dx * reach);
    [
        (from.x.0 + ox, from.y.0 + oy),
        (to.x.0 + ox, to.y.0 + oy),
        (to.x.0 - ox, to.y.0 - oy),
        (from.x.0 - ox, from.y.0 - oy),
    ]
}

/// Four points of a cubic curve.
type Curve = [(f64, f64); 4];

/// The upper edge of a tie to the right, and its lower edge back.
pub(super) fn tie(from: Point, to: Point, rise: StaffSpace) -> (Curve, Curve) {
    let (x, y, dx, dy) = (from.x.0, from.y.0, (to.x - from.x).0, (to.y - from.y).0);
    let up = if rise < StaffSpace::ZERO { 1.0 } else { -1.0 };
    let tip = up * TIE_TIP / 2.0;
    // The middle of a cubic curve reaches three quarters of the height of its two inner points.
    let outer = (tip, (-rise.0 - tip) / 0.75);
    let inner = (-tip, (-rise.0 - up * TIE_MIDDLE + tip) / 0.75);
    let (upper, lower) = if rise < StaffSpace::ZERO { (inner, outer) } else { (outer, inner) };
    let at = |share: f64, down: f64| (x + dx * share, y + dy * share + down);
    let rightwards =
        |(tip, bend): (f64, f64)| [at(0.0, tip), at(0.2, tip + bend), at(0.8, tip + bend), at(1.0, tip)];
    let mut back = rightwards(lower);
    back.reverse();
    (rightwards(upper), back)
}
