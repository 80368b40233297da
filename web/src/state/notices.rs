//! A sentence about something that could not be done, until the reader has seen it.

use crate::state::kept::Watched;

/// The sentence on the page; copy it where something may fail.
#[derive(Clone, Copy, Debug)]
pub struct Notices {
    /// What is said, if anything.
    pub said: Watched<Option<String>>,
}

impl Notices {
    /// With a sentence to begin with, or none.
    #[must_use]
    pub fn new(sentence: Option<String>) -> Self {
        Self { said: Watched::new(sentence) }
    }

    /// Says a sentence in place of the one before.
    pub fn say(self, sentence: impl Into<String>) {
        self.show(Some(sentence.into()));
    }

    /// Says what became of something: its sentence, or nothing any more.
    pub fn show(self, sentence: Option<String>) {
        self.said.set(sentence);
    }
}
