//! Staves that were laid out are remembered: where nothing changed, nothing is laid or drawn anew.

use core::cell::RefCell;
use core::ops::Range;
use crookwise_engraving::{
    Bounds, ColumnSpec, Ink, Metrics, Parts, StaffLayout, StaffSpace, StaffSpec, lay_out, narrowest_column,
    svg,
};
use crookwise_theory::{Clef, Signature};
use std::collections::VecDeque;
use std::sync::Arc;

/// Staves of systems that are remembered: a page of sixteen staves on a few systems, with what sounds.
const MOST: usize = 96;

thread_local! {
    static LAID: RefCell<VecDeque<Laid>> = const { RefCell::new(VecDeque::new()) };
    static WIDTHS: RefCell<VecDeque<(StaffSpec, StaffSpace)>> = const { RefCell::new(VecDeque::new()) };
    #[cfg(test)]
    static MADE: core::cell::Cell<usize> = const { core::cell::Cell::new(0) };
}

/// What decides how a staff of one system is laid out.
#[derive(Clone, Debug, PartialEq)]
struct Piece {
    force: (Clef, Signature),
    unpitched: bool,
    ink: Ink,
    parts: Parts,
    size: f64,
    columns: Range<usize>,
    /// What stands in the columns, and in the first of the next system, to which ties may lead.
    cells: Vec<ColumnSpec>,
    metrics: Metrics,
}

struct Laid {
    piece: Piece,
    layout: Arc<StaffLayout>,
    /// The last picture of it, with what it shows and its scale.
    picture: Option<(Bounds, f64, Arc<str>)>,
}

impl Piece {
    fn of(spec: &StaffSpec, columns: &Range<usize>, metrics: &Metrics) -> Self {
        let end = columns.end.saturating_add(1).min(spec.columns.len());
        let cells = spec.columns.get(columns.start.min(end)..end).unwrap_or_default();
        Self {
            force: spec.in_force(columns.start),
            unpitched: spec.unpitched,
            ink: spec.ink,
            parts: spec.parts,
            size: spec.size,
            columns: columns.clone(),
            cells: cells.to_vec(),
            metrics: metrics.clone(),
        }
    }
}

/// Looks at what was laid out before, or lays it out.
fn with_laid<R>(
    spec: &StaffSpec,
    columns: &Range<usize>,
    metrics: &Metrics,
    look: impl FnOnce(&mut Laid) -> R,
) -> R {
    let piece = Piece::of(spec, columns, metrics);
    LAID.with_borrow_mut(|laid| {
        let found = laid.iter().position(|one| one.piece == piece).and_then(|at| laid.remove(at));
        let mut one = found.unwrap_or_else(|| {
            #[cfg(test)]
            MADE.set(MADE.get() + 1);
            let layout = Arc::new(lay_out(spec, columns.clone(), metrics));
            Laid { piece, layout, picture: None }
        });
        let seen = look(&mut one);
        // What was looked at last stays longest.
        if laid.len() >= MOST {
            laid.pop_front();
        }
        laid.push_back(one);
        seen
    })
}

/// Columns of a staff laid out as one system.
#[must_use]
pub fn laid_out(spec: &StaffSpec, columns: &Range<usize>, metrics: &Metrics) -> Arc<StaffLayout> {
    with_laid(spec, columns, metrics, |laid| Arc::clone(&laid.layout))
}

/// The same as SVG; `frame` is what it shows, in staff spaces, `scale` the pixels of one.
#[must_use]
pub fn drawn(
    spec: &StaffSpec,
    columns: &Range<usize>,
    metrics: &Metrics,
    frame: Bounds,
    scale: f64,
) -> Arc<str> {
    with_laid(spec, columns, metrics, |laid| match &laid.picture {
        Some((of, at, text)) if *of == frame && at.to_bits() == scale.to_bits() => Arc::clone(text),
        _ => {
            let options = svg::SvgOptions { frame: Some(frame), scale: Some(scale), ..Default::default() };
            let text: Arc<str> = svg::write(&laid.layout.drawing, &options).into();
            laid.picture = Some((frame, scale, Arc::clone(&text)));
            text
        }
    })
}

/// The narrowest width at which no column of a staff touches its neighbour.
#[must_use]
pub fn narrowest(spec: &StaffSpec) -> StaffSpace {
    WIDTHS.with_borrow_mut(|widths| {
        let found = widths.iter().position(|(known, _)| known == spec).and_then(|at| widths.remove(at));
        let (spec, width) = found.unwrap_or_else(|| (spec.clone(), narrowest_column(spec)));
        if widths.len() >= MOST {
            widths.pop_front();
        }
        widths.push_back((spec, width));
        width
    })
}

/// How many staves of systems were laid out, not remembered, since the program began.
#[cfg(test)]
pub(crate) fn layouts_made() -> usize {
    MADE.get()
}
