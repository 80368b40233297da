//! Everything about the selected note, in sentences a student understands.

use crate::browser::field;
use crate::components::live::{either, hear, live, press, when};
use crate::state::everywhere;
use crate::state::kept::Derived;
use crate::state::readout::Readout;
use crate::state::session::Session;
use crate::words;
use leptos::ev::Event;
use leptos::prelude::*;

/// The selected note in sentences, where one is selected.
type Shown = Derived<Option<Readout>>;

/// One of the texts.
fn part(shown: Shown, part: fn(&Readout) -> &String) -> crate::components::live::Live<String> {
    live(move || shown.map(|shown| part(shown).clone()).unwrap_or_default())
}

/// The selected note at a glance: what is written, what sounds, how it is made.
pub fn glance(shown: Shown) -> AnyView {
    let note = move || {
        view! {
            <p class="big">
                <span>{part(shown, |shown| &shown.written)}</span>
                <span class="arrow">"→"</span>
                <span class="sea">{part(shown, |shown| &shown.sounding)}</span>
            </p>
            <p class="headline">{part(shown, |shown| &shown.headline)}</p>
        }
        .into_any()
    };
    let none = || view! { <p class="quiet">{words::staves::NOTHING_SELECTED_YET}</p> }.into_any();
    let Session { desk, .. } = Session::get();
    let several = move || desk.whole.read().staves.len() > 1;
    let change = move || {
        let open = live(move || Some(desk.shows_setup().to_string()));
        let turn = press(move || desk.setting_up.set(!desk.setting_up.get_untracked()));
        view! { <button class="change" aria-expanded=open on:click=turn>{words::staves::CHANGE_THIS_STAFF}</button> }
            .into_any()
    };
    view! {
        <div class="glance">
            {either(move || shown.is_some(), note, none)}
            {when(several, change)}
        </div>
    }
    .into_any()
}

/// The readout of the selected note.
pub fn readout(shown: Shown) -> AnyView {
    let sentences = live(move || {
        let lines = shown.map(|shown| shown.sentences.clone()).unwrap_or_default();
        lines.into_iter().map(|line| view! { <p>{line}</p> }.into_any()).collect::<Vec<_>>()
    });
    view! {
        <section class="card readout" aria-label=words::staves::ABOUT_THE_SELECTED_NOTE>
            <div class="said">
                <h2>{words::staves::THIS_NOTE}</h2>
                {sentences}
                <p class="quiet" hidden=live(move || shown.is_some())>{words::staves::NO_NOTE_IS_SELECTED}</p>
            </div>
            <div class="ways">
                <h2>{words::staves::THREE_WAYS_TO_READ_IT}</h2>
                <dl>
                    <dt>{words::staves::BY_INTERVAL}</dt>
                    <dd>{part(shown, |shown| &shown.by_interval)}</dd>
                    <dt>{words::staves::BY_CLEF}</dt>
                    <dd>{part(shown, |shown| &shown.by_clef)}</dd>
                    <dt>{words::staves::IN_YOUR_HANDS}</dt>
                    <dd>{part(shown, |shown| &shown.in_hand)}</dd>
                </dl>
                {hand_field()}
                {everywhere()}
            </div>
        </section>
    }
    .into_any()
}

/// The instrument in the reader's hands.
fn hand_field() -> AnyView {
    let Session { desk, .. } = Session::get();
    let change = hear(move |event: Event| {
        let label = field::text(&event);
        desk.act(move |document| document.set_in_hand(&label));
    });
    view! {
        <label class="field in-hand">
            <span>{words::staves::THE_INSTRUMENT_IN_YOUR_HANDS}</span>
            <input
                aria-label=words::staves::THE_INSTRUMENT_IN_YOUR_HANDS
                type="text"
                placeholder=words::staves::SUCH_AS_HORN_IN_F
                maxlength="200"
                autocomplete="off"
                spellcheck="false"
                prop:value=live(move || desk.page.read().in_hand.clone().unwrap_or_default())
                on:change=change
            />
        </label>
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
