//! One staff of one system, laid out from its head to its last column, and what lies under a pointer.

use crate::column::{Column, HeadPlace, lay_out as lay_out_column};
use crate::direction::{Over, draw_over};
use crate::drawing::{Drawing, Ink, Shape};
use crate::head::{Change, head, neutral_head};
use crate::metrics::{Metrics, narrowest_column};
use crate::spec::{Parts, StaffSpec};
use crate::system::BAR_LINE;
use crate::tie::{Tie, curve};
use crate::units::{Bounds, Point, StaffSpace};
use core::ops::Range;
use crookwise_theory::{Clef, StaffPosition};

/// Thickness of a staff line (engraving default of the font).
const STAFF_LINE: StaffSpace = StaffSpace(0.13);

/// A staff laid out. x = 0 is its left end, y = 0 its top line, y = 4 its bottom line.
#[derive(Clone, Debug, PartialEq)]
pub struct StaffLayout {
    /// What is drawn.
    pub drawing: Drawing,
    /// The length of the staff.
    pub width: StaffSpace,
    /// The tightest rectangle round all ink, the five lines always counted.
    pub bounds: Bounds,
    /// How far the heads of each column reach to the right of its middle, zero where it has none.
    pub rights: Vec<StaffSpace>,
    columns: Range<usize>,
    clefs: Vec<Clef>,
    metrics: Metrics,
}

/// Lays out some columns of a staff as one system. Columns that the staff has not are left empty.
///
/// Clef and signature in force at the first column stand at the head; later changes stand before their columns, in
/// the room that the measures give.
#[must_use]
pub fn lay_out(spec: &StaffSpec, columns: Range<usize>, metrics: &Metrics) -> StaffLayout {
    let metrics = &metrics.on(spec.size);
    let count = columns.len();
    let width = metrics.width(count);
    let mut drawing = Drawing::default();
    let whole = spec.parts == Parts::All;
    let mut force = spec.in_force(columns.start);
    if whole {
        for line in 0..5 {
            let y = StaffSpace(f64::from(line));
            let (from, to) = (Point { x: StaffSpace::ZERO, y }, Point { x: width, y });
            drawing.push(Shape::Line { from, to, thickness: STAFF_LINE }, Ink::Staff, None);
        }
        let head = if spec.unpitched { neutral_head() } else { head(force.0, force.1).0 };
        drawing.place(head, StaffSpace::ZERO, StaffSpace::ZERO);
    }
    let (mut clefs, mut rights) = (Vec::with_capacity(count), vec![StaffSpace::ZERO; count]);
    let mut heads: Vec<HeadPlace> = Vec::new();
    let (mut numbers, mut directions) = (Vec::new(), Vec::new());
    for (at, index) in columns.clone().enumerate() {
        let Some(column) = spec.columns.get(index) else {
            clefs.push(force.0);
            continue;
        };
        // At the first column nothing changes any more: the head shows what is in force there.
        let change = Change::at(force, column);
        let line = metrics.bar_line(at);
        if whole && !spec.unpitched {
            for ((signs, room), right) in [(change.line, line), (change.column, Some(metrics.left(at)))] {
                if let Some(right) = right {
                    drawing.place(signs, right - room, StaffSpace::ZERO);
                }
            }
        }
        if let (true, Some(number)) = (whole, &column.bar) {
            if let Some(x) = line {
                draw_bar_line(&mut drawing, x);
            }
            numbers.push(Over::number(number, line));
        }
        force = change.to;
        clefs.push(force.0);
        let Column { drawing: ink, heads: mut here } = lay_out_column(column, force.0, force.1, spec.ink);
        let center = metrics.center(at);
        if whole {
            directions.extend(column.above.iter().rev().map(|text| Over::direction(text, metrics.left(at))));
        }
        for head in &mut here {
            if let Some(right) = rights.get_mut(at) {
                *right = right.max(head.bounds.right);
            }
            head.bounds = head.bounds.shifted(center, StaffSpace::ZERO);
        }
        drawing.place(ink, center, StaffSpace::ZERO);
        for head in here.iter().filter(|head| head.tied_from_previous) {
            let tie = match partner(&heads, head) {
                Some(from) => Tie::Between(*from, *head),
                None => Tie::Into(*head),
            };
            drawing.push(curve(tie), head.ink, head.id);
        }
        heads = here;
    }
    draw_ties_out(&mut drawing, spec, &columns, &heads, width);
    if whole && spec.columns.get(columns.end).is_some_and(|next| next.bar.is_some()) {
        draw_bar_line(&mut drawing, width - BAR_LINE / 2.0);
    }
    numbers.append(&mut directions);
    draw_over(&mut drawing, numbers, width);
    let staff = Bounds::new(0.0, 0.0, width.0, 4.0);
    let bounds = drawing.bounds().map_or(staff, |ink| ink.union(staff));
    StaffLayout { drawing, width, bounds, rights, columns, clefs, metrics: metrics.clone() }
}

/// A thin bar line through the staff.
fn draw_bar_line(drawing: &mut Drawing, x: StaffSpace) {
    let (from, to) = (Point { x, y: StaffSpace::ZERO }, Point { x, y: StaffSpace(4.0) });
    drawing.push(Shape::Line { from, to, thickness: BAR_LINE }, Ink::Staff, None);
}

/// The head a tie comes from: on the same line or in the same space, as it sounds, whatever the clef.
fn partner<'a>(heads: &'a [HeadPlace], to: &HeadPlace) -> Option<&'a HeadPlace> {
    heads.iter().find(|from| from.diatonic == to.diatonic)
}

/// Ties to the first column of the next system.
fn draw_ties_out(
    drawing: &mut Drawing,
    spec: &StaffSpec,
    columns: &Range<usize>,
    heads: &[HeadPlace],
    width: StaffSpace,
) {
    let Some(next) = spec.columns.get(columns.end) else { return };
    for note in next.notes.iter().filter(|note| note.tied_from_previous) {
        if let Some(from) = heads.iter().find(|head| head.diatonic == note.pitch.diatonic()) {
            drawing.push(curve(Tie::OutOf(*from, width)), from.ink, from.id);
        }
    }
}

/// How far a staff reaches above its top line (negative) and below it, all columns on one system.
#[must_use]
pub fn extent(spec: &StaffSpec) -> (StaffSpace, StaffSpace) {
    let metrics = Metrics::fit(&[spec], spec.all(), narrowest_column(spec));
    let bounds = lay_out(spec, spec.all(), &metrics).bounds;
    (bounds.top, bounds.bottom)
}

impl StaffLayout {
    /// Which columns it shows.
    #[must_use]
    pub fn columns(&self) -> Range<usize> {
        self.columns.clone()
    }

    /// The middle of a column, counted as in the whole staff.
    #[must_use]
    pub fn column_center(&self, column: usize) -> Option<StaffSpace> {
        let at = column.checked_sub(self.columns.start).filter(|&at| at < self.columns.len())?;
        Some(self.metrics.center(at))
    }

    /// The column under x, counted as in the whole staff; the room of a change belongs to the column after it.
    #[must_use]
    pub fn column_at(&self, x: StaffSpace) -> Option<usize> {
        self.metrics.column_at(x, self.columns.len()).map(|at| self.columns.start + at)
    }

    /// The clef in force at a column, counted as in the whole staff.
    #[must_use]
    pub fn clef_at(&self, column: usize) -> Option<Clef> {
        self.clefs.get(column.checked_sub(self.columns.start)?).copied()
    }
}

/// The line or space nearest to y.
///
/// ```
/// # use crookwise_engraving::{StaffSpace, place_at};
/// # use crookwise_theory::StaffPosition;
/// assert_eq!(place_at(StaffSpace(0.1)), StaffPosition(8));
/// assert_eq!(place_at(StaffSpace(3.6)), StaffPosition(1));
/// ```
#[must_use]
pub fn place_at(y: StaffSpace) -> StaffPosition {
    // A cast of what is no number gives 0, of what is too large the largest.
    StaffPosition(8_i32.saturating_sub((y.0 * 2.0).round() as i32))
}
