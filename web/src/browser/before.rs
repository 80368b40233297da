//! What stands on the page before the app does.

use leptos::prelude::document;

/// Takes it away: the app takes its place.
pub fn remove() {
    if let Some(before) = document().get_element_by_id("before") {
        before.remove();
    }
}
