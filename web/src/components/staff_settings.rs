//! How the staff is printed and what it is tuned to.

use crate::browser::field;
use crate::components::choice::choice;
use crate::components::later::{Fetched, later};
use crate::components::live::{hear, live, when};
use crate::components::margin_tools::margin_tools;
use crate::state::kept::{Derived, Watched};
use crate::state::session::Session;
use crate::state::settings_form::{self as form, Field, Form};
use crate::words;
use leptos::ev::Event;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;
use std::sync::Arc;

/// The settings every reader needs, and the others behind a fold.
pub fn staff_settings() -> AnyView {
    let Session { desk, .. } = Session::get();
    let shown = Derived::new(move || Form::of(&desk.view.read(), &desk.page.read()));
    let opened = Watched::new(false);
    let several = move || desk.whole.read().staves.len() > 1;
    view! {
        <div class="settings">
            {lists(shown, &Field::FIRST)}
            {pitch_field()}
            <details class="more" on:toggle=hear(move |_: Event| opened.set(true))>
                <summary>{words::settings::MORE}</summary>
                {when(move || opened.get(), move || later(move || Box::pin(fetched_more(shown))))}
                {when(move || opened.get() && !several(), || later(|| Box::pin(fetched_margin_tools())))}
            </details>
        </div>
        {when(several, || later(|| Box::pin(fetched_margin_tools())))}
    }
    .into_any()
}

/// The settings behind the fold.
#[wasm_split(panels, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_more(shown: Derived<Form>) -> Fetched {
    let more = view! {
        <div class="settings">
            {lists(shown, &Field::MORE)}
            {year_field()}
            {air_field(words::settings::BRASS_TUNED_AT_C, form::Air::Tuned)}
            {air_field(words::settings::PLAYING_AT_C, form::Air::Playing)}
        </div>
    };
    Ok(more.into_any())
}

#[wasm_split(panels, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_margin_tools() -> Fetched {
    Ok(margin_tools())
}

fn lists(shown: Derived<Form>, fields: &'static [Field]) -> Vec<AnyView> {
    fields.iter().map(|&field| list(shown, field)).collect()
}

/// A setting as a list, while it means something.
fn list(shown: Derived<Form>, field: Field) -> AnyView {
    let Session { desk, .. } = Session::get();
    let part = move || {
        choice(
            field.label(),
            Arc::new(move || shown.read().items(field)),
            Arc::new(move || shown.read().value(field)),
            Box::new(move |value| desk.act(|document| form::choose(document, field, &value))),
        )
    };
    when(move || shown.read().has(field), part).into_any()
}

/// The frequency of A4.
fn pitch_field() -> AnyView {
    let Session { desk, .. } = Session::get();
    let value = move || form::pitch_text(desk.page.read().intonation.tuning.a4);
    let change = hear(move |event: Event| {
        if let Some(a4) = field::number(&event) {
            desk.act(move |document| document.set_a4(a4));
        }
        field::set(&event, &untrack(value));
    });
    let usual = form::USUAL_PITCHES.map(|(a4, name)| view! { <option value=a4>{name}</option> }.into_any());
    view! {
        <label class="field narrow">
            <span>{words::settings::A_IN_HZ}</span>
            <input
                aria-label=words::settings::A_IN_HZ
                type="number"
                inputmode="decimal"
                min="370"
                max="570"
                step="any"
                list="pitches"
                prop:value=live(value)
                on:change=change
            />
            <datalist id="pitches">{Vec::from(usual)}</datalist>
        </label>
    }
    .into_any()
}

/// The year of the music, which decides some habits.
fn year_field() -> AnyView {
    let Session { desk, .. } = Session::get();
    let value = move || desk.page.read().year.map(|year| year.to_string()).unwrap_or_default();
    let change = hear(move |event: Event| {
        let year = form::year(&field::text(&event));
        desk.act(move |document| document.set_year(year));
        field::set(&event, &untrack(value));
    });
    view! {
        <label class="field narrow">
            <span>{words::settings::YEAR_OF_THE_MUSIC}</span>
            <input
                aria-label=words::settings::YEAR_OF_THE_MUSIC
                type="number"
                inputmode="numeric"
                min="1500"
                max="2100"
                placeholder=words::settings::UNKNOWN
                prop:value=live(value)
                on:change=change
            />
        </label>
    }
    .into_any()
}

/// A temperature of the air.
fn air_field(label: &'static str, air: form::Air) -> AnyView {
    let Session { desk, .. } = Session::get();
    let value = move || form::air_text(desk.page.read().intonation.warmth, air);
    let change = hear(move |event: Event| {
        let celsius = field::number(&event);
        let warmth = form::warmer(desk.page.read_untracked().intonation.warmth, air, celsius);
        desk.act(move |document| document.set_warmth(warmth));
        field::set(&event, &untrack(value));
    });
    view! {
        <label class="field narrow">
            <span>{label}</span>
            <input
                aria-label=label
                type="number"
                inputmode="decimal"
                min="0"
                max="40"
                step="any"
                placeholder=words::settings::NO_MATTER
                prop:value=live(value)
                on:change=change
            />
        </label>
    }
    .into_any()
}
