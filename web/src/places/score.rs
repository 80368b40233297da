//! Score: a whole movement is opened, its parts listed, its brass audited, bars of it taken elsewhere.

use crate::browser::style;
use crate::components::lasting::once;
use crate::components::live::{either, live, press};
use crate::components::movement::audit_table::audit_table;
use crate::components::movement::deeds::Deeds;
use crate::components::movement::opener::opener;
use crate::components::movement::parts::parts;
use crate::components::movement::taking::{taking, told};
use crate::state::movement::Movement;
use crate::words;
use leptos::prelude::*;

/// The page.
pub fn score() -> AnyView {
    for sheet in [&style::PANELS, &style::SCORE] {
        sheet.wear();
    }
    let movement = once(Movement::new);
    let _ = once(|| {
        let deeds = Deeds::get();
        deeds.follow_all();
        Followed
    });
    view! {
        {told()}
        {either(move || movement.open.is_some(), opened, opener)}
    }
    .into_any()
}

/// What the reader does is followed already.
#[derive(Clone, Copy)]
struct Followed;

fn opened() -> AnyView {
    let movement = Movement::get();
    let deeds = Deeds::get();
    let title = live(move || {
        movement.open.map(|open| words::movement::title(&open.summary.title, &open.file).to_owned())
    });
    let large = live(move || {
        movement.open.map(|open| words::movement::so_large(open.summary.bars.len(), open.summary.parts.len()))
    });
    let remarks = live(move || {
        let said = movement.open.map(|open| open.summary.remarks.clone()).unwrap_or_default();
        said.into_iter().map(|said| view! { <li>{said}</li> }.into_any()).collect::<Vec<_>>()
    });
    let back = press(move || deeds.close());
    view! {
        <div class="row movement-head">
            <h2 class="movement-title">{title}</h2>
            <p class="quiet">{large}</p>
            <button on:click=back>{words::movement::ANOTHER_SCORE}</button>
        </div>
        <ul class="remarks">{remarks}</ul>
        <div class="movement">
            {taking()}
            {parts()}
            {audit_table()}
        </div>
    }
    .into_any()
}
