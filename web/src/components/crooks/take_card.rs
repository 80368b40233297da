//! What is done with the plan that is looked at: into Read, as a score, into a file, as a link.

use crate::browser::{field, files, sight};
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
use std::sync::Arc;

/// The card.
pub fn take_card() -> AnyView {
    let crooks = Crooks::get();
    let Session { whereabouts, notices, .. } = Session::get();
    let from = Watched::new(1_u32);
    let to_score = press(move || match taking::music_xml(crooks) {
        Ok(text) => {
            whereabouts.made.set(text);
            whereabouts.place.set(AppPlace::Score);
        }
        Err(why) => notices.say(why),
    });
    let save = press(move || match taking::music_xml(crooks) {
        Ok(text) if files::save(words::PLAN_FILE, &text) => {}
        Ok(_) => notices.say(words::NOT_SAVED),
        Err(why) => notices.say(why),
    });
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

/// The bars that Read shows: all of them, or as many from one on as its page holds.
fn to_read(crooks: Crooks, from: Watched<u32>) -> AnyView {
    let Session { desk, whereabouts, notices, .. } = Session::get();
    let told = live(move || {
        let of = |shown: &ShownPlan| {
            let picture = &shown.picture;
            words::bars_to_read(picture.printed(taking::told(picture.bars, from.get())))
        };
        crooks.shown.map(of)
    });
    let number = live(move || crooks.shown.map(|shown| shown.picture.number(from.get()).to_owned()));
    let open = press(move || match taking::page(crooks, from.get_untracked()) {
        Ok(page) => {
            desk.show(page);
            whereabouts.place.set(AppPlace::Read);
            sight::top_at(desk.selected_element());
        }
        Err(why) => notices.say(why),
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
