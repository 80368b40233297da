//! Keyboard focus. That an element takes it is `web_sys`: gloo has nothing for it.

use core::cell::RefCell;
use gloo_render::{AnimationFrame, request_animation_frame};
use gloo_utils::document;
use wasm_bindgen::JsCast;

thread_local! {
    /// The picture that is waited for. The last wish counts: an older one is dropped.
    static NEXT: RefCell<Option<AnimationFrame>> = const { RefCell::new(None) };
}

/// Gives focus to the element with an id, once the page has been drawn anew.
pub fn to(id: String) {
    NEXT.set(Some(request_animation_frame(move |_| now(&id))));
}

/// The same for an element that is not there yet: until then the one it stands in has the focus, so that no key is
/// lost on the way.
pub fn to_inside(around: &str, id: String) {
    now(around);
    to(id);
}

/// Gives focus to an element that is there.
pub fn now(id: &str) {
    let element = document().get_element_by_id(id);
    if let Some(element) = element.and_then(|element| element.dyn_into::<web_sys::HtmlElement>().ok()) {
        let _ = element.focus();
    }
}
