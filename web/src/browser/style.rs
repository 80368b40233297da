//! Style that comes with a part of the page. Sheets made by a page are declared here: neither gloo nor the stable part of
//! `web_sys` has them.

use gloo_utils::document;
use std::sync::Once;
use wasm_bindgen::prelude::*;

#[wasm_bindgen]
extern "C" {
    /// A style sheet made by the page (W3C: CSSOM).
    type CSSStyleSheet;

    #[wasm_bindgen(constructor, catch)]
    fn new() -> Result<CSSStyleSheet, JsValue>;

    #[wasm_bindgen(method, catch, js_name = replaceSync)]
    fn replace(this: &CSSStyleSheet, text: &str) -> Result<(), JsValue>;
}

/// Rules that come with the code that needs them.
#[derive(Debug)]
pub struct StyleSheet {
    text: &'static str,
    worn: Once,
}

/// What opens over the page.
pub static PANELS: StyleSheet = StyleSheet::new(include_str!("../../style/later/panels.css"));
/// What only Practise needs.
pub static PRACTISE: StyleSheet = StyleSheet::new(include_str!("../../style/later/practise.css"));
/// A whole movement.
pub static SCORE: StyleSheet = StyleSheet::new(include_str!("../../style/later/score.css"));
/// Crooks and their changes.
pub static CROOKS: StyleSheet = StyleSheet::new(include_str!("../../style/later/crooks.css"));
/// What of a movement is heard.
pub static PLAYBACK: StyleSheet = StyleSheet::new(include_str!("../../style/later/playback.css"));
/// What crooks give of a key, and what may be written for them.
pub static CROOK_TABLE: StyleSheet = StyleSheet::new(include_str!("../../style/later/crook_table.css"));
/// What a teacher sets, shows on the wall and reads.
pub static TEACH: StyleSheet = StyleSheet::new(include_str!("../../style/later/teach.css"));
/// Worksheets.
pub static PAPER: StyleSheet = StyleSheet::new(include_str!("../../style/later/paper.css"));
/// What a column makes together, and the label of a staff among several.
pub static TOGETHER: StyleSheet = StyleSheet::new(include_str!("../../style/later/together.css"));
/// The view from the back row.
pub static WALL: StyleSheet = StyleSheet::new(include_str!("../../style/later/wall.css"));

impl StyleSheet {
    const fn new(text: &'static str) -> Self {
        Self { text, worn: Once::new() }
    }

    /// Puts the rules behind those of the page, the first time; where the browser refuses, the page stays plainer.
    pub fn wear(&self) {
        self.worn.call_once(|| add(self.text));
    }
}

fn add(text: &str) {
    let Ok(sheet) = CSSStyleSheet::new() else { return };
    let worn = js_sys::Reflect::get(&document(), &"adoptedStyleSheets".into());
    let worn = worn.ok().and_then(|worn| worn.dyn_into::<js_sys::Array>().ok());
    if let (Ok(()), Some(worn)) = (sheet.replace(text), worn) {
        worn.push(&sheet);
    }
}
