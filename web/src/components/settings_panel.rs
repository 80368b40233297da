//! What the reader prefers on every page.

use crate::browser::focus;
use crate::components::choice::choice;
use crate::components::live::press;
use crate::state::kept::Watched;
use crate::state::list_item::ListItem;
use crate::state::session::Session;
use crate::words::{self, Letters, Names, Octaves};
use leptos::prelude::*;
use std::sync::Arc;

/// Names of notes and octaves; `open` is whether the panel is there.
pub fn settings_panel(open: Watched<bool>) -> AnyView {
    let names = Session::get().names;
    let letters = || Letters::ALL.map(|one| ListItem::new(one.id(), one.name())).into();
    let octaves = || Octaves::ALL.map(|one| ListItem::new(one.id(), one.name())).into();
    let set_letters = move |value: String| {
        if let Some(letters) = Letters::ALL.into_iter().find(|one| one.id() == value) {
            names.set(Names { letters, ..names.get_untracked() });
        }
    };
    let set_octaves = move |value: String| {
        if let Some(octaves) = Octaves::ALL.into_iter().find(|one| one.id() == value) {
            names.set(Names { octaves, ..names.get_untracked() });
        }
    };
    let done = move || {
        open.set(false);
        focus::to("settings".to_owned());
    };
    let letter_value = move || names.read().letters.id().to_owned();
    let octave_value = move || names.read().octaves.id().to_owned();
    view! {
        <section class="card share" aria-label=words::settings::SETTINGS>
            <div class="settings">
                {choice(words::settings::NAMES_OF_NOTES, Arc::new(letters), Arc::new(letter_value), Box::new(set_letters))}
                {choice(words::settings::OCTAVES, Arc::new(octaves), Arc::new(octave_value), Box::new(set_octaves))}
                <button on:click=press(done)>{words::settings::DONE}</button>
            </div>
            <p class="quiet">{words::settings::KEPT_ON_THIS_DEVICE}</p>
        </section>
    }
    .into_any()
}
