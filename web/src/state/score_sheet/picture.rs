//! One staff of one system as it stands on the screen.

use crate::state::laying::laid_out;
use core::ops::Range;
use crookwise_engraving::{Bounds, ColumnSpec, Metrics, NoteSpec, StaffSpace, StaffSpec, lay_out, svg};
use crookwise_theory::{Clef, Pitch, Signature};
use std::sync::Arc;

/// A staff as SVG.
#[derive(Clone, Debug, PartialEq)]
pub struct StaffPicture {
    /// The text.
    pub svg: Arc<str>,
    /// Its head alone, where that stays in sight while the strip runs.
    pub head: Option<Arc<str>>,
    /// What it shows, in staff spaces.
    pub frame: Bounds,
    /// How far the heads of each column reach to the right of its middle, in pixels.
    pub(super) rights: Vec<f64>,
    /// Its first column, as it is counted in the passage.
    pub(super) first: usize,
    /// Clef and signature in force at each column.
    pub(super) heads: Vec<(Clef, Signature)>,
}

impl StaffPicture {
    /// How far the heads of each column reach to the right of its middle, in pixels.
    pub(super) fn rights(
        spec: &StaffSpec,
        columns: &Range<usize>,
        metrics: &Metrics,
        scale: f64,
    ) -> Vec<f64> {
        laid_out(spec, columns, metrics).rights.iter().map(|right| right.0 * scale).collect()
    }

    /// Clef and signature in force at a column, as it is counted in the passage.
    #[must_use]
    pub fn head_at(&self, column: usize) -> (Clef, Signature) {
        let here = self.heads.get(column.saturating_sub(self.first)).or(self.heads.last());
        here.copied().unwrap_or((Clef::TREBLE, Signature::NONE))
    }

    /// A note of a column enlarged on a staff of its own, to stand beside a finger; `scale` in pixels of one staff
    /// space.
    #[must_use]
    pub fn enlarged(&self, column: usize, pitch: Pitch, scale: f64) -> String {
        let (clef, signature) = self.head_at(column);
        let mut spec = StaffSpec::new(clef, signature);
        spec.columns = vec![ColumnSpec { notes: vec![NoteSpec::new(pitch)], ..ColumnSpec::default() }];
        let metrics = Metrics::fit(&[&spec], 0..1, StaffSpace(6.0));
        let layout = lay_out(&spec, 0..1, &metrics);
        svg::write(&layout.drawing, &svg::SvgOptions { scale: Some(scale), ..Default::default() })
    }
}
