//! A score is opened: by a field, a drop, a paste, from the list of those on the device, or the demo movement.

use crate::browser::{focus, given, score_worker};
use crate::components::live::{each, hear, live, press, when};
use crate::components::movement::deeds::{Deeds, FIELD};
use crate::components::movement::shelf::{open_id, put_back_id};
use crate::state::kept::Derived;
use crate::state::movement::{ComesFrom, Movement};
use crate::state::store::scores::KeptScore;
use crate::words;
use leptos::ev::Event;
use leptos::prelude::*;

/// The field, what is on its way, and the list.
pub fn opener() -> AnyView {
    let movement = Movement::get();
    let deeds = Deeds::get();
    let choose = hear(move |event: Event| {
        if let Some(file) = given::chosen(&event) {
            deeds.open_file(file, 0);
        }
    });
    score_worker::start_ahead();
    deeds.list();
    focus::if_lost(FIELD);
    let demo = press(move || deeds.go_to(&ComesFrom::Demo));
    view! {
        <section class="card opener" aria-label=words::movement::OPEN_A_SCORE>
            <label class="field wide">
                <span class="prompt">{words::movement::OPEN_A_SCORE}</span>
                <input
                    type="file"
                    id=FIELD
                    accept=".musicxml,.xml,.mxl,application/vnd.recordare.musicxml+xml,application/vnd.recordare.musicxml,.mid,.midi"
                    aria-label=words::movement::OPEN_A_SCORE
                    on:change=choose
                />
            </label>
            <p class="quiet">{words::movement::WHAT_IS_OPENED}</p>
            <div class="row"><button on:click=press(move || deeds.open_copied())>{words::movement::PASTE_WHAT_WAS_COPIED}</button></div>
            {when(move || movement.on_its_way.is_some(), on_its_way)}
            <div class="row">
                <button class="strong" on:click=demo>{words::movement::OPEN_THE_DEMO}</button>
                <p class="quiet demo">{words::movement::ABOUT_THE_DEMO}</p>
            </div>
        </section>
        {removed()}
        {when(move || movement.shelf.map(|shelf| !shelf.is_empty()) == Some(true), shelf)}
    }
    .into_any()
}

fn on_its_way() -> AnyView {
    let movement = Movement::get();
    let deeds = Deeds::get();
    let name = live(move || movement.on_its_way.map(|way| words::movement::on_its_way(&way.name)));
    let value = live(move || movement.on_its_way.map(|way| way.hundredths.to_string()));
    let stop = press(move || deeds.stop());
    view! {
        <div class="row" role="status">
            <p>{name}</p>
            <progress max="100" value=value></progress>
            <button on:click=stop>{words::movement::STOP}</button>
        </div>
    }
    .into_any()
}

/// What was taken off while the page lives, each with its way back.
fn removed() -> AnyView {
    let movement = Movement::get();
    let deeds = Deeds::get();
    let rows = live(move || {
        let row = |(id, name): (String, String)| {
            let (place, of) = (put_back_id(&id), words::kept::of(words::movement::PUT_BACK, &name));
            let back = press(move || deeds.put_back(id.clone()));
            view! {
                <div class="card row" role="status">
                    <p>{words::movement::taken_off(&name)}</p>
                    <button id=place aria-label=of on:click=back>{words::movement::PUT_BACK}</button>
                </div>
            }
            .into_any()
        };
        movement.removed.get().into_iter().rev().map(row).collect::<Vec<_>>()
    });
    view! { {rows} }.into_any()
}

fn shelf() -> AnyView {
    let movement = Movement::get();
    let all = Derived::new(move || movement.shelf.get().unwrap_or_default());
    let row = move |at: usize| {
        let one = Derived::new(move || all.read().get(at).cloned());
        row(one)
    };
    view! {
        <section class="card" aria-label=words::movement::OPENED_SCORES>
            <h2 class="prompt">{words::movement::OPENED_SCORES}</h2>
            <ul class="plain">{each(Derived::new(move || 0..all.read().len()), row)}</ul>
        </section>
    }
    .into_any()
}

fn row(one: Derived<Option<KeptScore>>) -> AnyView {
    let deeds = Deeds::get();
    let name = move || one.map(|one| one.name().to_owned()).unwrap_or_default();
    let place = move || one.map(|one| open_id(&one.id)).unwrap_or_default();
    let size = live(move || one.map(|one| words::movement::size(one.size)));
    let id = move || one.with_untracked(|one| one.as_ref().map(|one| one.id.clone()));
    let open = press(move || {
        if let Some(id) = id() {
            deeds.go_to(&ComesFrom::File(id));
        }
    });
    let remove = press(move || {
        if let Some(one) = one.get_untracked() {
            deeds.remove(one);
        }
    });
    view! {
        <li class="row kept-score">
            <button class="wide" id=live(place) on:click=open>
                <span class="unseen">{words::movement::OPEN} " "</span>
                {live(name)}
            </button>
            <span class="quiet">{size}</span>
            <button
                aria-label=live(move || words::kept::of(words::movement::TAKE_OFF_THE_DEVICE, &name()))
                on:click=remove
            >
                {words::movement::TAKE_OFF_THE_DEVICE}
            </button>
        </li>
    }
    .into_any()
}
