//! The bar at the head of the page.

use crate::browser::theme;
use crate::components::later::{Fetched, later};
use crate::components::live::{live, press, when};
use crate::components::pages_panel::pages_panel;
use crate::components::settings_panel::settings_panel;
use crate::components::share_panel::share_panel;
use crate::components::wall_bar::enter;
use crate::state::kept::Watched;
use crate::state::panels::Panels;
use crate::state::session::Session;
use crate::words;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// Name and switches.
pub fn header() -> AnyView {
    let session = Session::get();
    let Session { desk, wall, panels, .. } = session;
    let Panels { pages, share, settings } = panels;
    let dark = Watched::new(theme::device_is_dark());
    let change = press(move || {
        let now = !dark.get_untracked();
        dark.set(now);
        theme::show(now);
    });
    let turn = |panel: Watched<bool>| press(move || panel.set(!panel.get_untracked()));
    let word = |value: Watched<bool>| live(move || Some(value.read().to_string()));
    // Pages, links and the wall of Read; other places have their own.
    let elsewhere = move || live(move || !session.place().is_read());
    view! {
        <header class="bar">
            <h1 id="name" tabindex="-1">{words::frame::CROOKWISE}</h1>
            {nav()}
            <div class="switches">
                <button
                    id="pages"
                    hidden=elsewhere()
                    aria-expanded=word(pages)
                    on:click=turn(pages)
                >
                    {words::frame::PAGES}
                </button>
                <button
                    id="share"
                    hidden=elsewhere()
                    aria-expanded=word(share)
                    on:click=turn(share)
                >
                    {words::frame::SHARE}
                </button>
                <button id="wall" hidden=elsewhere() on:click=press(move || enter(desk, wall))>{words::frame::ON_THE_WALL}</button>
                <button
                    id="settings"
                    aria-expanded=word(settings)
                    on:click=turn(settings)
                >
                    {words::frame::SETTINGS}
                </button>
                <button aria-pressed=word(dark) on:click=change>{words::frame::DARK}</button>
            </div>
        </header>
        {when(move || pages.get(), move || later(move || Box::pin(fetched_pages(pages))))}
        {when(move || share.get(), move || later(move || Box::pin(fetched_share(share))))}
        {when(move || settings.get(), move || later(move || Box::pin(fetched_settings(settings))))}
    }
    .into_any()
}

/// The places of the app.
fn nav() -> AnyView {
    let session = Session::get();
    let place = |name: &'static str, address: &'static str, read: bool| {
        let here = live(move || (session.place().is_read() == read).then_some("page"));
        view! { <a href=address aria-current=here>{name}</a> }.into_any()
    };
    view! {
        <nav class="places" aria-label=words::frame::PLACES>
            {place(words::frame::READ, "#/read", true)}
            {place(words::frame::PRACTISE, "#/practise", false)}
        </nav>
    }
    .into_any()
}

#[wasm_split(panels, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_pages(open: Watched<bool>) -> Fetched {
    Ok(pages_panel(open))
}

#[wasm_split(panels, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_share(open: Watched<bool>) -> Fetched {
    Ok(share_panel(open))
}

#[wasm_split(panels, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_settings(open: Watched<bool>) -> Fetched {
    Ok(settings_panel(open))
}
