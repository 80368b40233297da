//! The selected note at a glance.

use crate::components::chips::chips;
use crate::components::label_field::setup;
use crate::components::live::{LiveText, either, live, press, when};
use crate::state::chip::Chip;
use crate::state::glance::{Glance, headline};
use crate::state::kept::Derived;
use crate::state::session::Session;
use crate::words;
use leptos::prelude::*;

/// The selected note at a glance: what is written, what sounds, how it is made, and by whom where several play.
pub fn glance() -> AnyView {
    let Session { desk, .. } = Session::get();
    let shown = Derived::new(move || Glance::of(&desk.view.read()));
    let part = move |part: fn(&Glance) -> &String| -> LiveText {
        live(move || shown.map(|shown| part(shown).clone()).unwrap_or_default())
    };
    let note = move || {
        view! {
            <p class="big">
                <span>{part(|shown| &shown.written)}</span>
                <span class="arrow">"→"</span>
                <span class="sea">{part(|shown| &shown.sounding)}</span>
            </p>
            <p class="headline">{live(move || shown.map(|shown| headline(shown, &desk.whole.read())))}</p>
        }
        .into_any()
    };
    // A hint helps who has nothing before him yet.
    let hint = move || {
        let empty = desk.whole.read().columns() == 0;
        empty.then(|| view! { <p class="quiet">{words::staves::NOTHING_SELECTED_YET}</p> }.into_any())
    };
    let none = move || view! { {live(hint)} }.into_any();
    view! { <div class="glance">{either(move || shown.is_some(), note, none)}</div> }.into_any()
}

/// The glance over several staves, beside what holds for the whole page; under it what holds for the selected staff, where
/// the reader opened that.
pub fn page_head() -> AnyView {
    let Session { desk, .. } = Session::get();
    let open = live(move || Some(desk.shows_setup().to_string()));
    let turn = press(move || desk.setting_up.set(!desk.setting_up.get_untracked()));
    view! {
        <div class="page-head">
            {glance()}
            <div class="page-held">
                {chips(&Chip::PAGE)}
                <button class="change" aria-expanded=open on:click=turn>{words::staves::CHANGE_THIS_STAFF}</button>
            </div>
            {when(move || desk.shows_setup(), || setup(&Chip::STAFF))}
        </div>
    }
    .into_any()
}
