//! The selected note at a glance.

use crate::browser::{focus, popover};
use crate::components::chips::chips;
use crate::components::label_field::setup;
use crate::components::live::{LiveText, either, hear, live, press, when};
use crate::components::staff_sheet::SHEET;
use crate::state::chip::Chip;
use crate::state::document::Document;
use crate::state::glance::{Glance, headline};
use crate::state::kept::{Derived, Watched};
use crate::state::session::Session;
use crate::words;
use leptos::ev::Event;
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

/// What holds for the selected staff, over the page.
const STAFF: &str = "of-the-staff";

/// What holds for the selected staff of several, and the way to be rid of it.
fn of_the_staff() -> AnyView {
    let Session { desk, .. } = Session::get();
    let take = press(move || {
        desk.attempt(Document::remove_staff);
        // What is open was of the staff that is gone.
        popover::shut_open();
        focus::to_inside(SHEET, desk.selected_element());
    });
    view! { {setup(&Chip::STAFF)} <button on:click=take>{words::staves::TAKE_IT_AWAY}</button> }.into_any()
}

/// The glance over several staves, beside what holds for the whole page and what opens for the selected staff. A new
/// staff is named under it, where its label has no margin to stand in.
pub fn page_head() -> AnyView {
    let Session { desk, .. } = Session::get();
    let open = Watched::new(false);
    let toggled = hear(move |event: Event| open.set(popover::turned(&event)));
    view! {
        <div class="page-head">
            {glance()}
            <div class="page-held">
                {chips(&Chip::PAGE)}
                <button
                    class="change"
                    popovertarget=STAFF
                    aria-expanded=live(move || Some(open.get().to_string()))
                    hidden=live(move || desk.shows_setup())
                >
                    {words::staves::CHANGE_THIS_STAFF}
                </button>
                <div popover="auto" id=STAFF class="list" on:toggle=toggled>
                    {when(move || open.get(), of_the_staff)}
                </div>
            </div>
            {when(move || desk.shows_setup(), of_the_staff)}
        </div>
    }
    .into_any()
}
