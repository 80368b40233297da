//! The part of the address behind `#`.

use leptos::leptos_dom::helpers::window_event_listener_untyped;
use leptos::prelude::{set_timeout, window};
use std::cell::{Cell, RefCell};
use std::time::Duration;
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

/// Between two changes of the address: WebKit refuses more than a hundred in half a minute.
const PAUSE: Duration = Duration::from_millis(350);

thread_local! {
    static RESTING: Cell<bool> = const { Cell::new(false) };
    static WAITING: RefCell<Option<String>> = const { RefCell::new(None) };
}

/// Puts another part behind `#` without a step in the browser's history: at once, or where changes follow each other
/// quickly, the last of them after a pause.
pub fn replace_hash(hash: &str) {
    if RESTING.get() {
        WAITING.replace(Some(hash.to_owned()));
        return;
    }
    write(hash);
    RESTING.set(true);
    set_timeout(
        || {
            RESTING.set(false);
            if let Some(hash) = WAITING.take() {
                replace_hash(&hash);
            }
        },
        PAUSE,
    );
}

fn write(hash: &str) {
    if let Ok(history) = window().history() {
        let _ = history.replace_state_with_url(&JsValue::NULL, "", Some(&format!("#{hash}")));
    }
}

/// Calls back when the reader puts another address into the bar.
pub fn on_hash_change(changed: impl Fn(String) + 'static) {
    let listener = window_event_listener_untyped("hashchange", move |_| {
        // What waits to be written belongs to the page before.
        WAITING.take();
        changed(hash());
    });
    leptos::prelude::on_cleanup(move || listener.remove());
}
