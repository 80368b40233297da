//! The line at the head of the page: its name, the places, and small buttons for what opens over it.

use crate::components::icon::icon;
use crate::components::later::{Fetched, later};
use crate::components::live::{LiveText, live, press};
use crate::components::sheet::sheet;
use crate::components::wall_bar::enter;
use crate::state::panels::Panel;
use crate::state::session::Session;
use crate::words;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// Name, places and buttons, and the sheet that one of them opened.
pub fn header() -> AnyView {
    let session = Session::get();
    let Session { desk, wall, panels, .. } = session;
    // Pages, links and the wall of Read; other places have their own.
    let elsewhere = move || live(move || !session.place().is_read());
    let opens = move |panel: Panel, name: &'static str, hidden: LiveText| {
        view! {
            <button
                id=panel.opener()
                class="small"
                title=name
                aria-label=name
                aria-expanded=live(move || Some(panels.shows(panel).to_string()))
                hidden=hidden
                on:click=press(move || panels.show(panel))
            >
                {icon(panel.opener())}
            </button>
        }
        .into_any()
    };
    let to_the_wall = press(move || {
        panels.close();
        enter(desk, wall);
    });
    let over = live(move || panels.open.get().map(|panel| later(move || Box::pin(fetched_sheet(panel)))));
    view! {
        <header class="bar">
            <h1 id="name" tabindex="-1">{words::frame::CROOKWISE}</h1>
            {nav()}
            <div class="smalls">
                {opens(Panel::Pages, words::frame::PAGES, elsewhere())}
                {opens(Panel::Share, words::frame::SHARE, elsewhere())}
                <button
                    id="wall"
                    class="small"
                    title=words::frame::ON_THE_WALL
                    aria-label=words::frame::ON_THE_WALL
                    hidden=elsewhere()
                    on:click=to_the_wall
                >
                    {icon("wall")}
                </button>
                {opens(Panel::Settings, words::frame::SETTINGS, live(|| false))}
            </div>
        </header>
        {over}
    }
    .into_any()
}

/// The places of the app, each with its address.
const PLACES: [(&str, &str); 4] = [
    (words::frame::READ, "#/read"),
    (words::frame::SCORE, "#/score"),
    (words::frame::CROOKS, "#/crooks"),
    (words::frame::PRACTISE, "#/practise"),
];

fn nav() -> AnyView {
    let session = Session::get();
    let place = |(name, address): (&'static str, &'static str)| {
        let here = live(move || (session.place().name() == name).then_some("page"));
        view! { <a href=address aria-current=here>{name}</a> }.into_any()
    };
    view! {
        <nav class="places" aria-label=words::frame::PLACES>
            {PLACES.map(place).into_iter().collect::<Vec<_>>()}
        </nav>
    }
    .into_any()
}

#[wasm_split(panels, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_sheet(panel: Panel) -> Fetched {
    Ok(sheet(panel))
}
