//! Everything about the selected note, in sentences a student understands.

use crate::state::readout::Readout as Shown;
use crate::state::session::Session;
use leptos::prelude::*;

/// The readout of the selected note.
#[component]
pub fn Readout() -> impl IntoView {
    let session = Session::get();
    let shown = Memo::new(move |_| Shown::of(&session.view.read(), &session.page.read()));
    let lines = |lines: Vec<String>| lines.into_iter().map(|line| view! { <p>{line}</p> }).collect_view();
    view! {
        <section class="card readout" aria-label="The selected note">
            <Show
                when=move || shown.read().is_some()
                fallback=|| view! { <p class="quiet">"Select a note to read all about it."</p> }
            >
                <p class="big" aria-hidden="true">
                    <span>{move || shown.read().as_ref().map(|shown| shown.written.clone())}</span>
                    <span class="arrow">"→"</span>
                    <span class="sea">{move || shown.read().as_ref().map(|shown| shown.sounding.clone())}</span>
                </p>
                <div class="said">{move || shown.read().as_ref().map(|shown| lines(shown.sentences.clone()))}</div>
                <div class="ways">
                    <h2>"Three ways to read it"</h2>
                    <dl>
                        <dt>"By interval"</dt>
                        <dd>{move || shown.read().as_ref().map(|shown| shown.by_interval.clone())}</dd>
                        <dt>"By clef"</dt>
                        <dd>{move || shown.read().as_ref().map(|shown| shown.by_clef.clone())}</dd>
                        <dt>"In your hands"</dt>
                        <dd>{move || shown.read().as_ref().map(|shown| shown.in_hand.clone())}</dd>
                    </dl>
                </div>
            </Show>
            <HandField />
        </section>
    }
}

/// The instrument in the reader's hands.
#[component]
fn HandField() -> impl IntoView {
    let session = Session::get();
    view! {
        <label class="field hand">
            <span>"The instrument in your hands"</span>
            <input
                type="text"
                placeholder="such as Horn in F"
                maxlength="200"
                autocomplete="off"
                spellcheck="false"
                prop:value=move || session.page.read().in_hand.clone().unwrap_or_default()
                on:change:target=move |event| {
                    let label = event.target().value();
                    session.act(move |document| document.set_in_hand(&label));
                }
            />
        </label>
    }
}
