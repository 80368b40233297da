//! Light or dark. What the device asks for is the window's to say: gloo has nothing for it.

use gloo_utils::{document, window};

/// The attribute that says in which colours the page is shown, where not as the device asks.
const THEME: &str = "data-theme";

/// Whether the page is shown in dark colours now: as was wished, else as the device asks.
#[must_use]
pub fn is_dark() -> bool {
    let wished = document().document_element().and_then(|root| root.get_attribute(THEME));
    match wished {
        Some(wished) => wished == "dark",
        None => {
            let query = window().match_media("(prefers-color-scheme: dark)");
            query.ok().flatten().is_some_and(|query| query.matches())
        }
    }
}

/// Shows the page in dark or light colours, whatever the device asks for.
pub fn show(dark: bool) {
    if let Some(root) = document().document_element() {
        let _ = root.set_attribute(THEME, if dark { "dark" } else { "light" });
    }
}
