//! The entries of the map as a row of buttons for the ear and the keyboard.

use crate::browser::toolbar;
use crate::components::live::{hear, live, press};
use crate::components::movement::map::MapShown;
use crate::state::movement::map::MapEntry;
use crate::words;
use leptos::ev::{FocusEvent, KeyboardEvent};
use leptos::prelude::*;

/// The entries for who hears the page or has but keys: one stop, from which arrows lead from one to the next. Whoever sees it has
/// the picture, and the one that has the focus.
pub(super) fn entries(shown: MapShown) -> AnyView {
    let all = live(move || {
        let one = |(at, entry): (usize, MapEntry)| {
            let bar = entry.bar;
            let said = shown.said_of(&entry);
            let go = press(move || shown.go(bar, &[]));
            let stop = if at == 0 { "0" } else { "-1" };
            view! { <li><button tabindex=stop on:click=go>{said}</button></li> }.into_any()
        };
        shown.entries.get().into_iter().enumerate().map(one).collect::<Vec<_>>()
    });
    view! {
        <ul
            class="unseen map-entries"
            aria-label=words::map::ENTRIES
            on:keydown=hear(|event: KeyboardEvent| toolbar::step(&event))
            on:focusin=hear(|event: FocusEvent| toolbar::enter(&event))
            on:focusout=hear(|event: FocusEvent| toolbar::leave(&event))
        >
            {all}
        </ul>
    }
    .into_any()
}
