//! How high and how low what is drawn on a row reaches, so that what stands outside keeps clear of it.

use crate::drawing::{Drawing, Shape};
use crate::units::Bounds;

/// The rectangles of a row.
#[derive(Debug, Default)]
pub(super) struct Skyline {
    boxes: Vec<Bounds>,
}

impl Skyline {
    /// Takes in all that was drawn from an item on; the staff's own lines stand by themselves.
    pub fn take(&mut self, drawing: &Drawing, from: usize) {
        let items = drawing.items.get(from..).unwrap_or_default();
        self.boxes.extend(items.iter().map(|item| item.shape.bounds()));
    }

    /// Takes in one shape.
    pub fn take_shape(&mut self, shape: &Shape) {
        self.boxes.push(shape.bounds());
    }

    /// The upper edge of what stands between two places, at most that of the staff.
    pub fn top(&self, left: f64, right: f64) -> f64 {
        self.over(left, right).map(|own| own.top.0).fold(0.0, f64::min)
    }

    /// The lower edge of what stands between two places, at least that of the staff.
    pub fn bottom(&self, left: f64, right: f64) -> f64 {
        self.over(left, right).map(|own| own.bottom.0).fold(4.0, f64::max)
    }

    /// The rectangles of what stands between two places.
    pub fn over(&self, left: f64, right: f64) -> impl Iterator<Item = &Bounds> {
        self.boxes.iter().filter(move |own| own.left.0 < right && left < own.right.0)
    }
}
