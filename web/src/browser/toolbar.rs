//! A row of buttons that is one stop for the keyboard, with arrows from one to the next. Elements are `web_sys`: gloo has
//! nothing of its own for them.

use leptos::ev::{FocusEvent, KeyboardEvent};
use wasm_bindgen::JsCast;
use web_sys::{Event, EventTarget, HtmlElement};

/// The buttons of the row that hears an event, as far as they are seen.
fn buttons(event: &Event) -> Vec<HtmlElement> {
    let row = event.current_target().and_then(|row| row.dyn_into::<web_sys::Element>().ok());
    let Some(found) = row.and_then(|row| row.query_selector_all("button").ok()) else { return Vec::new() };
    let seen = |at| found.get(at)?.dyn_into().ok().filter(|at: &HtmlElement| at.offset_parent().is_some());
    (0..found.length()).filter_map(seen).collect()
}

fn is_target(event: &Event, at: &HtmlElement) -> bool {
    event.target().is_some_and(|target| target == *AsRef::<EventTarget>::as_ref(at))
}

/// An arrow, Home or End leads to another button of the row.
pub fn step(event: &KeyboardEvent) {
    let all = buttons(event);
    let here = all.iter().position(|at| is_target(event, at));
    let Some(here) = here else { return };
    let to = match event.key().as_str() {
        "ArrowRight" => here + 1,
        "ArrowLeft" => here + all.len() - 1,
        "Home" => 0,
        "End" => all.len() - 1,
        _ => return,
    };
    event.prevent_default();
    let _ = all[to % all.len()].focus();
}

/// While a button of the row has the focus, the tabulator key stops at that one alone.
pub fn enter(event: &FocusEvent) {
    stop_at(event, |at| is_target(event, at));
}

/// When it has left the row, the key stops at the first.
pub fn leave(event: &FocusEvent) {
    let first = buttons(event).into_iter().next();
    stop_at(event, |at| Some(at) == first.as_ref());
}

fn stop_at(event: &Event, here: impl Fn(&HtmlElement) -> bool) {
    for at in buttons(event) {
        at.set_tab_index(if here(&at) { 0 } else { -1 });
    }
}
