//! Keyboard focus.

use leptos::prelude::{document, request_animation_frame};
use wasm_bindgen::JsCast;

/// Gives focus to the element with an id, once the page has been drawn anew.
pub fn to(id: String) {
    request_animation_frame(move || now(&id));
}

/// The same for an element that is not there yet: until then the one it stands in has the focus, so that no key is
/// lost on the way.
pub fn to_inside(around: &str, id: String) {
    now(around);
    to(id);
}

fn now(id: &str) {
    let element = document().get_element_by_id(id);
    if let Some(element) = element.and_then(|element| element.dyn_into::<web_sys::HtmlElement>().ok()) {
        let _ = element.focus();
    }
}
