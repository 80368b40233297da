//! A list of crooks as chips, each with a way out, and a list of those that may be added.

use crate::components::choice::choice;
use crate::components::live::{live, press};
use crate::state::crook_table::CrookList;
use crate::state::kept::Watched;
use crate::state::session::Session;
use crate::words::crook_table as words;
use crookwise_share::crooks::CrooksLink;
use crookwise_theory::Crook;
use leptos::prelude::*;
use std::sync::Arc;

/// The chips of a list.
pub fn crook_chips(setting: Watched<CrooksLink>, list: CrookList) -> AnyView {
    let names = Session::get().names;
    let chip = move |crook: &'static Crook| {
        let name = words::players(crook, names.get_untracked());
        let without = words::without(&name);
        let remove = press(move || setting.update(|setting| list.remove(setting, crook)));
        view! {
            <span class="crook-chip">{name}<button aria-label=without on:click=remove>"×"</button></span>
        }
        .into_any()
    };
    let chips = live(move || {
        let _ = names.get();
        setting.with(|setting| list.of(setting)).into_iter().map(chip).collect::<Vec<_>>()
    });
    let chosen = Watched::new(String::new());
    // What is looked at in the list by the keyboard is not yet added.
    let add = press(move || {
        let name = chosen.get_untracked();
        chosen.set(String::new());
        setting.update(|setting| list.add(setting, &name));
    });
    view! {
        <div class="row crook-chips" role="group" aria-label=words::AT_HAND>{chips}</div>
        <div class="row add-crook">
        {choice(
            words::ADD_A_CROOK,
            Arc::new(move || setting.with(|setting| list.others(setting, names.get()))),
            Arc::new(move || chosen.get()),
            Box::new(move |name| chosen.set(name)),
        )}
        <button on:click=add>{words::ADD}</button>
        </div>
    }
    .into_any()
}
