//! Light or dark. What the device asks for is the window's to say: gloo has nothing for it.

use gloo_utils::{document, window};

/// Whether the device asks for dark colours.
#[must_use]
pub fn device_is_dark() -> bool {
    let query = window().match_media("(prefers-color-scheme: dark)");
    query.ok().flatten().is_some_and(|query| query.matches())
}

/// Shows the page in dark or light colours, whatever the device asks for.
pub fn show(dark: bool) {
    if let Some(root) = document().document_element() {
        let _ = root.set_attribute("data-theme", if dark { "dark" } else { "light" });
    }
}
