//! What the score prints at the head of the staff, and what it means.

use crate::browser::{field, focus};
use crate::components::chips::chips;
use crate::components::later::{self, Deed};
use crate::components::live::{hear, live};
use crate::components::margin_label::LABEL;
use crate::components::staff_sheet::SHEET;
use crate::state::chip::Chip;
use crate::state::document::Document;
use crate::state::kept::{Derived, Watched};
use crate::state::labelling::{self, Labelling};
use crate::state::session::Session;
use crate::words;
use leptos::ev::{Event, FocusEvent, KeyboardEvent, MouseEvent};
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// The label of the selected staff and the choices of the line that are wanted.
pub fn setup(which: &'static [Chip]) -> AnyView {
    view! {
        <section class="setup" aria-label=words::staves::THE_STAFF>
            {label_field()}
            {chips(which)}
        </section>
    }
    .into_any()
}

/// The label field with its list, and beside it what it means.
fn label_field() -> AnyView {
    let session = Session::get();
    let Session { desk, .. } = session;
    let labelling = Derived::new(move || Labelling::of(&desk.view.read(), &desk.page.read()));
    let finished = hear(move |_: Event| {
        desk.act(Document::finish_typing);
        desk.setting_up.set(false);
    });
    // At the first press all is selected: what is typed then stands in its place.
    let fresh = Watched::new(false);
    let pressed = hear(move |event: MouseEvent| {
        if fresh.get_untracked() {
            fresh.set(false);
            field::select_area(&event);
        }
    });
    // The field stays while its first letters are typed.
    let begun = hear(move |_: FocusEvent| {
        fresh.set(true);
        if untrack(|| desk.shows_setup()) {
            desk.setting_up.set(true);
        }
    });
    let key = hear(move |event: KeyboardEvent| {
        if event.key() == "Enter" && !event.is_composing() {
            event.prevent_default();
            focus::to_inside(SHEET, desk.selected_element());
        }
    });
    view! {
        <div class="labelling">
            <div class="label">
                <label>
                <span class="unseen">{words::staves::WHAT_THE_SCORE_PRINTS}</span>
                <textarea
                    aria-label=words::staves::WHAT_THE_SCORE_PRINTS
                    id="label"
                    rows="1"
                    class="printed"
                    autocomplete="off"
                    spellcheck="false"
                    aria-describedby="meaning"
                    prop:value=live(move || labelling.read().label.clone())
                    on:focus=begun
                    on:click=pressed
                    on:input=hear(move |event: Event| typed(session, &event))
                    on:change=finished
                    on:keydown=key
                ></textarea>
                </label>
                {catalogue()}
            </div>
            {meaning(labelling)}
        </div>
    }
    .into_any()
}

/// What is typed into a label. A list that is pasted makes several staves; the last one's label has the keyboard then.
pub fn typed(session: Session, event: &Event) {
    let typed = field::text(event);
    if typed.trim().contains('\n') {
        later::act(session.notices, Box::new(move || Box::pin(listed(session, typed.clone()))));
    } else {
        let typed = typed.replace('\n', "");
        session.desk.act(move |document| document.type_label(&typed));
    }
}

#[wasm_split(beside, wasm_split_path = leptos::wasm_split, fallible)]
fn listed(session: Session, labels: String) -> Deed {
    session.desk.attempt(move |document| document.list_labels(&labels));
    focus::to_inside(SHEET, LABEL.to_owned());
    Ok(())
}

/// What the label means, what is not understood, what was taken for granted.
fn meaning(labelling: Derived<Labelling>) -> AnyView {
    let line = |class: &'static str, text: Option<String>| {
        text.map(|text| view! { <p class=class>{text}</p> }.into_any())
    };
    let lines = live(move || {
        let labelling = labelling.read();
        let meaning = Some(labelling.meaning.clone()).filter(|meaning| !meaning.is_empty());
        [
            line("decoded", meaning),
            line("problem", labelling.problem.clone()),
            line("quiet", Some(labelling.aside())),
        ]
        .into_iter()
        .flatten()
        .collect::<Vec<_>>()
    });
    view! { <div class="meaning" id="meaning" aria-live="polite">{lines}</div> }.into_any()
}

/// The list of instruments by family.
fn catalogue() -> AnyView {
    let Session { desk, .. } = Session::get();
    let group = |(family, entries): (&'static str, Vec<labelling::ListedLabel>)| {
        let entry = |entry: labelling::ListedLabel| {
            view! { <option value=entry.label>{entry.name}</option> }.into_any()
        };
        view! { <optgroup label=family>{entries.into_iter().map(entry).collect::<Vec<_>>()}</optgroup> }
            .into_any()
    };
    let choose = hear(move |event: Event| {
        let label = field::text(&event);
        if !label.is_empty() {
            desk.act(move |document| document.set_label(&label));
        }
        // The list itself keeps no choice: what was chosen stands in the field.
        field::set(&event, "");
    });
    view! {
        <label class="catalogue">
            <span class="unseen">{words::staves::OR_CHOOSE_FROM}</span>
            <select aria-label=words::staves::OR_CHOOSE_FROM on:change=choose>
                <option value="">{words::staves::A_LIST}</option>
                {labelling::catalogue().into_iter().map(group).collect::<Vec<_>>()}
            </select>
        </label>
    }
    .into_any()
}
