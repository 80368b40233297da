//! The app on the device. The boot module registers the service worker once the app has started; here the app hears of a
//! newer version and has it taken. Where there is no service worker, nothing is ever heard.

use leptos::leptos_dom::helpers::window_event_listener_untyped;
use leptos::prelude::{on_cleanup, window};

/// Calls back when a newer version of the app is on the device and waits to be taken.
pub fn on_new_version(ready: impl Fn() + 'static) {
    let listener = window_event_listener_untyped("crookwise-new-version", move |_| ready());
    on_cleanup(move || listener.remove());
}

/// Takes the newer version: the page is then loaded anew, all of it from that version.
pub fn use_new_version() {
    if let Ok(event) = web_sys::Event::new("crookwise-use-new-version") {
        let _ = window().dispatch_event(&event);
    }
}
