//! Files: one the reader chose, and one for the reader to keep. The field and the link are `web_sys`: gloo has only what is
//! in a file. Those of whole scores stand in `given`.

use gloo_file::{Blob, File, ObjectUrl, futures::read_as_text};
use gloo_utils::document;
use leptos::ev::Event;
use wasm_bindgen::JsCast;
use web_sys::{HtmlAnchorElement, HtmlInputElement};

/// Largest file that is read, in bytes.
const LARGEST: u64 = 2_000_000;

/// Gives the reader a text as a file; false where the browser cannot.
pub fn save(name: &str, text: &str) -> bool {
    hand_on(name, Blob::new(text))
}

/// The same of bytes.
pub fn save_bytes(name: &str, bytes: &[u8]) -> bool {
    hand_on(name, Blob::new(bytes))
}

fn hand_on(name: &str, file: Blob) -> bool {
    let link = document().create_element("a").ok();
    let Some(link) = link.and_then(|element| element.dyn_into::<HtmlAnchorElement>().ok()) else {
        return false;
    };
    let address = ObjectUrl::from(file);
    link.set_href(&address);
    link.set_download(name);
    link.click();
    true
}

/// The text of the file that was chosen in a field, which is emptied; `None` where there is none or it is too large.
pub async fn chosen_text(event: Event) -> Option<String> {
    let field: HtmlInputElement = event.target()?.dyn_into().ok()?;
    let file = File::from(field.files()?.get(0)?);
    if file.size() > LARGEST {
        return None;
    }
    let text = read_as_text(&file).await.ok();
    field.set_value("");
    text
}
