//! The one place that keeps what the reader made. The rules stand in [`crate::state::store`], what the browser offers in
//! [`crate::browser::store`]; here they meet.
//!
//! * [`begin`] finds the desk of this window before anything is drawn: its own after a reload, a copy in a copied window,
//!   else the one that was left last and that no other window has.
//! * [`Store::keep_desk`] keeps the page at once, whatever its size, with each change. What stands on the desk is
//!   [`Store::desk`]; [`KeptDesk::opened`] gives its page.
//! * [`drawers`] keeps pages and the record, and [`answers`] what was answered until the record has it. Both take time and
//!   belong to parts that come later; [`Store::news`] counts the changes, those of other windows too.
//! * What could not be read is set aside and said; the panel of pages offers it as a file.

pub mod answers;
pub mod beginning;
pub mod drawers;
pub mod scores;

pub use beginning::{Begun, begin};

use crate::browser::clock;
use crate::browser::store::{local, windows};
use crate::state::kept::Watched;
use crate::state::notices::Notices;
use crate::state::preferences::Preferences;
use crate::state::store::desk::{self, KeptDesk};
use crate::state::store::entry::{self, Unread, What};
use crate::state::store::under_way::UnderWay;
use crate::state::store::{aside, earlier, under_way};
use crate::words;
use crookwise_share::ReadPage;
use leptos::prelude::*;

/// Where the reader's wishes are kept.
const PREFERENCES: &str = "crookwise.preferences";
/// What stands in Crooks is kept under names that begin so; behind it stands the name of the desk.
const CROOKS: &str = "crookwise.crooks.";

/// Handles on what is kept; copy it where something is to be kept.
#[derive(Clone, Copy, Debug)]
pub struct Store {
    /// The name of this window's desk.
    name: Watched<String>,
    /// What stands on this window's desk, as it was last kept.
    pub desk: Watched<KeptDesk>,
    /// Counts the changes of the drawers, by this window or another.
    pub news: Watched<u32>,
    /// Whether the last attempt to keep the desk was refused: said once.
    refused: Watched<bool>,
    notices: Notices,
}

impl Store {
    /// The store of a window that has begun.
    #[must_use]
    pub fn new(begun: Begun, notices: Notices) -> Self {
        let news = Watched::new(0);
        windows::on_told(move |_| news.set(news.get_untracked() + 1));
        Self {
            name: Watched::new(begun.name),
            desk: Watched::new(begun.desk),
            news,
            refused: Watched::new(false),
            notices,
        }
    }

    /// The store of this page.
    ///
    /// # Panics
    /// Never in the app, which provides it before anything else is made.
    #[must_use]
    pub fn get() -> Self {
        use_context::<Self>().expect("the app provides the store")
    }

    /// Keeps the page on the desk of this window, at once. `began` is the page as it stood before the reader's first change
    /// of it, where this is the first: then what stood on the desk before makes way and is kept beside it. False where the
    /// device refuses; then all that was kept is still as it was, and the reader is told once.
    pub fn keep_desk(self, began: Option<&ReadPage>, now: &ReadPage) -> bool {
        let changed = self.desk.with_untracked(|desk| desk.changed(began, now, clock::stamp()));
        let kept = self.write_desk(changed);
        if !kept && !self.refused.get_untracked() {
            self.notices.say(words::NOT_KEPT);
        }
        self.refused.set(!kept);
        kept
    }

    /// Whether pages wait on the desk until they are safe among the reader's pages.
    #[must_use]
    pub fn has_before(self) -> bool {
        self.desk.with_untracked(|desk| !desk.before.is_empty())
    }

    /// Whether something waits to go into the drawers: see [`drawers::tidy`].
    #[must_use]
    pub fn something_waits(self) -> bool {
        self.has_before() || local::names(earlier::OURS).iter().any(|name| earlier::waits(name))
    }

    fn write_desk(self, desk: KeptDesk) -> bool {
        let name = self.name.with_untracked(|name| format!("{}{name}", desk::NAMES));
        let kept = local::write(&name, &desk.write());
        if kept {
            self.desk.set(desk);
        }
        kept
    }

    /// Keeps the reader's wishes, unless what stands there cannot be read and the device refuses to set it aside.
    pub fn keep_preferences(self, preferences: Preferences) {
        let is_read = |text: &str| Preferences::read(text).is_ok();
        write_over(What::Preferences, PREFERENCES, &preferences.write(), is_read);
    }

    /// The exercise under way on this desk; that of an earlier version where there is none. `now` in milliseconds since
    /// 1970.
    ///
    /// # Errors
    /// Where it cannot be read; then it has been set aside, if the device did not refuse.
    pub fn under_way(self, now: f64) -> Result<Option<UnderWay>, Unread> {
        let own = self.under_way_name();
        let Some((name, text)) =
            [own.as_str(), under_way::EARLIER].into_iter().find_map(|name| Some((name, local::read(name)?)))
        else {
            return Ok(None);
        };
        UnderWay::read(&text, now).map(Some).inspect_err(|_| {
            set_aside(What::Exercise, name);
        })
    }

    /// Keeps the exercise under way; false where the device refuses.
    pub fn keep_under_way(self, exercise: &UnderWay) -> bool {
        let kept = write_exercise(&self.under_way_name(), exercise);
        if kept {
            local::remove(under_way::EARLIER);
            self.touch_desk();
        }
        kept
    }

    /// Keeps this window's desk as one that was used now, with or without a page: so the next window takes it up, and with
    /// it the exercise.
    fn touch_desk(self) {
        let used = self.desk.with_untracked(|desk| KeptDesk { at: clock::stamp(), ..desk.clone() });
        self.write_desk(used);
    }

    /// The exercise at hand on this desk; `None` where none was kept, or it cannot be read.
    #[must_use]
    pub fn at_hand(self) -> Option<UnderWay> {
        let kept = local::read(&self.at_hand_name())?;
        UnderWay::read(&kept, 0.0).ok()
    }

    /// Keeps the exercise at hand; what stands there and cannot be read is set aside. False where the device refuses.
    pub fn keep_at_hand(self, exercise: &UnderWay) -> bool {
        let kept = write_exercise(&self.at_hand_name(), exercise);
        if kept {
            self.touch_desk();
        }
        kept
    }

    fn at_hand_name(self) -> String {
        self.name.with_untracked(|name| format!("{}{name}", under_way::AT_HAND))
    }

    /// What stood in Crooks on this desk, as the text of a link; `None` where nothing was kept, or it cannot be read: then it has
    /// been set aside, if the device did not refuse.
    #[must_use]
    pub fn kept_crooks(self) -> Option<String> {
        let name = self.crooks_name();
        let kept = local::read(&name)?;
        let read = entry::read(What::Crooks, &kept).map(str::to_owned);
        if read.is_err() {
            set_aside(What::Crooks, &name);
        }
        read.ok()
    }

    /// Keeps what stands in Crooks, as the text of a link; what stands there and cannot be read is set aside. False where the
    /// device refuses.
    pub fn keep_crooks(self, link: &str) -> bool {
        let (what, is_read) = (What::Crooks, |text: &str| entry::read(What::Crooks, text).is_ok());
        let kept = write_over(what, &self.crooks_name(), &entry::write(what, link), is_read);
        if kept {
            self.touch_desk();
        }
        kept
    }

    fn crooks_name(self) -> String {
        self.name.with_untracked(|name| format!("{CROOKS}{name}"))
    }

    /// Sets the exercise under way aside: its answers are damaged.
    pub fn set_under_way_aside(self) {
        set_aside(What::Exercise, &self.under_way_name());
    }

    fn under_way_name(self) -> String {
        self.name.with_untracked(|name| format!("{}{name}", under_way::NAMES))
    }
}

/// Keeps an exercise at once, unless what stands there cannot be read and the device refuses to set it aside.
fn write_exercise(name: &str, exercise: &UnderWay) -> bool {
    let is_read = |text: &str| UnderWay::read(text, 0.0).is_ok();
    write_over(What::Exercise, name, &exercise.write(), is_read)
}

/// Writes over what is kept at once under a name. What stands there and cannot be read is set aside first; false where the
/// device refuses.
fn write_over(what: What, name: &str, text: &str, is_read: impl Fn(&str) -> bool) -> bool {
    let free = local::read(name).is_none_or(|kept| is_read(&kept)) || set_aside(what, name);
    free && local::write(name, text)
}

/// Sets aside what is kept at once under a name: it goes to where the drawer takes it from. False where nothing is there,
/// or the device refuses; then it stays where it is.
fn set_aside(what: What, name: &str) -> bool {
    let Some(text) = local::read(name) else { return false };
    let moved = at_once(what, &text).is_some();
    if moved {
        local::remove(name);
    }
    moved
}

/// Keeps a text at once where the drawer takes it from; its name there, unless the device refuses.
fn at_once(what: What, text: &str) -> Option<String> {
    let known = local::names(aside::AT_ONCE);
    let names = (1..).map(|number: u32| format!("{}{number}", aside::AT_ONCE));
    let free = names.into_iter().find(|name| !known.contains(name))?;
    local::write(&free, &aside::at_once(what, text)).then_some(free)
}
