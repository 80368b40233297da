//! Small panels that the browser itself lays over the page, shuts by Escape or a tap beside, and gives the focus back
//! from. That one is shut from here is `web_sys`: gloo has nothing for it.

use gloo_utils::document;
use leptos::ev::{Event, MouseEvent};
use wasm_bindgen::JsCast;

/// Whether the panel that an event comes from is open.
#[must_use]
pub fn is_open(event: &Event) -> bool {
    let panel = event.target().and_then(|target| target.dyn_into::<web_sys::Element>().ok());
    panel.is_some_and(|panel| panel.matches(":popover-open").unwrap_or(false))
}

/// Shuts the panel with an id.
pub fn shut(id: &str) {
    let panel = document().get_element_by_id(id);
    if let Some(panel) = panel.and_then(|panel| panel.dyn_into::<web_sys::HtmlElement>().ok()) {
        // It may be shut already.
        let _ = panel.hide_popover();
    }
}

/// Whether something was pressed by a finger or a mouse, and not by a key.
#[must_use]
pub fn is_pointed(event: &MouseEvent) -> bool {
    event.detail() > 0
}
