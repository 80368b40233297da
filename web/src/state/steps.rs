//! The way back through what was changed step by step, and forth again.

/// Something as it was before each step, and after those that were taken back; of the steps back the latest `MOST` are kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Steps<T, const MOST: usize> {
    before: Vec<T>,
    after: Vec<T>,
}

impl<T, const MOST: usize> Default for Steps<T, MOST> {
    fn default() -> Self {
        Self { before: Vec::new(), after: Vec::new() }
    }
}

impl<T, const MOST: usize> Steps<T, MOST> {
    /// A step was made, from here: there is no way forth any more.
    pub fn made(&mut self, before: T) {
        self.after.clear();
        if self.before.len() >= MOST {
            self.before.remove(0);
        }
        self.before.push(before);
    }

    /// Takes back the last step that led to `now`; `None` where there is none.
    pub fn back(&mut self, now: T) -> Option<T> {
        let before = self.before.pop()?;
        self.after.push(now);
        Some(before)
    }

    /// Makes again what was taken back last; `None` where nothing was.
    pub fn forth(&mut self, now: T) -> Option<T> {
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
