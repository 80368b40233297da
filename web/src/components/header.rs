//! The bar at the head of the page.

use crate::browser::theme;
use crate::components::later::{Fetched, later};
use crate::components::live::{live, press, when};
use crate::components::pages_panel::pages_panel;
use crate::components::settings_panel::settings_panel;
use crate::components::share_panel::share_panel;
use crate::components::wall_bar::enter;
use crate::state::kept::Cell;
use crate::state::session::Session;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// Name and switches.
pub fn header() -> AnyView {
    let session = Session::get();
    let sharing = Cell::new(false);
    let setting = Cell::new(false);
    let paging = Cell::new(false);
    let dark = Cell::new(theme::device_is_dark());
    let turn = press(move || {
        let now = !*dark.get_untracked();
        dark.set(now);
        theme::show(now);
    });
    let word = |value: Cell<bool>| live(move || Some(value.get().to_string()));
    // Pages, links and the wall of Read; other places have their own.
    let elsewhere = move || live(move || !session.place.get().is_read());
    view! {
        <header class="bar">
            <h1 id="name" tabindex="-1">"Crookwise"</h1>
            {nav()}
            <div class="switches">
                <button
                    id="pages"
                    hidden=elsewhere()
                    aria-expanded=word(paging)
                    on:click=press(move || paging.set(!*paging.get_untracked()))
                >
                    "Pages"
                </button>
                <button
                    id="share"
                    hidden=elsewhere()
                    aria-expanded=word(sharing)
                    on:click=press(move || sharing.set(!*sharing.get_untracked()))
                >
                    "Share"
                </button>
                <button id="wall" hidden=elsewhere() on:click=press(move || enter(session))>"On the wall"</button>
                <button
                    id="settings"
                    aria-expanded=word(setting)
                    on:click=press(move || setting.set(!*setting.get_untracked()))
                >
                    "Settings"
                </button>
                <button aria-pressed=word(dark) on:click=turn>"Dark"</button>
            </div>
        </header>
        {when(move || *paging.get(), move || later(move || Box::pin(fetched_pages(paging))))}
        {when(move || *sharing.get(), move || later(move || Box::pin(fetched_share(sharing))))}
        {when(move || *setting.get(), move || later(move || Box::pin(fetched_settings(setting))))}
    }
    .into_any()
}

/// The places of the app.
fn nav() -> AnyView {
    let session = Session::get();
    let place = move |name: &'static str, address: &'static str| {
        let here = live(move || (session.place.get().address() == address).then_some("page"));
        view! { <a href=format!("#{address}") aria-current=here>{name}</a> }.into_any()
    };
    view! {
        <nav class="places" aria-label="Places">
            {place("Read", "/read")}
            {place("Practise", "/practise")}
        </nav>
    }
    .into_any()
}

#[wasm_split(panels, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_pages(open: Cell<bool>) -> Fetched {
    Ok(pages_panel(open))
}

#[wasm_split(panels, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_share(open: Cell<bool>) -> Fetched {
    Ok(share_panel(open))
}

#[wasm_split(panels, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_settings(open: Cell<bool>) -> Fetched {
    Ok(settings_panel(open))
}
