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

/// How many bytes are used of how many that the browser gives; `None` where it does not say.
pub async fn room() -> Option<(f64, f64)> {
    let navigator: wasm_bindgen::JsValue = window().navigator().into();
    if !js_sys::Reflect::has(&navigator, &"storage".into()).unwrap_or(false) {
        return None;
    }
    let asked = window().navigator().storage().estimate().ok()?;
    let told = JsFuture::from(asked).await.ok()?;
    let number = |name: &str| js_sys::Reflect::get(&told, &name.into()).ok()?.as_f64();
    number("usage").zip(number("quota"))
}
