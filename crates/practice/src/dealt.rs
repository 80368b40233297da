//! How often each staff of an exercise was asked about: they are dealt, so that none is left out.

use crate::question::Question;

/// How often each staff was asked about.
#[derive(Debug, Default)]
pub(crate) struct Counts(Vec<usize>);

impl Counts {
    /// How often a staff was.
    pub(crate) fn of(&self, staff: usize) -> usize {
        self.0.get(staff).copied().unwrap_or_default()
    }

    /// Counts a question about a staff.
    pub(crate) fn count(&mut self, staff: usize) {
        self.0.resize(self.0.len().max(staff + 1), 0);
        if let Some(count) = self.0.get_mut(staff) {
            *count += 1;
        }
    }
}

/// What was asked so far.
#[derive(Debug, Default)]
pub(crate) struct Asked {
    /// The questions.
    pub(crate) questions: Vec<Question>,
    /// About which staves, by all kinds.
    pub(crate) staves: Counts,
}
