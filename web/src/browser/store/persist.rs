//! The browser's promise not to clear what is kept here when the device gets full. Neither gloo nor another
//! crate asks for it.

use gloo_utils::window;
use wasm_bindgen_futures::JsFuture;

/// Asks for the promise unless it has been given; some browsers ask the reader. Where there is no such promise, all goes
/// on without it.
pub async fn ask() {
    let navigator: wasm_bindgen::JsValue = window().navigator().into();
    // Pages that are not fetched over a secure connection have none.
    if !js_sys::Reflect::has(&navigator, &"storage".into()).unwrap_or(false) {
        return;
    }
    let storage = window().navigator().storage();
    if let Ok(asked) = storage.persisted()
        && JsFuture::from(asked).await.is_ok_and(|given| given.is_falsy())
        && let Ok(promise) = storage.persist()
    {
        let _ = JsFuture::from(promise).await;
    }
}
