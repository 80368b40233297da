//! Keyboard focus. That an element takes it is `web_sys`: gloo has nothing for it.

use core::cell::RefCell;
use gloo_render::{AnimationFrame, request_animation_frame};
use gloo_utils::document;
use wasm_bindgen::JsCast;
use web_sys::{Element, FocusOptions, HtmlElement};

thread_local! {
    /// The picture that is waited for. The last wish counts: an older one is dropped.
    static NEXT: RefCell<Option<AnimationFrame>> = const { RefCell::new(None) };
    /// The element that was not there, and the one that has the focus until it comes.
    static MISSED: RefCell<Option<(String, Option<Element>)>> = const { RefCell::new(None) };
}

/// Gives focus to the element with an id, once the page has been drawn anew.
pub fn to(id: String) {
    NEXT.set(Some(request_animation_frame(move |_| {
        now(&id);
        let here = document().active_element();
        let there = here.as_ref().is_some_and(|here| here.id() == id);
        MISSED.set((!there).then_some((id, here)));
    })));
}

/// Gives focus to an element that comes with a part of the page, if it was to have it before it was there and nothing else
/// has taken it since.
pub fn come(id: &str) {
    let missed = MISSED.take().filter(|(missed, here)| missed == id && *here == document().active_element());
    if let Some((id, _)) = missed {
        to(id);
    }
}

/// The same for an element that is not there yet: until then the one it stands in has the focus, so that no key is
/// lost on the way.
pub fn to_inside(around: &str, id: String) {
    now(around);
    to(id);
}

/// Gives focus to an element once the page has been drawn anew, where nothing has it by then; nothing scrolls.
pub fn if_lost(id: &'static str) {
    NEXT.set(Some(request_animation_frame(move |_| {
        if document().active_element().is_none_or(|here| here.tag_name() == "BODY") {
            give(id, true);
        }
    })));
}

/// Gives focus to an element that is there. For a tool of the dock, which stands over the page, nothing scrolls.
pub fn now(id: &str) {
    give(id, id.starts_with("tool-"));
}

fn give(id: &str, stays: bool) {
    let element = document().get_element_by_id(id);
    if let Some(element) = element.and_then(|element| element.dyn_into::<HtmlElement>().ok()) {
        let how = FocusOptions::new();
        how.set_prevent_scroll(stays);
        let _ = element.focus_with_options(&how);
    }
}
