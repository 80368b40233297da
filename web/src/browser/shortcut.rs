//! Keys that mean something wherever the focus is, unless it is where they mean something else. Elements are `web_sys`: gloo
//! has nothing of its own for them.

use crate::browser::{owned, popover};
use leptos::ev::KeyboardEvent;
use wasm_bindgen::JsCast;
use web_sys::Element;

/// What takes the space bar for itself.
const TAKES_SPACE: [&str; 7] = ["button", "input", "textarea", "select", "summary", "a", "[contenteditable]"];

/// Calls back at the space bar, for as long as what called for it is there. What has the focus and takes it for itself keeps
/// it, and so does what is open over the page.
pub fn on_space(act: impl Fn() + 'static) {
    owned::on_key_down(move |key: KeyboardEvent| {
        if key.key() == " " && !key.repeat() && !has_other_use(&key) && !popover::is_any_open() {
            // The page would scroll.
            key.prevent_default();
            act();
        }
    });
}

fn has_other_use(key: &KeyboardEvent) -> bool {
    let held = key.ctrl_key() || key.meta_key() || key.alt_key();
    let target = key.target().and_then(|target| target.dyn_into::<Element>().ok());
    let is_within = |kind: &str| target.as_ref().is_some_and(|at| at.closest(kind).ok().flatten().is_some());
    held || TAKES_SPACE.into_iter().any(is_within)
}
