//! The link to exactly what stands on the screen.

use crate::components::link_card::link_card;
use crate::components::live::press;
use crate::state::place::FROM_READ;
use crate::state::session::Session;
use crate::words;
use leptos::prelude::*;
use std::sync::Arc;

/// The link, and buttons to pass it on.
pub fn share_panel() -> AnyView {
    let Session { desk, panels, .. } = Session::get();
    let leave = press(move || {
        panels.close();
    });
    let nothing = || ().into_any();
    view! {
        {link_card(words::pages::A_LINK_TO_EXACTLY_THIS_PAGE, Arc::new(move || desk.link()), Arc::new(nothing))}
        <p>
            <a class="touch" href=FROM_READ on:click=leave>
                {words::pages::EXERCISE_FROM_THIS_PAGE}
            </a>
        </p>
        <p class="quiet">{words::pages::NOTHING_IS_SENT}</p>
    }
    .into_any()
}
