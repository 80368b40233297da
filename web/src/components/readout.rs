//! Everything about the selected note, in sentences a student understands: leaves that are closed at first.

use crate::components::live::{live, when};
use crate::state::everywhere;
use crate::state::kept::Derived;
use crate::state::readout::Readout;
use crate::state::session::Session;
use crate::words;
use leptos::prelude::*;

/// The selected note in sentences, where one is selected.
fn selected() -> Derived<Option<Readout>> {
    let Session { desk, .. } = Session::get();
    Derived::new(move || Readout::of(&desk.view.read(), &desk.page.read()))
}

/// The selected note in sentences.
pub fn note() -> AnyView {
    let shown = selected();
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
pub fn ways() -> AnyView {
    let shown = selected();
    let way = move |name: &'static str, of: fn(&Readout) -> &String| {
        let nothing = live(move || shown.map(|shown| of(shown).is_empty()).unwrap_or(true));
        let text = live(move || shown.map(|shown| of(shown).clone()).unwrap_or_default());
        view! { <div hidden=nothing><dt>{name}</dt><dd>{text}</dd></div> }.into_any()
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
