//! What is done with the plan that is looked at: into Read, as a score, into a file, as a link.

use crate::browser::{field, files, sight};
use crate::components::later::{self, Deed, Doing};
use crate::components::link_card::link_card;
use crate::components::live::{hear, live, press, when};
use crate::state::crooks::{Crooks, ShownPlan, taking};
use crate::state::kept::Watched;
use crate::state::place::AppPlace;
use crate::state::session::Session;
use crate::words::{crooks as words, movement};
use crookwise_share::crooks::SentCrooks;
use leptos::ev::Event;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;
use std::sync::Arc;

/// The card.
pub fn take_card() -> AnyView {
    let crooks = Crooks::get();
    let session = Session::get();
    let from = Watched::new(1_u32);
    let act = move |deed: fn(Session, Crooks) -> Doing| {
        press(move || later::act(session.notices, Box::new(move || deed(session, crooks))))
    };
    let to_score = act(|session, crooks| Box::pin(fetched_score(session, crooks)));
    let save = act(|session, crooks| Box::pin(fetched_file(session, crooks)));
    let shares = Watched::new(false);
    let share = press(move || shares.update(|shares| *shares = !*shares));
    view! {
        <section class="card take-card" aria-label=words::TAKE_IT>
            <h3>{words::TAKE_IT}</h3>
            {to_read(crooks, from)}
            <div class="row">
                <button on:click=to_score>{words::AS_A_SCORE}</button>
                <button on:click=save>{words::SAVE_MUSICXML}</button>
                <button aria-expanded=live(move || Some(shares.get().to_string())) on:click=share>
                    {words::SHARE_THIS_PLAN}
                </button>
            </div>
            {when(move || shares.get(), move || shared(crooks))}
        </section>
    }
    .into_any()
}

// What writes a plan as parts comes when one is first taken.
#[wasm_split(written, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_score(session: Session, crooks: Crooks) -> Deed {
    match taking::music_xml(crooks) {
        Ok(text) => {
            session.whereabouts.made.set(text);
            session.whereabouts.place.set(AppPlace::Score);
        }
        Err(why) => session.notices.say(why),
    }
    Ok(())
}

#[wasm_split(written, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_file(session: Session, crooks: Crooks) -> Deed {
    match taking::music_xml(crooks) {
        Ok(text) if files::save(words::PLAN_FILE, &text) => {}
        Ok(_) => session.notices.say(words::NOT_SAVED),
        Err(why) => session.notices.say(why),
    }
    Ok(())
}

#[wasm_split(written, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_page(session: Session, crooks: Crooks, from: u32) -> Deed {
    match taking::page(crooks, from) {
        Ok(page) => {
            session.desk.show(page);
            session.whereabouts.place.set(AppPlace::Read);
            sight::top_at(session.desk.selected_element());
        }
        Err(why) => session.notices.say(why),
    }
    Ok(())
}

/// The bars that Read shows: all of them, or as many from one on as its page holds.
fn to_read(crooks: Crooks, from: Watched<u32>) -> AnyView {
    let session = Session::get();
    let notices = session.notices;
    let told = live(move || {
        let of = |shown: &ShownPlan| {
            let picture = &shown.picture;
            words::bars_to_read(picture.printed(taking::told(picture.bars, from.get())))
        };
        crooks.shown.map(of)
    });
    let number = live(move || crooks.shown.map(|shown| shown.picture.number(from.get()).to_owned()));
    let open = press(move || {
        let from = from.get_untracked();
        later::act(notices, Box::new(move || Box::pin(fetched_page(session, crooks, from))));
    });
    let set = hear(move |event: Event| {
        let typed = field::text(&event);
        let bar =
            crooks.shown.with_untracked(|shown| taking::bar_of(&shown.as_ref()?.picture.printed, &typed));
        match bar {
            Some(bar) => from.set(bar),
            None => notices.say(movement::no_such_bar(&typed)),
        }
    });
    view! {
        <div class="row take-row">
            <label class="field narrow">
                <span>{words::FROM_BAR}</span>
                <input
                    inputmode="numeric"
                    autocomplete="off"
                    aria-label=words::FROM_BAR
                    prop:value=number
                    on:change=set
                />
            </label>
            <button class="strong" on:click=open>{words::OPEN_IN_READ}</button>
        </div>
        <p class="quiet">{told}</p>
    }
    .into_any()
}

fn shared(crooks: Crooks) -> AnyView {
    let link = move || crooks.setting.with(SentCrooks::of).link();
    link_card(words::A_LINK_TO_THIS_PLAN, Arc::new(link), Arc::new(|| ().into_any()))
}
