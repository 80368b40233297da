//! Word of a newer version of the app, which waits until the reader wants it.

use crate::browser::offline;
use crate::components::live::{press, when};
use crate::state::kept::Watched;
use crate::words;
use leptos::prelude::*;

/// The sentence and its button, once there is a newer version.
pub fn new_version() -> AnyView {
    let ready = Watched::new(false);
    offline::on_new_version(move || ready.set(true));
    let sentence = || {
        view! {
            <p class="notice news">
                <span>{words::NEW_VERSION}</span>
                <button on:click=press(offline::use_new_version)>{words::USE_NEW_VERSION}</button>
            </p>
        }
        .into_any()
    };
    view! { <div role="status" class="notices">{when(move || ready.get(), sentence)}</div> }.into_any()
}
