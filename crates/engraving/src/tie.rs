//! Ties from one column to the next, and those that cross the end of a system.

use crate::column::HeadPlace;
use crate::drawing::Shape;
use crate::units::{Point, StaffSpace};

/// From a tip of a tie to the head it belongs to, level.
const GAP: StaffSpace = StaffSpace(0.12);
/// From the middle of a head to the tip of a tie outside it, upright.
const OUTSIDE: StaffSpace = StaffSpace(0.68);
/// From the middle of a head to the tip of a tie beside it, upright.
const BESIDE: StaffSpace = StaffSpace(0.22);
/// How long a tie is whose other head stands on another system.
const LOOSE: StaffSpace = StaffSpace(1.6);

/// Which heads a tie joins; at the end of a system one of them is missing.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Tie {
    /// Both on this system.
    Between(HeadPlace, HeadPlace),
    /// From an earlier system or from nothing.
    Into(HeadPlace),
    /// To the next system, as far as this.
    OutOf(HeadPlace, StaffSpace),
}

/// The curve of a tie; the heads stand where they stand on the system.
pub(crate) fn curve(tie: Tie) -> Shape {
    let (model, left, right) = match tie {
        Tie::Between(from, to) => {
            // Both ends alike: outside the heads only where both heads are outermost.
            let model = HeadPlace { outer: from.outer && to.outer, ..to };
            (model, right_of(from, model.outer), left_of(to, model.outer))
        }
        Tie::Into(to) => (to, left_of(to, to.outer) - LOOSE, left_of(to, to.outer)),
        Tie::OutOf(from, end) => {
            let left = right_of(from, from.outer);
            (from, left, end.max(left + LOOSE / 2.0))
        }
    };
    let side = if model.curve_up { -1.0 } else { 1.0 };
    let middle = (model.bounds.top + model.bounds.bottom) / 2.0;
    let y = middle + if model.outer { OUTSIDE } else { BESIDE } * side;
    // Longer ties rise more, but never much.
    let length = (right - left).0.max(0.0);
    let rise = StaffSpace((0.32 + 0.055 * length).min(1.0)) * -side;
    Shape::Tie { from: Point { x: left, y }, to: Point { x: right.max(left), y }, rise }
}

/// Outside a head a tie begins over its right half, beside it after it.
fn right_of(head: HeadPlace, outer: bool) -> StaffSpace {
    if outer { head.bounds.right - head.bounds.width() * 0.3 } else { head.bounds.right + GAP }
}

fn left_of(head: HeadPlace, outer: bool) -> StaffSpace {
    if outer { head.bounds.left + head.bounds.width() * 0.3 } else { head.bounds.left - GAP }
}
