//! Read: the margin of a score page, its notes, and all about them.

use crate::browser::style;
use crate::components::label_field::label_field;
use crate::components::ladder_panel::ladder_panel;
use crate::components::later::{Fetched, later};
use crate::components::live::{live, when};
use crate::components::readout::{glance, readout};
use crate::components::sound_bar::sound_bar;
use crate::components::staff_settings::staff_settings;
use crate::components::staff_sheet::staff_sheet;
use crate::components::together_panel::together_panel;
use crate::components::toolbar::toolbar;
use crate::state::kept::Derived;
use crate::state::readout::Readout;
use crate::state::reduced::grand_staff;
use crate::state::reducer::Reducer;
use crate::state::session::Session;
use crate::state::stand::Stand;
use crate::state::start;
use crate::words;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// The page.
pub fn read() -> AnyView {
    let Session { desk, stand, .. } = Session::get();
    let shown = Derived::new(move || Readout::of(&desk.view.read(), &desk.page.read()));
    let class = live(move || match (desk.whole.read().is_alone(), desk.ladder.is_some()) {
        (false, _) => "desk with-side",
        (true, true) => "desk with-ladder",
        (true, false) => "desk",
    });
    let setup = move || {
        view! {
            <section class="card setup" aria-label=words::staves::THE_STAFF>
                {label_field()}
                {staff_settings()}
            </section>
        }
        .into_any()
    };
    let caption = || view! { <p class="quiet caption">{start::CAPTION}</p> }.into_any();
    view! {
        {when(move || desk.shows_setup(), setup)}
        <div class=class>
            <section class="card notes" aria-label=words::staves::NOTES>
                {glance(shown)}
                {staff_sheet()}
                {sound_bar()}
                {toolbar()}
                {when(move || desk.untouched.get(), caption)}
            </section>
            <div class="side">
                {when(move || !desk.whole.read().is_alone(), move || later(move || Box::pin(fetched_together(stand))))}
                {readout(shown)}
                {ladder_panel()}
            </div>
        </div>
    }
    .into_any()
}

/// What only a page of several needs.
#[wasm_split(several, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_together(stand: Stand) -> Fetched {
    style::TOGETHER.wear();
    stand.reducer.set(Reducer(grand_staff));
    Ok(together_panel())
}
