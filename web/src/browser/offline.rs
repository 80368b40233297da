//! The app on the device. The boot module registers the service worker once the app has started; here the app hears of a
//! newer version and has it taken. Where there is no service worker, nothing is ever heard. An event of our own is sent by
//! `web_sys`: gloo has only the hearing of events.

use crate::browser::owned;
use gloo_utils::window;

/// Calls back when a newer version of the app is on the device and waits to be taken.
pub fn on_new_version(ready: impl Fn() + 'static) {
    owned::on_window("crookwise-new-version", ready);
}

/// Takes the newer version: the page is then loaded anew, all of it from that version.
pub fn use_new_version() {
    if let Ok(event) = web_sys::Event::new("crookwise-use-new-version") {
        let _ = window().dispatch_event(&event);
    }
}
