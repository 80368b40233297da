//! What the reader prefers on every page.

use crate::browser::{audio, theme};
use crate::components::choice::choice;
use crate::components::live::{live, press};
use crate::components::sound_panel::volume;
use crate::state::kept::Watched;
use crate::state::list_item::ListItem;
use crate::state::session::Session;
use crate::words::{self, Letters, Names, Octaves};
use leptos::prelude::*;
use std::sync::Arc;

/// Names of notes and octaves, how loud it is, light or dark.
pub fn settings_panel() -> AnyView {
    let Session { names, speaker, .. } = Session::get();
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
    let dark = Watched::new(theme::is_dark());
    let change = press(move || {
        let now = !dark.get_untracked();
        dark.set(now);
        theme::show(now);
    });
    let letter_value = move || names.read().letters.id().to_owned();
    let octave_value = move || names.read().octaves.id().to_owned();
    let loudness = || view! { {volume(speaker)} <p class="quiet">{words::SOUND_IS_SOFT}</p> }.into_any();
    view! {
        <div class="settings">
            {choice(words::settings::NAMES_OF_NOTES, Arc::new(letters), Arc::new(letter_value), Box::new(set_letters))}
            {choice(words::settings::OCTAVES, Arc::new(octaves), Arc::new(octave_value), Box::new(set_octaves))}
        </div>
        {audio::is_there().then(loudness)}
        <p class="quiet">{words::settings::KEPT_ON_THIS_DEVICE}</p>
        <div class="row">
            <button aria-pressed=live(move || Some(dark.read().to_string())) on:click=change>{words::frame::DARK}</button>
        </div>
    }
    .into_any()
}
