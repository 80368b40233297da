//! The full screen, paper, and keys that reach the page whatever has the focus.

use leptos::ev::{KeyboardEvent, keydown};
use leptos::prelude::{document, on_cleanup, window_event_listener};

/// Fills the screen with the page, where the browser can and may.
pub fn fill() {
    if let Some(root) = document().document_element() {
        let _ = root.request_fullscreen();
    }
}

/// Gives the screen back.
pub fn give_back() {
    if document().fullscreen_element().is_some() {
        document().exit_fullscreen();
    }
}

/// Calls back for every key that goes down anywhere in the page.
pub fn on_key(pressed: impl Fn(KeyboardEvent) + 'static) {
    let listener = window_event_listener(keydown, pressed);
    on_cleanup(move || listener.remove());
}

/// Opens the browser's way to paper.
pub fn print() {
    let _ = leptos::prelude::window().print();
}
