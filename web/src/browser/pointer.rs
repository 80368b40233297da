//! Fingers, pens and mice. What their events hold is `web_sys`: gloo has only the hearing of events.

use crate::browser::owned;
use leptos::ev::{MouseEvent, PointerEvent, TouchEvent};
use wasm_bindgen::JsCast;

/// Where a pointer is, in pixels from the upper left corner of the element that listens.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PointerPlace {
    /// To the right.
    pub x: f64,
    /// Downwards.
    pub y: f64,
}

/// Whether it is a finger or a pen: where the page does not take it for itself, the browser scrolls by it.
#[must_use]
pub fn is_finger(event: &PointerEvent) -> bool {
    event.pointer_type() != "mouse"
}

/// Whether it is on an element of this class.
#[must_use]
pub fn is_on(event: &PointerEvent, class: &str) -> bool {
    let element = event.target().and_then(|target| target.dyn_into::<web_sys::Element>().ok());
    element.is_some_and(|element| element.class_name() == class)
}

/// Whether it is the first finger or the main button.
#[must_use]
pub fn is_main(event: &PointerEvent) -> bool {
    event.is_primary() && event.button() <= 0
}

/// Where a pointer is, or was when it clicked.
#[must_use]
pub fn place(event: &MouseEvent) -> Option<PointerPlace> {
    let corner = listener(event)?.get_bounding_client_rect();
    Some(PointerPlace {
        x: f64::from(event.client_x()) - corner.left(),
        y: f64::from(event.client_y()) - corner.top(),
    })
}

/// Where it is, in shares of the width and the height of the element that listens: to the right, and upwards.
#[must_use]
pub fn share(event: &PointerEvent) -> Option<(f64, f64)> {
    let size = listener(event)?.get_bounding_client_rect();
    let at = place(event)?;
    Some((at.x / size.width(), 1.0 - at.y / size.height()))
}

/// How far down in the window it is, in pixels.
#[must_use]
pub fn height(event: &PointerEvent) -> f64 {
    f64::from(event.client_y())
}

/// Keeps the pointer with the element until it is let go, wherever it moves.
pub fn capture(event: &PointerEvent) {
    if let Some(element) = listener(event) {
        let _ = element.set_pointer_capture(event.pointer_id());
    }
}

/// Calls back when something is touched or the mouse is moved, anywhere in the page. A page that moves under a mouse at rest
/// is none of that.
pub fn on_use(act: impl Fn() + Copy + 'static) {
    owned::on_pointer("pointermove", move |event| {
        if event.movement_x() != 0 || event.movement_y() != 0 {
            act();
        }
    });
    owned::on_pointer("pointerup", move |_| act());
}

/// Keeps the browser from sending a click after a lifted finger: the page may have moved by then, and the click would
/// press whatever has come under the finger.
pub fn no_click(event: &TouchEvent) {
    if event.cancelable() {
        event.prevent_default();
    }
}

fn listener(event: &MouseEvent) -> Option<web_sys::Element> {
    event.current_target()?.dyn_into().ok()
}
