//! What the browser calls back, owned: a listener, a clock or a watch is there as long as the part of the page that asked
//! for it, and goes with it. What gloo has no type for is cast by `web_sys`.

use gloo_events::{EventListener, EventListenerOptions};
use gloo_utils::window;
use leptos::prelude::on_cleanup;
use send_wrapper::SendWrapper;
use wasm_bindgen::JsCast;
use web_sys::{Event, EventTarget, KeyboardEvent, PointerEvent};

/// Keeps a handle until what asked for it is gone; then the handle is dropped.
pub(super) fn keep<T: 'static>(handle: T) {
    // A page has one thread, so that the handle is dropped where it was made.
    let kept = SendWrapper::new(handle);
    on_cleanup(move || drop(kept));
}

/// Hears an event of the window.
pub(super) fn on_window(name: &'static str, mut heard: impl FnMut() + 'static) {
    keep(EventListener::new(&window(), name, move |_| heard()));
}

/// Hears an event of whatever stands in the page, also one that rises no further.
pub(super) fn on_capture(name: &'static str, mut heard: impl FnMut(&Event) + 'static) {
    let options = EventListenerOptions::run_in_capture_phase();
    keep(EventListener::new_with_options(&window(), name, options, move |event| heard(event)));
}

/// Hears a pointer anywhere.
pub(super) fn on_pointer(name: &'static str, mut heard: impl FnMut(&PointerEvent) + 'static) {
    keep(EventListener::new(&window(), name, move |event| {
        if let Some(event) = event.dyn_ref() {
            heard(event);
        }
    }));
}

/// Hears the keys that go down anywhere, and may keep them from the browser.
pub(super) fn on_key_down(mut pressed: impl FnMut(KeyboardEvent) + 'static) {
    let heard = move |event: &Event| {
        if let Some(key) = event.dyn_ref::<KeyboardEvent>() {
            pressed(key.clone());
        }
    };
    let target: EventTarget = window().into();
    let options = EventListenerOptions::enable_prevent_default();
    keep(EventListener::new_with_options(&target, "keydown", options, heard));
}
