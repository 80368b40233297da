//! When something goes wrong beyond mending: the reader is told and can reload; the page is kept in the address.

use gloo_utils::document;

/// Shows a sentence in the page instead of a dead screen, and writes the reason to the console.
pub fn install(sentence: &'static str) {
    std::panic::set_hook(Box::new(|info| {
        console_error_panic_hook::hook(info);
        let document = document();
        let (Some(body), Ok(note)) = (document.body(), document.create_element("p")) else { return };
        note.set_text_content(Some(sentence));
        let _ = note.set_attribute("role", "alert");
        let _ = note.set_attribute("class", "broken");
        let _ = body.prepend_with_node_1(&note);
    }));
}
