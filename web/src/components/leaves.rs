//! The panel beside the staves: the chord, the series, the selected note and three ways to read it, each on a leaf.

use crate::browser::focus;
use crate::components::ladder_panel::ladder_panel;
use crate::components::later::{Fetched, later};
use crate::components::live::{hear, live, press};
use crate::components::readout::{note, ways};
use crate::state::kept::{Derived, Watched};
use crate::state::leaf::Leaf;
use crate::state::session::Session;
use crate::words;
use leptos::ev::KeyboardEvent;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// The leaves; `chord` makes the first of a page on which several play.
pub fn leaves(chord: fn() -> AnyView) -> AnyView {
    let Session { desk, wall, .. } = Session::get();
    let opened = Watched::new(None);
    let all = Derived::new(move || Leaf::all(!desk.whole.read().is_alone(), desk.ladder.is_some()));
    // On the wall stands the chord alone.
    let seen = Derived::new(move || Leaf::seen(opened.get().filter(|_| !wall.is_on()), &all.read()));
    let turn = hear(move |event: KeyboardEvent| {
        let places = match event.key().as_str() {
            "ArrowRight" => 1,
            "ArrowLeft" => -1,
            _ => return,
        };
        event.prevent_default();
        let leaf = seen.get_untracked().beside(&all.read_untracked(), places);
        opened.set(Some(leaf));
        focus::now(leaf.id());
    });
    let tab = move |leaf: Leaf| {
        let is_seen = move || seen.get() == leaf;
        view! {
            <button
                role="tab"
                id=leaf.id()
                aria-controls="leaf"
                aria-selected=live(move || Some(is_seen().to_string()))
                tabindex=live(move || if is_seen() { "0" } else { "-1" })
                on:click=press(move || opened.set(Some(leaf)))
            >
                {leaf.word()}
            </button>
        }
        .into_any()
    };
    let tabs = live(move || all.read().iter().copied().map(tab).collect::<Vec<_>>());
    let leaf = live(move || match seen.get() {
        Leaf::Chord => chord(),
        Leaf::Series => ladder_panel(),
        Leaf::Note => later(|| Box::pin(fetched_note())),
        Leaf::Ways => later(|| Box::pin(fetched_ways())),
    });
    view! {
        <section class="card leaves" aria-label=words::staves::ABOUT_THE_SELECTED_NOTE>
            <div role="tablist" aria-label=words::staves::LEAVES on:keydown=turn>{tabs}</div>
            <div role="tabpanel" id="leaf" tabindex="0" aria-labelledby=live(move || seen.get().id())>{leaf}</div>
        </section>
    }
    .into_any()
}

// The first of a horn is the series; the others come when one is first opened, with what several need beside their staves.
#[wasm_split(beside, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_note() -> Fetched {
    Ok(note())
}

#[wasm_split(beside, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_ways() -> Fetched {
    Ok(ways())
}
