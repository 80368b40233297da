//! The link to exactly what stands on the screen.

use crate::browser::{address, clipboard};
use crate::state::session::Session;
use leptos::prelude::*;
use leptos::task::spawn_local_scoped;

/// The link, and a button that copies it.
#[component]
pub fn SharePanel(
    /// Called when the reader is done.
    on_close: impl Fn() + 'static,
) -> impl IntoView {
    let session = Session::get();
    let link = Memo::new(move |_| address::with_hash(&session.link()));
    let copied = RwSignal::new(None::<bool>);
    let copy = move |_| {
        spawn_local_scoped(async move {
            let done = clipboard::copy(&link.get_untracked()).await;
            copied.try_set(Some(done));
        });
    };
    let outcome = move || match copied.get() {
        None => "",
        Some(true) => "Copied.",
        Some(false) => "This browser does not let the page copy: select the link and copy it yourself.",
    };
    view! {
        <section class="card share" aria-label="Share">
            <label class="field wide">
                <span>"A link to exactly this page"</span>
                <input type="text" readonly prop:value=move || link.get() on:focus:target=|event| event.target().select() />
            </label>
            <div class="row">
                <button class="strong" on:click=copy>"Copy the link"</button>
                <button on:click=move |_| on_close()>"Done"</button>
                <span role="status">{outcome}</span>
            </div>
            <p class="quiet">
                "Everything is in the link itself; nothing is sent anywhere until you send it."
            </p>
        </section>
    }
}
