//! A sentence about something that could not be done.

use crate::browser::focus;
use crate::components::live::{live, press, when};
use crate::state::session::Session;
use crate::words;
use leptos::prelude::*;

/// The sentence, until the reader has seen it.
pub fn notice() -> AnyView {
    let Session { notices, .. } = Session::get();
    let away = move || {
        notices.show(None);
        // The button goes with its sentence; the keyboard goes on from the head of the page.
        focus::to("name".to_owned());
    };
    let sentence = move || {
        view! {
            <p class="notice">
                <span>{live(move || notices.said.get().unwrap_or_default())}</span>
                <button on:click=press(away)>{words::frame::ALL_RIGHT}</button>
            </p>
        }
        .into_any()
    };
    view! { <div role="alert" class="notices">{when(move || notices.said.is_some(), sentence)}</div> }
        .into_any()
}
