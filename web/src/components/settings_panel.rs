//! What the reader prefers on every page.

use crate::browser::focus;
use crate::components::choice::choice;
use crate::components::live::press;
use crate::state::kept::Watched;
use crate::state::list_item::ListItem;
use crate::state::session::Session;
use crate::words::{Letters, Names, Octaves};
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
        <section class="card share" aria-label="Settings">
            <div class="settings">
                {choice("Names of notes", Arc::new(letters), Arc::new(letter_value), Box::new(set_letters))}
                {choice("Octaves", Arc::new(octaves), Arc::new(octave_value), Box::new(set_octaves))}
                <button on:click=press(done)>"Done"</button>
            </div>
            <p class="quiet">"Kept on this device. A link carries the music, not your way of naming it."</p>
        </section>
    }
    .into_any()
}
