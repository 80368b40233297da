//! Read: the margin of a score page, its notes, and all about them.

use crate::components::glance::page_head;
use crate::components::label_field::setup;
use crate::components::later::{Fetched, later};
use crate::components::leaves::leaves;
use crate::components::live::{either, live, when};
use crate::components::page_notes::page_notes;
use crate::components::together_panel::together_panel;
use crate::state::chip::Chip;
use crate::state::kept::Derived;
use crate::state::session::Session;
use crate::state::start;
use crate::words;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// The page.
pub fn read() -> AnyView {
    let Session { desk, .. } = Session::get();
    let several = Derived::new(move || desk.whole.read().staves.len() > 1);
    let together = Derived::new(move || !desk.whole.read().is_alone());
    let class = live(move || if together.get() { "desk together" } else { "desk" });
    let caption = || view! { <p class="quiet caption">{start::CAPTION}</p> }.into_any();
    view! {
        {either(move || several.get(), page_head, || setup(&Chip::ALL))}
        <div class=class>
            <section class="card notes" aria-label=words::staves::NOTES>
                {page_notes()}
                {when(move || desk.untouched.get(), caption)}
            </section>
            {leaves(|| later(|| Box::pin(fetched_together())))}
        </div>
    }
    .into_any()
}

/// What only a page of several needs: the names of its chords.
#[wasm_split(beside, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_together() -> Fetched {
    Ok(together_panel())
}
