//! Small panels that the browser itself lays over the page and shuts by Escape or a tap beside. That one is shut from here
//! is `web_sys`: gloo has nothing for it.

use crate::browser::{measure, owned};
use gloo_utils::document;
use leptos::ev::{Event, MouseEvent};
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// Has style sheets know where the button before a panel stands whenever one is opened, in pixels of the window: its left end,
/// its lower edge, and its upper edge counted from the foot. The browser's own anchors would do without, but once a panel was
/// placed by them WebKit misses that the window has become narrower.
pub fn tell_places() {
    owned::on_capture("beforetoggle", |event| {
        let panel = event.target().and_then(|target| target.dyn_into::<HtmlElement>().ok());
        let button = panel.as_ref().and_then(|panel| panel.previous_element_sibling());
        let (Some(panel), Some(button)) = (panel, button) else { return };
        let place = button.get_bounding_client_rect();
        let above = measure::window_height() - place.top();
        for (name, length) in [("--left", place.left()), ("--below", place.bottom()), ("--above", above)] {
            let _ = panel.style().set_property(name, &format!("{}px", length.round() as i32));
        }
    });
}

/// Whether the panel that an event comes from is open now. From one that was shut the focus goes back to the button before
/// it, where nothing else has it: the browser gives it back only from a panel that stands in no other.
#[must_use]
pub fn turned(event: &Event) -> bool {
    let panel = event.target().and_then(|target| target.dyn_into::<web_sys::Element>().ok());
    let Some(panel) = panel else { return false };
    let is_open = panel.matches(":popover-open").unwrap_or(false);
    let has_focus = document()
        .active_element()
        .is_some_and(|here| here.tag_name() != "BODY" && !panel.contains(Some(&here)));
    let button = panel.previous_element_sibling().and_then(|button| button.dyn_into::<HtmlElement>().ok());
    if let Some(button) = button.filter(|_| !is_open && !has_focus) {
        let _ = button.focus();
    }
    is_open
}

/// Whether a panel or a dialog is open, which Escape shuts.
#[must_use]
pub fn is_any_open() -> bool {
    let is_there = |kind| document().query_selector(kind).ok().flatten().is_some();
    [":popover-open", "dialog[open]"].into_iter().any(is_there)
}

/// Shuts the panel with an id.
pub fn shut(id: &str) {
    let panel = document().get_element_by_id(id);
    if let Some(panel) = panel.and_then(|panel| panel.dyn_into::<HtmlElement>().ok()) {
        // It may be shut already.
        let _ = panel.hide_popover();
    }
}

/// Shuts the panel that is open, and says whether there was one: a press beside it does nothing else.
pub fn shut_open() -> bool {
    let open = document().query_selector(":popover-open").ok().flatten();
    let open = open.and_then(|panel| panel.dyn_into::<HtmlElement>().ok());
    open.is_some_and(|panel| panel.hide_popover().is_ok())
}

/// Whether something was pressed by a finger or a mouse, and not by a key.
#[must_use]
pub fn is_pointed(event: &MouseEvent) -> bool {
    event.detail() > 0
}
