//! The way back through what was corrected in a movement, and forth again.

use crookwise_opened::Correction;

/// Steps that can be taken back.
const MOST: usize = 100;

/// All corrections as they were before each step, and after those that were taken back.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Steps {
    before: Vec<Vec<Correction>>,
    after: Vec<Vec<Correction>>,
}

impl Steps {
    /// A step was made, from these corrections: there is no way forth any more.
    pub fn made(&mut self, before: Vec<Correction>) {
        self.after.clear();
        self.before.push(before);
        if self.before.len() > MOST {
            self.before.remove(0);
        }
    }

    /// Takes back the last step that led to these corrections; `None` where there is none.
    pub fn back(&mut self, now: Vec<Correction>) -> Option<Vec<Correction>> {
        let before = self.before.pop()?;
        self.after.push(now);
        Some(before)
    }

    /// Makes again what was taken back last; `None` where nothing was.
    pub fn forth(&mut self, now: Vec<Correction>) -> Option<Vec<Correction>> {
        let after = self.after.pop()?;
        self.before.push(now);
        Some(after)
    }

    /// Whether there is a way back, and one forth.
    #[must_use]
    pub const fn ways(&self) -> (bool, bool) {
        (!self.before.is_empty(), !self.after.is_empty())
    }
}
