//! Dialogs over the page. The browser's own keep the keyboard inside and shut at Escape; they are `web_sys`: gloo has
//! nothing for them.

use core::cell::RefCell;
use gloo_render::{AnimationFrame, request_animation_frame};
use gloo_utils::document;
use leptos::ev::MouseEvent;
use wasm_bindgen::JsCast;
use web_sys::{EventTarget, HtmlDialogElement};

thread_local! {
    /// The picture with which a dialog is shown.
    static NEXT: RefCell<Option<AnimationFrame>> = const { RefCell::new(None) };
}

/// Shows the dialog with an id over the page, once it is there.
pub fn show(id: &'static str) {
    NEXT.set(Some(request_animation_frame(move |_| {
        let dialog = document().get_element_by_id(id);
        if let Some(dialog) = dialog.and_then(|dialog| dialog.dyn_into::<HtmlDialogElement>().ok()) {
            // One that is shown already stays.
            let _ = dialog.show_modal();
        }
    })));
}

/// Whether a press on a dialog goes beside all that it holds.
#[must_use]
pub fn is_beside(event: &MouseEvent) -> bool {
    let at: Option<EventTarget> = event.target();
    at.is_some() && at == event.current_target()
}
