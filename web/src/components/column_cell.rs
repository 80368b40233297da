//! Between the staves: the partial or the hand sign of a note, its drift as a gauge and a number.

use crate::state::score_sheet::System;
use crate::state::session::Session;
use crate::state::strip::{Cell, Drift};
use leptos::prelude::*;

/// What stands between the staves at a column; a plus where the next note goes.
#[component]
pub fn ColumnCell(
    /// The column.
    column: usize,
    /// The system it stands in.
    system: Memo<Option<System>>,
) -> impl IntoView {
    let session = Session::get();
    let cell = Memo::new(move |_| Cell::of(&session.view.read(), column));
    let width = move || format!("{}px", system.read().as_ref().map_or(0.0, |system| system.column));
    let is_next = Memo::new(move |_| column == session.view.read().columns.len());
    view! {
        <Show when=move || cell.read().is_some()>
            <button
                class="cell"
                id=format!("note-{column}")
                style:width=width
                tabindex=move || if cell.read().as_ref().is_some_and(|cell| cell.in_tab_order) { "0" } else { "-1" }
                aria-label=move || cell.read().as_ref().map(|cell| cell.name.clone())
                aria-current=move || cell.read().as_ref().is_some_and(|cell| cell.selected).then_some("true")
                on:click=move |_| session.act(|document| document.select(Some(column)))
            >
                <CellContent cell />
            </button>
        </Show>
        <Show when=move || is_next.get()>
            <button
                class="cell next"
                id="next-note"
                aria-label="Add a note"
                style:width=width
                on:click=move |_| session.add_note()
            >
                <span class="plus">"+"</span>
            </button>
        </Show>
    }
}

/// The content of a cell, drawn anew as the note changes.
#[component]
fn CellContent(
    /// The cell.
    cell: Memo<Option<Cell>>,
) -> impl IntoView {
    let mark = move || cell.read().as_ref().map(|cell| cell.mark.clone()).unwrap_or_default();
    let kind = move || cell.read().as_ref().map_or("", |cell| cell.kind.class());
    let drift = move || cell.read().as_ref().and_then(|cell| cell.drift.clone());
    let sign = move || cell.read().as_ref().map(|cell| cell.sign).unwrap_or_default();
    view! {
        <span class=move || format!("mark {}", kind())>{mark}</span>
        <span class="sign">{sign}</span>
        {move || drift().map(|drift| view! { <Gauge drift /> })}
    }
}

/// Drift as a bar from the middle: half a semitone to either side.
#[component]
fn Gauge(
    /// How far.
    drift: Drift,
) -> impl IntoView {
    let class = if drift.far { "gauge far" } else { "gauge" };
    view! {
        <span class=class aria-hidden="true">
            <span class="bar" style:left=format!("{}%", drift.left) style:width=format!("{}%", drift.width)></span>
        </span>
        <span class="cents" class:far=drift.far>{drift.text}</span>
    }
}
