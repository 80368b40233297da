//! Files of the site that are fetched when they are first wanted.

use leptos::prelude::window;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::Response;

/// The text of a file beside the page; `None` where it cannot be had.
pub async fn text(name: &str) -> Option<String> {
    let answer: Response = JsFuture::from(window().fetch_with_str(name)).await.ok()?.dyn_into().ok()?;
    if !answer.ok() {
        return None;
    }
    JsFuture::from(answer.text().ok()?).await.ok()?.as_string()
}
