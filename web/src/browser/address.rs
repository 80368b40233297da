//! The part of the address behind `#`.

use leptos::leptos_dom::helpers::window_event_listener_untyped;
use leptos::prelude::window;
use wasm_bindgen::JsValue;

/// What stands behind `#`, without the sign.
#[must_use]
pub fn hash() -> String {
    let hash = window().location().hash().unwrap_or_default();
    hash.strip_prefix('#').unwrap_or(&hash).to_owned()
}

/// The whole address with another part behind `#`.
#[must_use]
pub fn with_hash(hash: &str) -> String {
    let href = window().location().href().unwrap_or_default();
    let base = href.split('#').next().unwrap_or_default();
    format!("{base}#{hash}")
}

/// Puts another part behind `#` without a step in the browser's history. Browsers that allow few such changes in a
/// short time refuse some; the next one mends it.
pub fn replace_hash(hash: &str) {
    if let Ok(history) = window().history() {
        let _ = history.replace_state_with_url(&JsValue::NULL, "", Some(&format!("#{hash}")));
    }
}

/// Calls back when the reader puts another address into the bar.
pub fn on_hash_change(changed: impl Fn(String) + 'static) {
    let listener = window_event_listener_untyped("hashchange", move |_| changed(hash()));
    leptos::prelude::on_cleanup(move || listener.remove());
}
