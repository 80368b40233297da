//! Lengths and places in staff spaces: the only measure of a drawing.

use core::ops::{Add, AddAssign, Div, Mul, Neg, Sub};

/// A length in staff spaces: 1 is the distance of two neighbouring lines of a staff.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct StaffSpace(pub f64);

impl StaffSpace {
    /// No length.
    pub const ZERO: Self = Self(0.0);

    /// The larger of two lengths.
    #[must_use]
    pub fn max(self, other: Self) -> Self {
        Self(self.0.max(other.0))
    }

    /// The smaller of two lengths.
    #[must_use]
    pub fn min(self, other: Self) -> Self {
        Self(self.0.min(other.0))
    }
}

impl Add for StaffSpace {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl AddAssign for StaffSpace {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl Sub for StaffSpace {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Neg for StaffSpace {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Mul<f64> for StaffSpace {
    type Output = Self;
    fn mul(self, by: f64) -> Self {
        Self(self.0 * by)
    }
}

impl Div<f64> for StaffSpace {
    type Output = Self;
    fn div(self, by: f64) -> Self {
        Self(self.0 / by)
    }
}

/// A place in a drawing. x grows to the right, y downwards; the top line of the staff is y = 0.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: StaffSpace,
    /// Downwards.
    pub y: StaffSpace,
}

impl Point {
    /// The place so many staff spaces to the right and down.
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x: StaffSpace(x), y: StaffSpace(y) }
    }
}

/// An upright rectangle, such as the tightest one round some ink.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Bounds {
    /// The left edge.
    pub left: StaffSpace,
    /// The upper edge, smaller than `bottom`.
    pub top: StaffSpace,
    /// The right edge.
    pub right: StaffSpace,
    /// The lower edge.
    pub bottom: StaffSpace,
}

impl Bounds {
    /// The rectangle with these edges in staff spaces.
    #[must_use]
    pub const fn new(left: f64, top: f64, right: f64, bottom: f64) -> Self {
        Self {
            left: StaffSpace(left),
            top: StaffSpace(top),
            right: StaffSpace(right),
            bottom: StaffSpace(bottom),
        }
    }

    /// From left to right.
    #[must_use]
    pub fn width(self) -> StaffSpace {
        self.right - self.left
    }

    /// From top to bottom.
    #[must_use]
    pub fn height(self) -> StaffSpace {
        self.bottom - self.top
    }

    /// The smallest rectangle round both.
    #[must_use]
    pub fn union(self, other: Self) -> Self {
        Self {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }

    /// Moved right and down.
    #[must_use]
    pub fn shifted(self, right: StaffSpace, down: StaffSpace) -> Self {
        Self {
            left: self.left + right,
            top: self.top + down,
            right: self.right + right,
            bottom: self.bottom + down,
        }
    }

    /// Larger by so much on every side.
    #[must_use]
    pub fn grown(self, by: StaffSpace) -> Self {
        Self { left: self.left - by, top: self.top - by, right: self.right + by, bottom: self.bottom + by }
    }

    /// Whether the insides of both meet; edges that only touch do not count.
    #[must_use]
    pub fn overlaps(self, other: Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }
}
