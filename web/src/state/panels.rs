//! The panels under the head of the page.

use crate::state::kept::Watched;

/// Whether each of the panels is open; copy it where one is opened or shut.
#[derive(Clone, Copy, Debug)]
pub struct Panels {
    /// The reader's pages.
    pub pages: Watched<bool>,
    /// The link.
    pub share: Watched<bool>,
    /// What holds on every page.
    pub settings: Watched<bool>,
}

impl Panels {
    /// All shut.
    #[must_use]
    pub fn shut() -> Self {
        Self { pages: Watched::new(false), share: Watched::new(false), settings: Watched::new(false) }
    }
}
