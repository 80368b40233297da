//! The way back through what was changed and forth again, which the platform's keys take too.

use crate::browser::{field, screen};
use crate::components::icon::icon;
use crate::components::live::{live, press};
use crate::state::crooks::Crooks;
use crate::state::kept::Derived;
use crate::state::keys::{Held, KeyAction};
use crate::words::Letters;
use crate::words::crooks as words;
use leptos::ev::KeyboardEvent;
use leptos::prelude::*;

/// Both buttons.
pub fn way_back() -> AnyView {
    let crooks = Crooks::get();
    screen::on_key(move |event: KeyboardEvent| {
        let held = Held {
            command: event.ctrl_key() || event.meta_key(),
            shift: event.shift_key(),
            alt: event.alt_key(),
        };
        // In a field it is the text that is taken back.
        if event.default_prevented() || field::is_text(&event) {
            return;
        }
        let done = match KeyAction::of(&event.key(), held, Letters::English) {
            Some(KeyAction::Undo) => crooks.undo(),
            Some(KeyAction::Redo) => crooks.redo(),
            _ => false,
        };
        if done {
            event.prevent_default();
        }
    });
    let ways = Derived::new(move || crooks.ways());
    let button = move |name: &'static str,
                       sign: &'static str,
                       is_there: fn((bool, bool)) -> bool,
                       act: fn(Crooks) -> bool| {
        let go = press(move || {
            act(crooks);
        });
        let none = live(move || (!is_there(ways.get())).then_some("true"));
        view! {
            <button class="small" title=name aria-label=name aria-disabled=none on:click=go>{icon(sign)}</button>
        }
        .into_any()
    };
    view! {
        <div class="row way-back" role="group" aria-label=words::WAY_BACK>
            {button(words::UNDO, "undo", |ways| ways.0, Crooks::undo)}
            {button(words::REDO, "redo", |ways| ways.1, Crooks::redo)}
        </div>
    }
    .into_any()
}
