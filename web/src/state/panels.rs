//! What opens over the page: one sheet at a time, and the rest of the dock.

use crate::state::kept::Watched;

/// A sheet over the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Panel {
    /// The reader's pages.
    Pages,
    /// The link.
    Share,
    /// What holds on every page.
    Settings,
    /// What changes before the selected column.
    Change,
    /// The ways of hearing.
    Sound,
}

/// What is open now; copy it where something is opened or shut.
#[derive(Clone, Copy, Debug)]
pub struct Panels {
    /// The sheet over the page.
    pub open: Watched<Option<Panel>>,
    /// Whether the dock shows its rarer tools as well.
    pub more: Watched<bool>,
}

impl Panel {
    /// The button that opens it, by its id.
    #[must_use]
    pub const fn opener(self) -> &'static str {
        match self {
            Self::Pages => "pages",
            Self::Share => "share",
            Self::Settings => "settings",
            Self::Change => "tool-change",
            Self::Sound => "tool-ways",
        }
    }
}

impl Panels {
    /// All shut.
    #[must_use]
    pub fn shut() -> Self {
        Self { open: Watched::new(None), more: Watched::new(false) }
    }

    /// Whether this sheet is open.
    #[must_use]
    pub fn shows(self, panel: Panel) -> bool {
        self.open.get() == Some(panel)
    }

    /// Opens a sheet in place of any other.
    pub fn show(self, panel: Panel) {
        self.open.set(Some(panel));
    }

    /// Shuts the sheet that is open, and gives it.
    pub fn close(self) -> Option<Panel> {
        let open = self.open.get_untracked();
        self.open.set(None);
        open
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use leptos::prelude::Owner;

    #[test]
    fn one_sheet_is_open_at_a_time() {
        let owner = Owner::new();
        owner.set();
        let panels = Panels::shut();
        assert_eq!(panels.close(), None);
        panels.show(Panel::Pages);
        panels.show(Panel::Share);
        assert!(panels.shows(Panel::Share) && !panels.shows(Panel::Pages));
        assert_eq!(panels.close(), Some(Panel::Share));
        assert!(!panels.shows(Panel::Share));
    }
}
