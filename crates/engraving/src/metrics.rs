//! The measures that staves under each other share: where columns stand, and where a staff is broken.

use crate::column;
use crate::head::{Change, head_width};
use crate::spec::StaffSpec;
use crate::units::StaffSpace;
use core::ops::Range;

/// Between the ink of two columns.
const COLUMN_GAP: StaffSpace = StaffSpace(0.7);

/// Between a bar line and a column beside it: their ink keeps half the gap of two columns more.
const BAR_GAP: StaffSpace = StaffSpace(0.3);

/// Room for what stands before a column.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Before {
    /// Where a bar begins, the room before its line: that of a new clef at least.
    pub line: StaffSpace,
    /// The room behind: that of a new signature, or of every change where no bar begins.
    pub column: StaffSpace,
}

impl Before {
    /// All of it.
    #[must_use]
    pub fn whole(self) -> StaffSpace {
        self.line + self.column
    }
}

/// Where the columns of a system stand. The same for all its staves, so that what sounds together stands together.
#[derive(Clone, Debug, PartialEq)]
pub struct Metrics {
    /// From the left end of the staff to the first column.
    pub head: StaffSpace,
    /// The width of every column.
    pub column: StaffSpace,
    /// Room for bar lines and changes of clef or signature before a column, from the system's first column on; the rest
    /// have none.
    pub before: Vec<Before>,
}

impl Metrics {
    /// The measures for some columns of staves under each other: the widest head, the widest change.
    #[must_use]
    pub fn fit(staves: &[&StaffSpec], columns: Range<usize>, column: StaffSpace) -> Self {
        let head = staves
            .iter()
            .map(|staff| {
                let (clef, signature) = staff.in_force(columns.start);
                head_width(clef, signature)
            })
            .fold(StaffSpace::ZERO, StaffSpace::max);
        let mut before = vec![Before::default(); columns.len()];
        for staff in staves {
            let mut force = staff.in_force(columns.start);
            // At the first column nothing changes any more: the head shows what is in force there.
            for (at, (room, spec)) in
                before.iter_mut().zip(staff.columns.iter().skip(columns.start)).enumerate()
            {
                let change = Change::at(force, spec);
                let gap = if at > 0 && spec.bar.is_some() { BAR_GAP } else { StaffSpace::ZERO };
                room.line = room.line.max(change.line.1).max(gap);
                room.column = room.column.max(change.column.1).max(gap);
                force = change.to;
            }
        }
        Self { head, column, before }
    }

    /// The same places on a staff of another size.
    pub(crate) fn on(&self, size: f64) -> Self {
        let smaller = |room: &Before| Before { line: room.line / size, column: room.column / size };
        let before = self.before.iter().map(smaller).collect();
        Self { head: self.head / size, column: self.column / size, before }
    }

    /// The left edge of a column, counted from the system's first; its room for changes comes before it.
    #[must_use]
    pub fn left(&self, at: usize) -> StaffSpace {
        let rooms = self
            .before
            .iter()
            .take(at.saturating_add(1))
            .fold(StaffSpace::ZERO, |sum, room| sum + room.whole());
        self.head + rooms + self.column * at as f64
    }

    /// The bar line before a column, counted from the system's first; at the first the head stands in its place.
    #[must_use]
    pub(crate) fn bar_line(&self, at: usize) -> Option<StaffSpace> {
        let room = at.checked_sub(1).and_then(|_| self.before.get(at))?;
        Some(self.left(at) - room.column)
    }

    /// The middle of a column, counted from the system's first.
    #[must_use]
    pub fn center(&self, at: usize) -> StaffSpace {
        self.left(at) + self.column / 2.0
    }

    /// The column under x among so many, counted from the system's first; the room of a change belongs to the column
    /// after it.
    #[must_use]
    pub fn column_at(&self, x: StaffSpace, columns: usize) -> Option<usize> {
        if x < self.head {
            return None;
        }
        (0..columns).find(|&at| x < self.left(at) + self.column)
    }

    /// The right end of a staff with so many columns.
    #[must_use]
    pub fn width(&self, columns: usize) -> StaffSpace {
        match columns.checked_sub(1) {
            Some(last) => self.left(last) + self.column,
            None => self.head,
        }
    }
}

/// The narrowest width at which no column of a staff touches its neighbour; no less than 3 staff spaces.
#[must_use]
pub fn narrowest_column(spec: &StaffSpec) -> StaffSpace {
    let (mut clef, mut signature) = (spec.clef, spec.signature);
    let mut narrowest = StaffSpace(3.0);
    let mut right = StaffSpace::ZERO;
    for column in &spec.columns {
        clef = column.clef_change.unwrap_or(clef);
        signature = column.signature_change.unwrap_or(signature);
        let ink = column::lay_out(column, clef, signature, spec.ink).drawing.bounds().unwrap_or_default();
        // Half a column must also hold what stands on one side alone, at the ends of the staff.
        narrowest = narrowest
            .max(right - ink.left + COLUMN_GAP)
            .max(-ink.left * 2.0 + COLUMN_GAP)
            .max(ink.right * 2.0 + COLUMN_GAP);
        right = ink.right;
    }
    narrowest
}

/// Breaks columns into systems, each as full as `available` allows behind a head; at least one column in each.
///
/// ```
/// # use crookwise_engraving::{StaffSpace, break_columns};
/// let systems = break_columns(7, StaffSpace(25.0), StaffSpace(5.0), StaffSpace(6.0));
/// assert_eq!(systems, [0..3, 3..6, 6..7]);
/// ```
#[must_use]
pub fn break_columns(
    total: usize,
    available: StaffSpace,
    head_width: StaffSpace,
    column: StaffSpace,
) -> Vec<Range<usize>> {
    let fits = ((available - head_width).0 / column.0 + 1e-9).floor();
    // What is no number, or too small, becomes one.
    let fits = if fits >= 1.0 { (fits as usize).min(total.max(1)) } else { 1 };
    (0..total).step_by(fits).map(|start| start..start.saturating_add(fits).min(total)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn breaks_cover_all_columns_once() {
        for total in 0..40 {
            for column in [f64::NAN, -1.0, 0.0, 0.5, 6.0, 100.0, f64::INFINITY] {
                let systems = break_columns(total, StaffSpace(31.0), StaffSpace(7.0), StaffSpace(column));
                let flat: Vec<usize> = systems.iter().cloned().flatten().collect();
                assert_eq!(flat, (0..total).collect::<Vec<_>>());
                assert!(systems.iter().all(|system| !system.is_empty()));
            }
        }
        assert_eq!(break_columns(9, StaffSpace(31.0), StaffSpace(7.0), StaffSpace(6.0)), [0..4, 4..8, 8..9]);
    }
}
