//! The way back through what was changed and forth again, which the platform's keys take too.

use crate::components::icon::icon;
use crate::components::key_action::go_back_by_keys;
use crate::components::live::{live, press};
use crate::state::crooks::Crooks;
use crate::state::kept::Derived;
use crate::words::crooks as words;
use leptos::prelude::*;

/// Both buttons.
pub fn way_back() -> AnyView {
    let crooks = Crooks::get();
    go_back_by_keys(move || crooks.undo(), move || crooks.redo());
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
