//! Everything about the selected note, in sentences a student understands.

use crate::state::readout::Readout as Shown;
use crate::state::session::Session;
use leptos::prelude::*;

/// The selected note at a glance: what is written, what sounds, how it is made.
#[component]
pub fn Glance(
    /// The selected note in sentences.
    shown: Memo<Option<Shown>>,
) -> impl IntoView {
    let part =
        move |part: fn(&Shown) -> &String| move || shown.read().as_ref().map(|shown| part(shown).clone());
    view! {
        <div class="glance">
            <Show
                when=move || shown.read().is_some()
                fallback=|| view! { <p class="quiet">"Tap the staff to place a note, or select one to read all about it."</p> }
            >
                <p class="big">
                    <span>{part(|shown| &shown.written)}</span>
                    <span class="arrow">"→"</span>
                    <span class="sea">{part(|shown| &shown.sounding)}</span>
                </p>
                <p class="headline">{part(|shown| &shown.headline)}</p>
            </Show>
        </div>
    }
}

/// The readout of the selected note.
#[component]
pub fn Readout(
    /// The selected note in sentences.
    shown: Memo<Option<Shown>>,
) -> impl IntoView {
    let part =
        move |part: fn(&Shown) -> &String| move || shown.read().as_ref().map(|shown| part(shown).clone());
    let sentences = move || {
        let lines = shown.read().as_ref().map(|shown| shown.sentences.clone()).unwrap_or_default();
        lines.into_iter().map(|line| view! { <p>{line}</p> }).collect_view()
    };
    view! {
        <section class="card readout" aria-label="The selected note">
            <div class="said">
                <h2>"This note"</h2>
                {sentences}
                <p class="quiet" hidden=move || shown.read().is_some()>"No note is selected."</p>
            </div>
            <div class="ways">
                <h2>"Three ways to read it"</h2>
                <dl>
                    <dt>"By interval"</dt>
                    <dd>{part(|shown| &shown.by_interval)}</dd>
                    <dt>"By clef"</dt>
                    <dd>{part(|shown| &shown.by_clef)}</dd>
                    <dt>"In your hands"</dt>
                    <dd>{part(|shown| &shown.in_hand)}</dd>
                </dl>
                <HandField />
            </div>
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
