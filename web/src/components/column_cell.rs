//! Between the staves: the partial or the hand sign of a note, its drift as a gauge and a number.

use crate::browser::focus;
use crate::components::live::{live, press, when};
use crate::components::system_view::pixels;
use crate::state::kept::Derived;
use crate::state::score_sheet::System;
use crate::state::session::Session;
use crate::state::strip::{Cell, Drift};
use leptos::prelude::*;

/// What stands between the staves at a column; a plus where the next note goes.
pub fn column_cell(column: usize, system: Derived<Option<System>>) -> AnyView {
    let session = Session::get();
    let cell = Derived::new(move || Cell::of(&session.view.get(), column));
    view! {
        {when(move || cell.get().is_some(), move || note_cell(column, cell, system))}
        {when(move || column == session.view.get().columns.len(), move || next_cell(system))}
    }
    .into_any()
}

/// The id of the button of the selected column, or of the place for the next note.
pub(super) fn button_id(selected: Option<usize>) -> String {
    selected.map_or_else(|| "next-note".to_owned(), |column| format!("note-{column}"))
}

/// How wide a cell is.
fn width(system: Derived<Option<System>>) -> crate::components::live::Live<String> {
    live(move || pixels(Option::as_ref(&system.get()).map_or(0.0, |system| system.column)))
}

/// Where the next note goes.
fn next_cell(system: Derived<Option<System>>) -> AnyView {
    let session = Session::get();
    let add = move || {
        session.add_note();
        // The button moves on to the next column; the keyboard stays with the new note.
        focus::to(button_id(session.view.get_untracked().selected));
    };
    view! {
        <button
            class="cell next"
            id="next-note"
            aria-label="Add a note"
            style:width=width(system)
            on:click=press(add)
        >
            <span class="plus" aria-hidden="true">"+"</span>
        </button>
    }
    .into_any()
}

/// A note.
fn note_cell(column: usize, cell: Derived<Option<Cell>>, system: Derived<Option<System>>) -> AnyView {
    let session = Session::get();
    let part =
        move |part: fn(&Cell) -> Option<String>| live(move || Option::as_ref(&cell.get()).and_then(part));
    let drift = live(move || Option::as_ref(&cell.get()).and_then(|cell| cell.drift.as_ref()).map(gauge));
    view! {
        <button
            class="cell"
            id=format!("note-{column}")
            style:width=width(system)
            tabindex=part(|cell| Some(if cell.in_tab_order { "0" } else { "-1" }.to_owned()))
            aria-label=part(|cell| Some(cell.name.clone()))
            aria-current=part(|cell| cell.selected.then(|| "true".to_owned()))
            on:click=press(move || session.act(|document| document.select(Some(column))))
        >
            <span aria-hidden="true" class=part(|cell| Some(format!("mark {}", cell.kind.class())))>{part(|cell| Some(cell.mark.clone()))}</span>
            <span class="sign" aria-hidden="true">{part(|cell| Some(cell.sign.to_owned()))}</span>
            {drift}
        </button>
    }
    .into_any()
}

/// Drift as a bar from the middle: a little over half a semitone to either side.
fn gauge(drift: &Drift) -> AnyView {
    let far = if drift.far { " far" } else { "" };
    view! {
        <span class=format!("gauge{far}") aria-hidden="true">
            <span class="bar" style:left=percent(drift.left) style:width=percent(drift.width)></span>
        </span>
        <span class=format!("cents{far}") aria-hidden="true">{drift.text.clone()}</span>
    }
    .into_any()
}

/// A share for the style sheet, to a hundredth of a percent.
pub(super) fn percent(share: f64) -> String {
    let hundredths = (share * 100.0).round() as i64;
    format!("{}.{:02}%", hundredths / 100, hundredths.unsigned_abs() % 100)
}
