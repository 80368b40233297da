//! Files: one the reader chose, and one for the reader to keep.

use leptos::ev::Event;
use leptos::prelude::document;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, HtmlAnchorElement, HtmlInputElement, Url};

/// Largest file that is read, in bytes.
const LARGEST: f64 = 2_000_000.0;

/// Gives the reader a text as a file; false where the browser cannot.
pub fn save(name: &str, text: &str) -> bool {
    let parts = js_sys::Array::of1(&JsValue::from_str(text));
    let Ok(blob) = Blob::new_with_str_sequence(&parts) else { return false };
    let Ok(address) = Url::create_object_url_with_blob(&blob) else { return false };
    let link =
        document().create_element("a").ok().and_then(|element| element.dyn_into::<HtmlAnchorElement>().ok());
    let done = link.map(|link| {
        link.set_href(&address);
        link.set_download(name);
        link.click();
    });
    let _ = Url::revoke_object_url(&address);
    done.is_some()
}

/// The text of the file that was chosen in a field, which is emptied; `None` where there is none or it is too large.
pub async fn chosen_text(event: Event) -> Option<String> {
    let field: HtmlInputElement = event.target()?.dyn_into().ok()?;
    let file = field.files()?.get(0)?;
    if file.size() > LARGEST {
        return None;
    }
    let text = JsFuture::from(file.text()).await.ok()?.as_string();
    field.set_value("");
    text
}
