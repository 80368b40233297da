//! Fingers, pens and mice. What their events hold is `web_sys`: gloo has only the hearing of events.

use leptos::ev::{PointerEvent, TouchEvent};
use wasm_bindgen::JsCast;

/// Where a pointer is, in pixels from the upper left corner of the element that listens.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PointerPlace {
    /// To the right.
    pub x: f64,
    /// Downwards.
    pub y: f64,
}

/// Whether it is a finger, which covers what it points at.
#[must_use]
pub fn is_finger(event: &PointerEvent) -> bool {
    event.pointer_type() == "touch"
}

/// Whether it is the first finger or the main button.
#[must_use]
pub fn is_main(event: &PointerEvent) -> bool {
    event.is_primary() && event.button() <= 0
}

/// Where it is.
#[must_use]
pub fn place(event: &PointerEvent) -> Option<PointerPlace> {
    let corner = listener(event)?.get_bounding_client_rect();
    Some(PointerPlace {
        x: f64::from(event.client_x()) - corner.left(),
        y: f64::from(event.client_y()) - corner.top(),
    })
}

/// Keeps the pointer with the element until it is let go, wherever it moves.
pub fn capture(event: &PointerEvent) {
    if let Some(element) = listener(event) {
        let _ = element.set_pointer_capture(event.pointer_id());
    }
}

/// Keeps the browser from sending a click after a lifted finger: the page may have moved by then, and the click would
/// press whatever has come under the finger.
pub fn no_click(event: &TouchEvent) {
    if event.cancelable() {
        event.prevent_default();
    }
}

fn listener(event: &PointerEvent) -> Option<web_sys::Element> {
    event.current_target()?.dyn_into().ok()
}
