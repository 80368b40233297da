//! The notes of a page: for a single staff a glance at the selected one, the staves, and what they make together.

use crate::browser::style;
use crate::components::glance::glance;
use crate::components::later::{Fetched, later};
use crate::components::live::when;
use crate::components::staff_sheet::staff_sheet;
use crate::state::reduced::grand_staff;
use crate::state::reducer::Reducer;
use crate::state::session::Session;
use crate::state::stand::Stand;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// All that is touched of a page.
pub fn page_notes() -> AnyView {
    let Session { desk, stand, .. } = Session::get();
    // What writes the reduction comes with what several make together.
    let reducer = move || later(move || Box::pin(fetched_reducer(stand)));
    view! {
        {when(move || !desk.whole.read().is_alone(), reducer)}
        {when(move || desk.whole.read().staves.len() < 2, glance)}
        {staff_sheet()}
    }
    .into_any()
}

#[wasm_split(beside, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_reducer(stand: Stand) -> Fetched {
    style::TOGETHER.wear();
    stand.reducer.set(Reducer(grand_staff));
    Ok(().into_any())
}
