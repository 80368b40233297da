//! What changes before the selected column: crook, clef, signature, key of the movement.

use crate::browser::field;
use crate::components::choice::choice;
use crate::components::live::{hear, live, press, when};
use crate::state::changing::{self as form, ChangeForm};
use crate::state::document::Document;
use crate::state::kept::{Derived, Watched};
use crate::state::list_item::ListItem;
use crate::state::session::Session;
use crate::words::changes;
use leptos::ev::Event;
use leptos::prelude::*;
use std::sync::Arc;

/// The form, and for whom a crook changes.
#[derive(Clone, Copy)]
struct Handles {
    shown: Derived<Option<ChangeForm>>,
    player: Watched<Option<usize>>,
}

/// The form.
pub fn change_form() -> AnyView {
    let Session { desk, names, .. } = Session::get();
    let player = Watched::new(None);
    let shown = Derived::new(move || ChangeForm::of(&desk.whole.read(), &desk.page.read(), player.get()));
    let handles = Handles { shown, player };
    let place = live(move || shown.map(|form| form.place.clone()).unwrap_or_default());
    let clef = Box::new(move |value: String| desk.attempt(|document| form::set_clef(document, &value)));
    let signature =
        Box::new(move |value: String| desk.attempt(|document| form::set_signature(document, &value)));
    let movement =
        Box::new(move |value: String| desk.attempt(|document| form::set_movement(document, &value)));
    let any = move || shown.map(|form| form.any).unwrap_or_default();
    let nothing = press(move || {
        if untrack(any) {
            desk.attempt(Document::keep_all_here);
        }
    });
    view! {
        <div class="changes">
            <p class="quiet">{place}</p>
            <div class="settings">
                {when(move || shown.map(|form| !form.players.is_empty()).unwrap_or_default(), move || players(handles))}
                {crook_field(handles)}
                {when(move || shown.map(|form| !form.crooks.is_empty()).unwrap_or_default(), move || crooks(handles))}
                {choice(changes::NEW_CLEF, Arc::new(ChangeForm::clefs), value(shown, |form| &form.clef), clef)}
                {choice(changes::NEW_SIGNATURE, Arc::new(ChangeForm::signatures), value(shown, |form| &form.signature), signature)}
                {choice(
                    changes::NEW_KEY,
                    Arc::new(move || ChangeForm::movements(names.get())),
                    value(shown, |form| &form.movement),
                    movement,
                )}
            </div>
            <p class="decoded" role="status">{live(move || shown.map(|form| form.meaning.clone()).unwrap_or_default())}</p>
            <div class="tools">
                <button aria-disabled=live(move || (!any()).then_some("true")) on:click=nothing>{changes::NOTHING_CHANGES}</button>
            </div>
        </div>
    }
    .into_any()
}

/// A value of the form, as a list shows it.
fn value(
    shown: Derived<Option<ChangeForm>>,
    part: fn(&ChangeForm) -> &String,
) -> Arc<dyn Fn() -> String + Send + Sync> {
    Arc::new(move || shown.map(|form| part(form).clone()).unwrap_or_default())
}

/// For whom the crook changes.
fn players(Handles { shown, player }: Handles) -> AnyView {
    let items = move || shown.map(|form| form.players.clone()).unwrap_or_default();
    let chosen = move || player.get().map(|player| player.to_string()).unwrap_or_default();
    choice(
        changes::CROOK_OF,
        Arc::new(items),
        Arc::new(chosen),
        Box::new(move |value| player.set(value.parse().ok())),
    )
}

/// The change of crook as the score prints it.
fn crook_field(Handles { shown, player }: Handles) -> AnyView {
    let Session { desk, .. } = Session::get();
    let change = hear(move |event: Event| {
        let text = field::text(&event);
        desk.attempt(|document| form::set_crook(document, player.get_untracked(), &text));
    });
    view! {
        <label class="field">
            <span>{changes::CHANGE_AS_PRINTED}</span>
            <input
                aria-label=changes::CHANGE_AS_PRINTED
                type="text"
                class="printed"
                autocomplete="off"
                spellcheck="false"
                maxlength="200"
                placeholder=changes::MUTA_IN
                prop:value=live(move || shown.map(|form| form.crook.clone()).unwrap_or_default())
                on:change=change
            />
        </label>
    }
    .into_any()
}

/// Crooks to choose from.
fn crooks(Handles { shown, player }: Handles) -> AnyView {
    let Session { desk, .. } = Session::get();
    let items = move || {
        let none = ListItem::new("", changes::STAYS);
        let crooks = shown.map(|form| form.crooks.clone()).unwrap_or_default();
        core::iter::once(none).chain(crooks).collect()
    };
    let choose = move |text: String| {
        desk.attempt(|document| form::set_crook(document, player.get_untracked(), &text));
    };
    choice(changes::NEW_CROOK, Arc::new(items), value(shown, |form| &form.listed), Box::new(choose))
}
