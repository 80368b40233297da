//! The clipboard, and the sheet by which the system hands a link on. They are `web_sys`: gloo has neither.

use gloo_utils::window;
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

/// The text that was copied; `None` where the browser has no clipboard, or it or the reader refuses.
pub async fn text() -> Option<String> {
    let clipboard = window().navigator().clipboard();
    // Outside a secure context there is none.
    if clipboard.is_undefined() {
        return None;
    }
    JsFuture::from(clipboard.read_text()).await.ok()?.as_string()
}

/// Whether the system has a sheet to hand a link on.
#[must_use]
pub fn has_sheet() -> bool {
    js_sys::Reflect::get(&window().navigator(), &"share".into()).is_ok_and(|share| share.is_function())
}

/// Opens the system's sheet with a link. Whoever closes it has changed his mind: nothing is said.
pub async fn hand_on(title: &str, link: &str) {
    let data = web_sys::ShareData::new();
    data.set_title(title);
    data.set_url(link);
    let _ = JsFuture::from(window().navigator().share_with_data(&data)).await;
}
