//! Buttons to hear a note, a column or all.

use crate::browser::{audio, field};
use crate::components::choice::choice;
use crate::components::later::{self, Done};
use crate::components::live::{hear, live, press, when};
use crate::components::tones;
use crate::state::hearing::{self, Part, Way};
use crate::state::item::Item;
use crate::state::kept::Derived;
use crate::state::session::Session;
use crate::words;
use leptos::ev::Event;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;
use std::sync::Arc;

/// The bar; nothing where the browser makes no sound.
pub fn sound_bar() -> Option<AnyView> {
    let session = Session::get();
    audio::is_there().then(|| {
        let several = move || !session.whole.get().is_alone();
        let ways = || Way::ALL.map(|way| Item::new(way.id(), way.name())).into();
        let set_way = move |value: String| {
            if let Some(way) = Way::ALL.into_iter().find(|way| way.id() == value) {
                session.way.set(way);
            }
        };
        view! {
            <div class="sound" role="group" aria-label="Sound">
                {hear_button(session, Part::Note)}
                {when(several, move || hear_button(session, Part::Column))}
                {hear_button(session, Part::All)}
                {stop_button(session)}
                {choice(
                    "Heard",
                    Arc::new(ways),
                    Arc::new(move || session.way.get().id().to_owned()),
                    Box::new(set_way),
                )}
                {volume(session)}
                <p class="quiet">{words::SOUND_IS_SOFT}</p>
            </div>
        }
        .into_any()
    })
}

/// A button that plays a part of the page.
pub(super) fn hear_button(session: Session, part: Part) -> AnyView {
    let can = Derived::new(move || hearing::can_hear(&session.whole.get(), &session.page.get(), part));
    let act = press(move || {
        if untrack(|| *can.get()) {
            play(session, part);
        }
    });
    view! {
        <button aria-disabled=live(move || (!*can.get()).then_some("true")) on:click=act>
            <span class="triangle" aria-hidden="true"></span>
            {part.name()}
        </button>
    }
    .into_any()
}

/// Browsers begin to sound only within a press, so they are asked at once; the part that makes the sound may come after.
fn play(session: Session, part: Part) {
    if audio::wake() {
        later::act(session, Box::pin(played(session, part)));
    } else {
        session.notice.set(Some(words::NO_SOUND.to_owned()));
    }
}

#[wasm_split(sound, wasm_split_path = leptos::wasm_split, fallible)]
fn played(session: Session, part: Part) -> Done {
    let (whole, page) = (session.whole.get_untracked(), session.page.get_untracked());
    let tones = hearing::tones(&whole, &page, part, *session.way.get_untracked());
    tones::play(session, tones);
    Ok(())
}

/// It stays when nothing is heard any more, so that the keyboard's focus has its place.
fn stop_button(session: Session) -> AnyView {
    let idle = live(move || (!*session.playing.get()).then_some("true"));
    let stop = press(move || {
        if *session.playing.get_untracked() {
            later::act(session, Box::pin(stopped(session)));
        }
    });
    view! { <button aria-disabled=idle on:click=stop>"Stop"</button> }.into_any()
}

#[wasm_split(sound, wasm_split_path = leptos::wasm_split, fallible)]
fn stopped(session: Session) -> Done {
    audio::stop();
    session.playing.set(false);
    Ok(())
}

fn volume(session: Session) -> AnyView {
    let set = hear(move |event: Event| {
        if let Some(volume) = field::number(&event) {
            session.volume.set(volume.clamp(0.0, 100.0) as u8);
        }
    });
    view! {
        <label class="field">
            <span>"Volume"</span>
            <input
                aria-label="Volume"
                type="range"
                min="0"
                max="100"
                step="5"
                prop:value=live(move || session.volume.get().to_string())
                on:input=set
            />
        </label>
    }
    .into_any()
}
