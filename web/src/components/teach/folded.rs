//! A section that opens and closes under its head; what is in it is made when it is first opened.

use crate::components::live::{live, press, when};
use crate::state::kept::Watched;
use leptos::prelude::*;

/// The section, closed to begin with.
pub fn folded(head: impl Into<String>, part: impl Fn() -> AnyView + Send + Sync + 'static) -> AnyView {
    let is_open = Watched::new(false);
    let expanded = live(move || if is_open.get() { "true" } else { "false" });
    let turn = press(move || is_open.set(!is_open.get_untracked()));
    view! {
        <h3 class="fold"><button aria-expanded=expanded on:click=turn>{head.into()}</button></h3>
        {when(move || is_open.get(), part)}
    }
    .into_any()
}
