//! The link to exactly what stands on the screen.

use crate::browser::focus;
use crate::components::link_card::link_card;
use crate::components::live::press;
use crate::state::kept::Watched;
use crate::state::place::FROM_READ;
use crate::state::session::Session;
use crate::words;
use leptos::prelude::*;
use std::sync::Arc;

/// The link, and buttons to pass it on; `open` is whether the panel is there.
pub fn share_panel(open: Watched<bool>) -> AnyView {
    let Session { desk, .. } = Session::get();
    let shut = move || {
        open.set(false);
        // The panel goes with its button; the keyboard is back where it was opened.
        focus::to("share".to_owned());
    };
    let done = move || view! { <button on:click=press(shut)>{words::pages::DONE}</button> }.into_any();
    view! {
        <section class="card share" aria-label=words::pages::SHARE>
            {link_card(words::pages::A_LINK_TO_EXACTLY_THIS_PAGE, Arc::new(move || desk.link()), Arc::new(done))}
            <p>
                <a class="touch" href=FROM_READ on:click=press(move || open.set(false))>
                    {words::pages::EXERCISE_FROM_THIS_PAGE}
                </a>
            </p>
            <p class="quiet">{words::pages::NOTHING_IS_SENT}</p>
        </section>
    }
    .into_any()
}
