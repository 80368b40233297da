//! The full screen, paper, and keys that reach the page whatever has the focus. The full screen is asked for by name, as some
//! browsers lack it and gloo has nothing for it.

use crate::browser::{owned, popover};
use gloo_utils::{document, window};
use js_sys::{Function, Promise, Reflect};
use leptos::ev::KeyboardEvent;
use leptos::task::spawn_local;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// Fills the screen with the page, where the browser can and may.
pub fn fill() {
    if let Some(root) = document().document_element() {
        ask(&root, "requestFullscreen");
    }
}

/// Gives the screen back.
pub fn give_back() {
    if document().fullscreen_element().is_some() {
        ask(&document(), "exitFullscreen");
    }
}

/// Asks for something that a browser may lack, or promise and refuse: nothing needs to be said then.
fn ask(of: &JsValue, what: &str) {
    let promise = Reflect::get(of, &what.into())
        .and_then(JsCast::dyn_into::<Function>)
        .and_then(|asked| asked.call0(of))
        .and_then(JsCast::dyn_into::<Promise>);
    if let Ok(promise) = promise {
        spawn_local(async move {
            let _ = JsFuture::from(promise).await;
        });
    }
}

/// Calls back for every key that goes down anywhere in the page.
pub fn on_key(pressed: impl Fn(KeyboardEvent) + 'static) {
    owned::on_key_down(pressed);
}

/// Calls back at Escape, unless that shuts what is open, or something else has taken it; says whether it is taken here.
pub fn on_escape(act: impl Fn() -> bool + 'static) {
    on_key(move |event: KeyboardEvent| {
        let is_free = event.key() == "Escape" && !event.default_prevented() && !popover::is_any_open();
        if is_free && act() {
            event.prevent_default();
        }
    });
}

/// What leads through anything that is on the wall: arrows and a clicker step, backwards by −1, and Escape leaves, as does the
/// browser that takes the key for itself and ends the full screen.
pub fn on_wall_keys(step: impl Fn(isize) + 'static, leave: impl Fn() + Copy + 'static) {
    on_given_back(leave);
    on_key(move |event: KeyboardEvent| {
        if event.default_prevented() {
            return;
        }
        match event.key().as_str() {
            "ArrowRight" | "PageDown" => step(1),
            "ArrowLeft" | "PageUp" => step(-1),
            "Escape" => leave(),
            _ => return,
        }
        event.prevent_default();
    });
}

/// Calls back when the screen has been given back, by the page or by a key that the browser keeps to itself.
pub fn on_given_back(act: impl Fn() + 'static) {
    owned::on_window("fullscreenchange", move || {
        if document().fullscreen_element().is_none() {
            act();
        }
    });
}

/// Opens the browser's way to paper.
pub fn print() {
    let _ = window().print();
}
