//! The page may go away: it is left, or put behind others, where a telephone ends it without a word.

use crate::browser::owned;
use gloo_events::EventListener;
use gloo_utils::document;

/// Calls back whenever that happens: what is to be kept is kept at once.
pub fn on_leaving(act: impl Fn() + Copy + 'static) {
    owned::on_window("pagehide", act);
    owned::keep(EventListener::new(&document(), "visibilitychange", move |_| {
        if document().hidden() {
            act();
        }
    }));
}
