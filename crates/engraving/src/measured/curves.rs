//! Ties and slurs: from head to head, and over the ends of a system.

use super::chord::Chord;
use super::marks;
use super::skyline::Skyline;
use crate::drawing::{Shape, tie_height};
use crate::units::{Bounds, Point, StaffSpace};
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

/// From a slur to what stands under it.
const CLEAR: f64 = 0.25;
/// How far a tip may give way.
const MOST_LIFT: f64 = 4.0;

/// The curve of a slur, over or under all that stands between its ends: it rises as far as a curve of its length may, and what is
/// still missing its nearer tip gives way.
pub(super) fn slur(from: Point, to: Point, above: bool, skyline: &Skyline) -> Shape {
    let side = if above { -1.0 } else { 1.0 };
    let (left, right) = (from.x.0, to.x.0.max(from.x.0 + 0.6));
    let length = right - left;
    let under = corners(skyline, (left, right), above);
    let (least, most) = ((0.6 + 0.05 * length).min(2.2), (0.25 * length).clamp(1.0, 3.5));
    // Heights grow away from the notes.
    let (mut start, mut end, mut rise) = (from.y.0 * side, to.y.0 * side, least);
    let (first, last) = (start, end);
    for _ in 0..4 {
        let line = |part: f64| start + (end - start) * part;
        let short = |corner: &Corner| corner.y * side + CLEAR - line(corner.part);
        let rises =
            under.iter().filter(|corner| corner.high > 0.35).map(|corner| short(corner) / corner.high);
        rise = rises.fold(least, f64::max).min(most.max(least));
        let lift = |near: bool| {
            let own = under.iter().filter(|corner| (corner.part < 0.5) == near);
            own.map(|corner| short(corner) - rise * corner.high).fold(0.0, f64::max)
        };
        let (by_start, by_end) = (lift(true), lift(false));
        start = (start + by_start).min(first + MOST_LIFT);
        end = (end + by_end).min(last + MOST_LIFT);
    }
    let (from, to) = (Point::new(left, start * side), Point::new(right, end * side));
    Shape::Tie { from, to, rise: StaffSpace(-side * rise) }
}

/// A corner of what stands under a slur.
struct Corner {
    /// Where it stands on the way from one end to the other, from 0 to 1.
    part: f64,
    /// How high a slur is there, its middle being 1.
    high: f64,
    y: f64,
}

/// The corners of all that stands between the ends of a slur, on its side.
fn corners(skyline: &Skyline, (left, right): (f64, f64), above: bool) -> Vec<Corner> {
    let corner = |own: &Bounds| {
        let y = if above { own.top.0 } else { own.bottom.0 };
        [own.left.0.max(left), own.right.0.min(right)].map(|x| {
            let part = (x - left) / (right - left);
            Corner { part, high: tie_height(part), y }
        })
    };
    skyline.over(left, right).flat_map(corner).collect()
}

/// Where a tie begins at a head, and where it ends at one.
pub(super) fn tie_tips(chord: &Chord<'_>, x: f64, place: i32, head_x: f64, above: bool) -> (Point, Point) {
    let y = super::chord::y_of(place);
    let outer = if above { place >= chord.highest() } else { place <= chord.lowest() };
    let side = if above { -1.0 } else { 1.0 };
    let left = x + head_x;
    let right = left + chord.head_width();
    // A tie begins behind the dots that stand in its way: those of a head on a line, and those of inner heads.
    let dotted = chord.event.dots > 0 && (!outer || place % 2 == 0 && above != chord.lower);
    let right = if dotted { x + chord.dots_right() } else { right };
    if outer && !dotted {
        let y = y + 0.62 * side;
        (Point::new(right - chord.head_width() * 0.3, y), Point::new(left + chord.head_width() * 0.3, y))
    } else if outer {
        let y = y + 0.62 * side;
        (Point::new(right + GAP, y), Point::new(left + chord.head_width() * 0.3, y))
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
