//! The keys that are wanted as rows with lists and numbers, for who would rather not type.

use crate::browser::field;
use crate::components::choice::choice;
use crate::components::crooks::wanted_notes::wanted_notes;
use crate::components::icon::icon;
use crate::components::live::{each, hear, live, press};
use crate::state::crooks::{Crooks, key_rows as rows, setting};
use crate::state::kept::Derived;
use crate::state::session::Session;
use crate::words::crooks as words;
use leptos::ev::Event;
use leptos::prelude::*;
use std::sync::Arc;

/// The rows, behind a line that opens them.
pub fn key_rows() -> AnyView {
    let crooks = Crooks::get();
    let count = Derived::new(move || 0..crooks.setting.with(|asked| setting::keys(asked).len()));
    let add = press(move || crooks.change(rows::add));
    view! {
        <details class="key-rows">
            <summary>{words::KEYS_AS_ROWS}</summary>
            <div class="key-row-list">{each(count, row)}</div>
            <div class="row">
                <button on:click=add>{words::ADD_A_KEY}</button>
                {wanted_notes()}
            </div>
        </details>
    }
    .into_any()
}

fn row(at: usize) -> AnyView {
    let crooks = Crooks::get();
    let names = Session::get().names;
    let stretch = Derived::new(move || crooks.setting.with(|asked| setting::keys(asked).get(at).copied()));
    let key = move || stretch.map(|one| one.key.to_string()).unwrap_or_default();
    let bars = live(move || stretch.map(|one| one.bars.to_string()));
    let set = hear(move |event: Event| {
        if let Some(bars) = field::number(&event) {
            crooks.change(|asked| rows::set_bars(asked, at, bars));
        }
    });
    let remove = press(move || crooks.change(|asked| rows::remove(asked, at)));
    let name = words::remove_key(at);
    view! {
        <div class="row key-row" role="group" aria-label=words::key_number(at)>
            {choice(
                words::KEY,
                Arc::new(move || rows::offered(names.get())),
                Arc::new(key),
                Box::new(move |value: String| crooks.change(|asked| rows::set_key(asked, at, &value))),
            )}
            <label class="field narrow">
                <span>{words::NUMBER_OF_BARS}</span>
                <input type="number" inputmode="numeric" min="1" max="10000" aria-label=words::NUMBER_OF_BARS prop:value=bars on:change=set />
            </label>
            <button class="small" title=name.clone() aria-label=name on:click=remove>{icon("remove")}</button>
        </div>
    }
    .into_any()
}
