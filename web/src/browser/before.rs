//! What stands on the page before the app does. Elements are `web_sys`: gloo has nothing of its own for them.

use gloo_utils::{document, window};

/// Takes it away: the app takes its place.
pub fn remove() {
    if let Some(before) = document().get_element_by_id("before") {
        before.remove();
    }
}

/// Says that the app's page is there: the boot module waits for it.
pub fn over() {
    if let Ok(event) = web_sys::Event::new("crookwise-begun") {
        let _ = window().dispatch_event(&event);
    }
}
