//! Everything about the selected note, in sentences a student understands.

use crate::components::chips::chips;
use crate::components::label_field::setup;
use crate::components::live::{LiveText, either, live, press, when};
use crate::state::chip::Chip;
use crate::state::everywhere;
use crate::state::kept::Derived;
use crate::state::readout::{Readout, headline};
use crate::state::session::Session;
use crate::words;
use leptos::prelude::*;

/// The selected note in sentences, where one is selected.
pub type Shown = Derived<Option<Readout>>;

/// One of the texts.
fn part(shown: Shown, part: fn(&Readout) -> &String) -> LiveText {
    live(move || shown.map(|shown| part(shown).clone()).unwrap_or_default())
}

/// The selected note at a glance: what is written, what sounds, how it is made, and by whom where several play.
pub fn glance(shown: Shown) -> AnyView {
    let Session { desk, .. } = Session::get();
    let note = move || {
        view! {
            <p class="big">
                <span>{part(shown, |shown| &shown.written)}</span>
                <span class="arrow">"→"</span>
                <span class="sea">{part(shown, |shown| &shown.sounding)}</span>
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
pub fn page_head(shown: Shown) -> AnyView {
    let Session { desk, .. } = Session::get();
    let open = live(move || Some(desk.shows_setup().to_string()));
    let turn = press(move || desk.setting_up.set(!desk.setting_up.get_untracked()));
    view! {
        <div class="page-head">
            {glance(shown)}
            <div class="page-held">
                {chips(&Chip::PAGE)}
                <button class="change" aria-expanded=open on:click=turn>{words::staves::CHANGE_THIS_STAFF}</button>
            </div>
            {when(move || desk.shows_setup(), || setup(&Chip::STAFF))}
        </div>
    }
    .into_any()
}

/// The selected note in sentences.
pub fn note(shown: Shown) -> AnyView {
    let sentences = live(move || {
        let lines = shown.map(|shown| shown.sentences.clone()).unwrap_or_default();
        lines.into_iter().map(|line| view! { <p>{line}</p> }.into_any()).collect::<Vec<_>>()
    });
    view! {
        <div class="said">
            {sentences}
            <p class="quiet" hidden=live(move || shown.is_some())>{words::staves::NO_NOTE_IS_SELECTED}</p>
        </div>
    }
    .into_any()
}

/// Three ways to read the selected note; those that say something.
pub fn ways(shown: Shown) -> AnyView {
    let way = move |name: &'static str, of: fn(&Readout) -> &String| {
        let nothing = live(move || shown.map(|shown| of(shown).is_empty()).unwrap_or(true));
        view! { <div hidden=nothing><dt>{name}</dt><dd>{part(shown, of)}</dd></div> }.into_any()
    };
    view! {
        <div class="ways">
            <dl>
                {way(words::staves::BY_INTERVAL, |shown| &shown.by_interval)}
                {way(words::staves::BY_CLEF, |shown| &shown.by_clef)}
                {way(words::staves::IN_YOUR_HANDS, |shown| &shown.in_hand)}
            </dl>
            <p class="quiet" hidden=live(move || shown.is_some())>{words::staves::NO_NOTE_IS_SELECTED}</p>
            {everywhere()}
        </div>
    }
    .into_any()
}

/// The selected sounding note on every staff of the page.
fn everywhere() -> AnyView {
    let Session { desk, .. } = Session::get();
    let lines = Derived::new(move || everywhere::lines(&desk.whole.read(), &desk.page.read()));
    let part = move || {
        let item = |line: String| view! { <li>{line}</li> }.into_any();
        let items = live(move || lines.read().iter().cloned().map(item).collect::<Vec<_>>());
        view! {
            <h2>{words::staves::THIS_SOUNDING_NOTE_ON_EVERY_STAFF}</h2>
            <ul class="plain">{items}</ul>
        }
        .into_any()
    };
    when(move || !lines.read().is_empty(), part).into_any()
}
