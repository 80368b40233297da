//! How high and how low what is drawn on a row reaches, so that what stands outside keeps clear of it.

use crate::drawing::{Drawing, Shape};
use crate::units::Bounds;

/// How wide a stretch is whose rectangles are kept together, so that few are looked at.
const STRETCH: f64 = 6.0;
/// The most stretches; what lies farther to the right stands in the last.
const MOST: usize = 200;

/// The rectangles of a row, by the stretches they reach into.
#[derive(Debug, Default)]
pub(super) struct Skyline {
    stretches: Vec<Vec<Bounds>>,
}

impl Skyline {
    /// Takes in all that was drawn from an item on; the staff's own lines stand by themselves.
    pub fn take(&mut self, drawing: &Drawing, from: usize) {
        let items = drawing.items.get(from..).unwrap_or_default();
        items.iter().for_each(|item| self.take_shape(&item.shape));
    }

    /// Takes in one shape.
    pub fn take_shape(&mut self, shape: &Shape) {
        let own = shape.bounds();
        let (first, last) = stretches(own.left.0, own.right.0);
        if self.stretches.len() <= last {
            self.stretches.resize(last + 1, Vec::new());
        }
        for stretch in self.stretches.iter_mut().take(last + 1).skip(first) {
            stretch.push(own);
        }
    }

    /// The upper edge of what stands between two places, at most that of the staff.
    pub fn top(&self, left: f64, right: f64) -> f64 {
        self.over(left, right).map(|own| own.top.0).fold(0.0, f64::min)
    }

    /// The lower edge of what stands between two places, at least that of the staff.
    pub fn bottom(&self, left: f64, right: f64) -> f64 {
        self.over(left, right).map(|own| own.bottom.0).fold(4.0, f64::max)
    }

    /// The rectangles of what stands between two places; one that reaches far may come more than once.
    pub fn over(&self, left: f64, right: f64) -> impl Iterator<Item = &Bounds> {
        let (first, last) = stretches(left, right);
        let near = self.stretches.iter().take(last + 1).skip(first).flatten();
        near.filter(move |own| own.left.0 < right && left < own.right.0)
    }
}

/// The first and the last stretch that lies between two places.
fn stretches(left: f64, right: f64) -> (usize, usize) {
    // What is no number or negative becomes 0.
    let number = |x: f64| ((x / STRETCH) as usize).min(MOST);
    (number(left), number(right))
}
