//! The small list that a choice of the line opens: its settings, the reason, the alternatives.

use crate::browser::{field, popover, style};
use crate::components::live::{hear, live, press, when};
use crate::components::margin_tools::margin_tools;
use crate::components::options::options;
use crate::state::chip::{Chip, Holding};
use crate::state::kept::Derived;
use crate::state::labelling::{Labelling, Other};
use crate::state::session::Session;
use crate::state::settings_form::{self as form, Field, Form};
use crate::words;
use leptos::ev::Event;
use leptos::prelude::*;
use std::sync::Arc;

/// What stands in the list of a choice, and why something was assumed.
pub fn chip_list(chip: Chip, held: Derived<Option<Holding>>) -> AnyView {
    let Session { desk, .. } = Session::get();
    style::PANELS.wear();
    let shown = Derived::new(move || Form::of(&desk.view.read(), &desk.page.read()));
    let reason = live(move || held.map(|held| held.reason.clone()).unwrap_or_default());
    let before = (chip == Chip::Tuning).then(pitch_field);
    let more = match chip {
        Chip::Reading => others(),
        Chip::Tuning => [
            air_field(words::settings::BRASS_TUNED_AT_C, form::Air::Tuned),
            air_field(words::settings::PLAYING_AT_C, form::Air::Playing),
        ]
        .into_any(),
        Chip::Movement => year_field(),
        Chip::Hand => hand_field(),
        Chip::Staff => margin_tools(),
        Chip::Played | Chip::Clef | Chip::Signature => ().into_any(),
    };
    let lists: Vec<_> = chip.fields().iter().map(|&field| list(shown, chip, field)).collect();
    view! {
        <p class="quiet">{reason}</p>
        {before}
        {lists}
        {more}
    }
    .into_any()
}

/// A setting as a list, while it means something.
fn list(shown: Derived<Form>, chip: Chip, field: Field) -> AnyView {
    let Session { desk, .. } = Session::get();
    let part = move || {
        options(
            field.label(),
            chip.id(),
            Arc::new(move || shown.read().items(field)),
            Arc::new(move || shown.read().value(field)),
            Arc::new(move |value: String| desk.act(|document| form::choose(document, field, &value))),
        )
    };
    when(move || shown.read().has(field), part).into_any()
}

/// The readings of the label: the one that holds, to be confirmed, and the others.
fn others() -> AnyView {
    let Session { desk, .. } = Session::get();
    let labelling = Derived::new(move || Labelling::of(&desk.view.read(), &desk.page.read()));
    let button = move |(here, Other { name, reason, choice }): (bool, Other)| {
        let choose = press(move || {
            desk.act(|document| document.choose_reading(choice));
            popover::shut(Chip::Reading.id());
        });
        view! {
            <button class="option" aria-pressed=here.then_some("true") on:click=choose>
                <span>{name}</span>
                <small>{reason}</small>
            </button>
        }
        .into_any()
    };
    let buttons = live(move || {
        let labelling = labelling.read();
        let here = labelling.here.iter().map(|other| (true, other.clone()));
        let others = labelling.others.iter().map(|other| (false, other.clone()));
        here.chain(others).map(button).collect::<Vec<_>>()
    });
    view! { <div class="options" role="group" aria-label=words::staves::OTHER_READINGS>{buttons}</div> }
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
        <label class="field">
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
