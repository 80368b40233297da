//! The line of what holds. Each choice opens its own small list.

use crate::browser::popover;
use crate::components::chip_list::chip_list;
use crate::components::later::{Fetched, later};
use crate::components::live::{hear, live, when};
use crate::state::chip::{Chip, Holding};
use crate::state::kept::{Derived, Watched};
use crate::state::session::Session;
use crate::words;
use leptos::ev::Event;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// The choices of the line.
pub fn chips(which: &'static [Chip]) -> AnyView {
    let all: Vec<_> = which.iter().map(|&one| chip(one)).collect();
    view! { <div class="chips" role="group" aria-label=words::chips::WHAT_HOLDS>{all}</div> }.into_any()
}

/// A choice, while it means something.
fn chip(chip: Chip) -> AnyView {
    let Session { desk, .. } = Session::get();
    let held = Derived::new(move || chip.held(&desk.view.read(), &desk.page.read()));
    let part = move || {
        let open = Watched::new(false);
        let toggled = hear(move |event: Event| open.set(popover::turned(&event)));
        let mark = || {
            view! { <i aria-hidden="true">"?"</i><span class="unseen">{words::chips::ASSUMED}</span> }
                .into_any()
        };
        let of = move |part: fn(&Holding) -> &String| {
            live(move || held.map(|held| part(held).clone()).unwrap_or_default())
        };
        let assumed = move || held.read().as_ref().as_ref().is_some_and(|held| held.assumed);
        let class = live(move || if assumed() { "chip assumed" } else { "chip" });
        view! {
            <button class=class popovertarget=chip.id() aria-expanded=live(move || Some(open.get().to_string()))>
                <small>{chip.word()}</small>
                " "
                <span>{of(|held| &held.value)}</span>
                {when(assumed, mark)}
            </button>
            <div popover="auto" id=chip.id() class="list" on:toggle=toggled>
                {when(move || open.get(), move || later(move || Box::pin(fetched_list(chip, held))))}
            </div>
        }
        .into_any()
    };
    when(move || held.is_some(), part).into_any()
}

#[wasm_split(panels, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_list(chip: Chip, held: Derived<Option<Holding>>) -> Fetched {
    Ok(chip_list(chip, held))
}
