//! How the staff is printed and what it is tuned to.

use crate::components::choice::Choice;
use crate::state::session::Session;
use crate::state::settings_form as form;
use leptos::prelude::*;

/// The settings every reader needs, and the others behind a fold.
#[component]
pub fn StaffSettings() -> impl IntoView {
    let session = Session::get();
    let shown = Memo::new(move |_| form::Form::of(&session.view.read(), &session.page.read()));
    let choice = move |field: form::Field| {
        let items = Signal::derive(move || shown.read().items(field));
        let value = Signal::derive(move || shown.read().value(field));
        view! {
            <Show when=move || shown.read().has(field)>
                <Choice
                    label=field.label()
                    items
                    value
                    on_choose=move |value| session.act(|document| form::choose(document, field, &value))
                />
            </Show>
        }
    };
    view! {
        <div class="settings">
            {form::Field::FIRST.map(choice).collect_view()}
            <PitchField />
            <details class="more">
                <summary>"More"</summary>
                <div class="settings">
                    {form::Field::MORE.map(choice).collect_view()}
                    <YearField />
                </div>
            </details>
        </div>
    }
}

/// The frequency of A4.
#[component]
fn PitchField() -> impl IntoView {
    let session = Session::get();
    let value = move || form::pitch_text(session.page.read().intonation.tuning.a4);
    view! {
        <label class="field narrow">
            <span>"A in Hz"</span>
            <input
                type="number"
                inputmode="decimal"
                min="370"
                max="570"
                step="any"
                list="pitches"
                prop:value=value
                on:change:target=move |event| {
                    if let Ok(a4) = event.target().value().parse() {
                        session.act(move |document| document.set_a4(a4));
                    }
                    event.target().set_value(&untrack(value));
                }
            />
            <datalist id="pitches">
                {form::USUAL_PITCHES.map(|(a4, name)| view! { <option value=a4>{name}</option> }).collect_view()}
            </datalist>
        </label>
    }
}

/// The year of the music, which decides some habits.
#[component]
fn YearField() -> impl IntoView {
    let session = Session::get();
    let value = move || session.page.read().year.map(|year| year.to_string()).unwrap_or_default();
    view! {
        <label class="field narrow">
            <span>"Year of the music"</span>
            <input
                type="number"
                inputmode="numeric"
                min="1500"
                max="2100"
                placeholder="unknown"
                prop:value=value
                on:change:target=move |event| {
                    let year = form::year(&event.target().value());
                    session.act(move |document| document.set_year(year));
                    event.target().set_value(&untrack(value));
                }
            />
        </label>
    }
}
