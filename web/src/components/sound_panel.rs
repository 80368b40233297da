//! The ways of hearing: a note, a column or all, as the instruments give it or as the tuning wants it; and how loud.

use crate::browser::{audio, field, focus, style};
use crate::components::choice::choice;
use crate::components::later::{self, Deed};
use crate::components::live::{hear, live, press, when};
use crate::components::sheet;
use crate::components::tones;
use crate::state::hearing::{self, HeardAs, HeardPart};
use crate::state::kept::Derived;
use crate::state::list_item::ListItem;
use crate::state::notices::Notices;
use crate::state::session::Session;
use crate::state::speaker::{Caution, Speaker};
use crate::words;
use leptos::ev::Event;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;
use std::sync::Arc;

/// What the button in the dock has behind it.
pub fn sound_panel() -> AnyView {
    let session = Session::get();
    let Session { desk, speaker, .. } = session;
    let several = move || !desk.whole.read().is_alone();
    let ways = || HeardAs::ALL.map(|way| ListItem::new(way.id(), way.name())).into();
    let set_way = move |value: String| {
        if let Some(way) = HeardAs::ALL.into_iter().find(|way| way.id() == value) {
            speaker.way.set(way);
        }
    };
    view! {
        {choice(
            words::staves::HEARD,
            Arc::new(ways),
            Arc::new(move || speaker.way.read().id().to_owned()),
            Box::new(set_way),
        )}
        <div class="row">
            {hear_button(session, HeardPart::Note)}
            {when(several, move || hear_button(session, HeardPart::Column))}
            {hear_button(session, HeardPart::All)}
        </div>
    }
    .into_any()
}

/// A button that plays a part of the page.
pub(super) fn hear_button(session: Session, part: HeardPart) -> AnyView {
    let Session { desk, .. } = session;
    let can = Derived::new(move || hearing::can_hear(&desk.whole.read(), &desk.page.read(), part));
    let act = press(move || {
        if untrack(|| can.get()) {
            play(session, part);
        }
    });
    view! {
        <button aria-disabled=live(move || (!can.get()).then_some("true")) on:click=act>
            <span class="triangle" aria-hidden="true"></span>
            {part.name()}
        </button>
    }
    .into_any()
}

/// Plays a part of the page. Browsers begin to sound only within a press, so they are asked at once; the part that makes
/// the sound may come after. What was chosen in a sheet shuts it.
pub(super) fn play(session: Session, part: HeardPart) {
    let Session { notices, panels, .. } = session;
    sheet::shut(panels);
    if audio::wake() {
        later::act(notices, Box::new(move || Box::pin(played(session, part))));
    } else {
        notices.say(words::NO_SOUND);
    }
}

#[wasm_split(sound, wasm_split_path = leptos::wasm_split, fallible)]
fn played(session: Session, part: HeardPart) -> Deed {
    let Session { desk, speaker, notices, .. } = session;
    let (whole, page) = (desk.whole.read_untracked(), desk.page.read_untracked());
    let tones = hearing::tones(&whole, &page, part, speaker.way.get_untracked());
    tones::play(speaker, notices, tones);
    Ok(())
}

/// Ends what is heard.
pub(super) fn stop(speaker: Speaker, notices: Notices) {
    later::act(notices, Box::new(move || Box::pin(stopped(speaker))));
}

#[wasm_split(sound, wasm_split_path = leptos::wasm_split, fallible)]
fn stopped(speaker: Speaker) -> Deed {
    audio::stop();
    speaker.playing.set(false);
    Ok(())
}

/// How loud it is, said beside the first sound until the reader has seen it; then an element has the focus.
pub fn caution(after: &'static str) -> AnyView {
    style::PANELS.wear();
    let Session { speaker, .. } = Session::get();
    let heed = press(move || {
        speaker.caution.set(Caution::Heeded);
        focus::to(after.to_owned());
    });
    view! {
        <div class="row caution" role="status">
            <p>{words::SOUND_IS_SOFT}</p>
            {volume(speaker)}
            <button on:click=heed>{words::frame::ALL_RIGHT}</button>
        </div>
    }
    .into_any()
}

/// How loud the reader wants it.
pub(super) fn volume(speaker: Speaker) -> AnyView {
    let set = hear(move |event: Event| {
        if let Some(volume) = field::number(&event) {
            speaker.volume.set(volume.clamp(0.0, 100.0) as u8);
        }
    });
    view! {
        <label class="field">
            <span>{words::staves::VOLUME}</span>
            <input
                aria-label=words::staves::VOLUME
                type="range"
                min="0"
                max="100"
                step="5"
                prop:value=live(move || speaker.volume.read().to_string())
                on:input=set
            />
        </label>
    }
    .into_any()
}
