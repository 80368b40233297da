//! What the score prints at the head of the staff, what it means, and what else it may mean.

use crate::state::document::Document;
use crate::state::labelling::{Labelling, Other};
use crate::state::session::Session;
use leptos::prelude::*;

/// The label field with its list, its meaning and its other readings.
#[component]
pub fn LabelField() -> impl IntoView {
    let session = Session::get();
    let labelling = Memo::new(move |_| Labelling::of(&session.view.read(), &session.page.read()));
    let label = move || labelling.read().label.clone();
    view! {
        <div class="labelling">
            <label class="field label">
                <span>"What the score prints"</span>
                <input
                    type="text"
                    class="printed"
                    autocomplete="off"
                    spellcheck="false"
                    maxlength="400"
                    aria-describedby="meaning"
                    prop:value=label
                    on:input:target=move |event| {
                        let typed = event.target().value();
                        session.act(move |document| document.type_label(&typed));
                    }
                    on:change=move |_| session.act(Document::finish_typing)
                />
            </label>
            <Catalogue />
            <div class="meaning" id="meaning" aria-live="polite">
                <p class="decoded">{move || labelling.read().meaning.clone()}</p>
                {move || labelling.read().problem.clone().map(|problem| view! { <p class="problem">{problem}</p> })}
                {move || labelling.read().assumed.clone().map(|assumed| view! { <p class="quiet">{assumed}</p> })}
            </div>
            <div class="others" role="group" aria-label="Other readings" hidden=move || labelling.read().others.is_empty()>
                <For each=move || labelling.read().others.clone() key=Other::key let:other>
                    <OtherReading other />
                </For>
            </div>
        </div>
    }
}

/// Another reading, one tap away.
#[component]
fn OtherReading(
    /// The reading.
    other: Other,
) -> impl IntoView {
    let session = Session::get();
    let Other { name, reason, choice } = other;
    view! {
        <button on:click=move |_| session.act(|document| document.choose_reading(choice))>
            <span>{name}</span>
            <small>{reason}</small>
        </button>
    }
}

/// The list of instruments by family.
#[component]
fn Catalogue() -> impl IntoView {
    let session = Session::get();
    let groups = crate::state::labelling::catalogue()
        .into_iter()
        .map(|(family, entries)| {
            let entries = entries
                .into_iter()
                .map(|entry| view! { <option value=entry.label>{entry.name}</option> })
                .collect_view();
            view! { <optgroup label=family>{entries}</optgroup> }
        })
        .collect_view();
    let choose = move |label: String| {
        if !label.is_empty() {
            session.act(move |document| document.set_label(&label));
        }
    };
    view! {
        <label class="field list">
            <span>"or choose"</span>
            <select on:change:target=move |event| {
                choose(event.target().value());
                // The list itself keeps no choice: what was chosen stands in the field.
                event.target().set_value("");
            }>
                <option value="">"Instruments …"</option>
                {groups}
            </select>
        </label>
    }
}
