//! The clipboard.

use leptos::prelude::window;
use wasm_bindgen_futures::JsFuture;

/// Copies a text; false where the browser has no clipboard or refuses.
pub async fn copy(text: &str) -> bool {
    let clipboard = window().navigator().clipboard();
    // Outside a secure context there is none.
    if clipboard.is_undefined() {
        return false;
    }
    JsFuture::from(clipboard.write_text(text)).await.is_ok()
}
