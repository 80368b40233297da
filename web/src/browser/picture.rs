//! A picture of many shapes is put into the page a part at a time, so that nothing else waits for it: a browser needs some
//! hundredths of a second for some thousand of them. How is `web_sys`: gloo has nothing for it.

use crate::browser::clock;
use gloo_utils::document;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Element, HtmlDivElement};

/// So many of its groups at a time.
const PART: usize = 120;

/// Shows an SVG picture in a place instead of what stood there; all of it at once, or part by part.
pub fn show(place: &HtmlDivElement, svg: &str, at_once: bool) {
    if at_once || svg.is_empty() {
        return place.set_inner_html(svg);
    }
    let Some((parsed, shown)) = begun(place, svg) else { return place.set_inner_html(svg) };
    spawn_local(async move {
        // What stands elsewhere by now has gone from the page.
        while shown.is_connected() && go_on(&parsed, &shown) {
            clock::a_picture().await;
        }
    });
}

/// The picture outside the page, and its empty frame in the place; nothing where it is none.
fn begun(place: &HtmlDivElement, svg: &str) -> Option<(Element, Element)> {
    let aside = document().create_element("div").ok()?;
    aside.set_inner_html(svg);
    let parsed = aside.first_element_child()?;
    let shown: Element = wasm_bindgen::JsCast::unchecked_into(parsed.clone_node().ok()?);
    place.set_inner_html("");
    place.append_child(&shown).ok()?;
    Some((parsed, shown))
}

/// Moves the next groups into the page; whether there are more.
fn go_on(parsed: &Element, shown: &Element) -> bool {
    for _ in 0..PART {
        let Some(group) = parsed.first_element_child() else { return false };
        if shown.append_child(&group).is_err() {
            return false;
        }
    }
    true
}
