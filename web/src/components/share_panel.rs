//! The link to exactly what stands on the screen.

use crate::browser::{address, focus};
use crate::components::link_card::link_card;
use crate::components::live::press;
use crate::state::kept::Watched;
use crate::state::place::FROM_READ;
use crate::state::session::Session;
use leptos::prelude::*;
use std::sync::Arc;

/// The link, and buttons to pass it on; `open` is whether the panel is there.
pub fn share_panel(open: Watched<bool>) -> AnyView {
    let Session { desk, .. } = Session::get();
    let done = press(move || {
        open.set(false);
        // The panel goes with its button; the keyboard is back where it was opened.
        focus::to("share".to_owned());
    });
    let done = view! { <button on:click=done>"Done"</button> }.into_any();
    let link = Arc::new(move || address::with_hash(&desk.link()));
    view! {
        <section class="card share" aria-label="Share">
            {link_card("A link to exactly this page", link, done)}
            <p>
                <a class="touch" href=FROM_READ on:click=press(move || open.set(false))>
                    "An exercise or a worksheet from this page"
                </a>
            </p>
            <p class="quiet">"Everything is in the link itself; nothing is sent anywhere until you send it."</p>
        </section>
    }
    .into_any()
}
