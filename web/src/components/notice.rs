//! A sentence about something that could not be done.

use crate::state::session::Session;
use leptos::prelude::*;

/// The sentence, until the reader has seen it.
#[component]
pub fn Notice() -> impl IntoView {
    let session = Session::get();
    view! {
        <div role="alert" class="notices">
            <Show when=move || session.notice.read().is_some()>
                <p class="notice">
                    <span>{move || session.notice.get()}</span>
                    <button on:click=move |_| session.notice.set(None)>"All right"</button>
                </p>
            </Show>
        </div>
    }
}
