//! Everything the reader has made and sees, parted by what belongs together; a part of the page takes what it needs:
//!
//! ```ignore
//! let Session { desk, wall, .. } = Session::get();
//! ```

use crate::state::desk::Desk;
use crate::state::kept::Watched;
use crate::state::notices::Notices;
use crate::state::panels::Panels;
use crate::state::place::Place;
use crate::state::preferences::Preferences;
use crate::state::score_sheet::Room;
use crate::state::speaker::Speaker;
use crate::state::stand::Stand;
use crate::state::wall::Wall;
use crate::words::Names;
use crookwise_share::ReadPage;
use leptos::prelude::*;

/// Handles on the state; copy them where they are needed.
#[derive(Clone, Copy, Debug)]
pub struct Session {
    /// The page and everything it means.
    pub desk: Desk,
    /// How it is laid on the screen, and where the reader points.
    pub stand: Stand,
    /// What is heard.
    pub speaker: Speaker,
    /// What the back row sees.
    pub wall: Wall,
    /// What is open under the head of the page.
    pub panels: Panels,
    /// What could not be done.
    pub notices: Notices,
    /// How notes are named.
    pub names: Watched<Names>,
    /// Where the reader is in the app.
    pub place: Watched<Place>,
}

impl Session {
    /// A session that begins with a page.
    #[must_use]
    pub fn new(page: ReadPage, preferences: Preferences, notice: Option<String>, room: Room) -> Self {
        let Preferences { names, way, volume } = preferences;
        let names = Watched::new(names);
        let notices = Notices::new(notice);
        let desk = Desk::new(page, names, notices);
        let wall = Wall::new();
        Self {
            desk,
            stand: Stand::new(desk, wall, room),
            speaker: Speaker::new(way, volume),
            wall,
            panels: Panels::shut(),
            notices,
            names,
            place: Watched::new(Place::Read),
        }
    }

    /// The session of this page.
    ///
    /// # Panics
    /// Never in the app, which provides it before anything else is made.
    #[must_use]
    pub fn get() -> Self {
        use_context::<Self>().expect("the app provides the session")
    }

    /// What is kept of the reader's wishes.
    #[must_use]
    pub fn preferences(self) -> Preferences {
        let Self { names, speaker, .. } = self;
        Preferences { names: names.get(), way: speaker.way.get(), volume: speaker.volume.get() }
    }
}
