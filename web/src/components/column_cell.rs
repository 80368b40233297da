//! Between the staves: the partial or the hand sign of a note, its drift as a gauge and a number.

use crate::browser::focus;
use crate::components::live::{LiveText, live, press, when};
use crate::components::staff_sheet::SHEET;
use crate::components::system_view::pixels;
use crate::state::gesture::Target;
use crate::state::kept::Derived;
use crate::state::score_sheet::SheetSystem;
use crate::state::session::Session;
use crate::state::strip::{Drift, NoteCell};
use crate::words;
use leptos::prelude::*;

/// What stands under a staff at a column for one of its players; a plus where his next note goes.
pub fn column_cell(on: (usize, usize), column: usize, system: Derived<Option<SheetSystem>>) -> AnyView {
    let Session { desk, .. } = Session::get();
    let cell = Derived::new(move || NoteCell::of(&desk.whole.read(), on, column));
    view! {
        {when(move || cell.is_some(), move || note_cell(on, column, cell, system))}
        {when(move || column == desk.whole.read().columns(), move || next_cell(on, column, system))}
    }
    .into_any()
}

/// How wide a cell is.
fn width(system: Derived<Option<SheetSystem>>) -> LiveText {
    live(move || pixels(system.map(|system| system.column).unwrap_or_default()))
}

/// How far it stands from the cell before: as far as the change before its column takes room.
fn room(column: usize, system: Derived<Option<SheetSystem>>) -> LiveText {
    live(move || pixels(system.map(|system| system.room_before(column)).unwrap_or_default()))
}

/// Where the next note goes.
fn next_cell(
    (staff, player): (usize, usize),
    column: usize,
    system: Derived<Option<SheetSystem>>,
) -> AnyView {
    let Session { desk, .. } = Session::get();
    let add = move || {
        desk.add_note(staff, player);
        // The button moves on to the next column; the keyboard stays with the new note.
        focus::to_inside(SHEET, desk.selected_element());
    };
    view! {
        <button
            class="cell next"
            id=format!("next-{staff}-{player}")
            aria-label=words::staves::ADD_A_NOTE
            style:width=width(system)
            style:margin-left=room(column, system)
            on:click=press(add)
        >
            <span class="plus" aria-hidden="true">"+"</span>
        </button>
    }
    .into_any()
}

/// A note.
fn note_cell(
    (staff, player): (usize, usize),
    column: usize,
    cell: Derived<Option<NoteCell>>,
    system: Derived<Option<SheetSystem>>,
) -> AnyView {
    let Session { desk, .. } = Session::get();
    let part = move |part: fn(&NoteCell) -> Option<String>| live(move || cell.and_then(part));
    let drift = live(move || cell.and_then(|cell| cell.drift.as_ref().map(gauge)));
    let heads = live(move || {
        let right = system.map(|system| system.right_of_heads(Target::Written(staff), column));
        pixels(right.unwrap_or_default())
    });
    view! {
        <button
            class=part(|cell| Some(if cell.in_selected_column { "cell here" } else { "cell" }.to_owned()))
            id=format!("note-{staff}-{player}-{column}")
            style:width=width(system)
            style:margin-left=room(column, system)
            style=("--heads", heads)
            tabindex=part(|cell| Some(if cell.in_tab_order { "0" } else { "-1" }.to_owned()))
            aria-current=part(|cell| cell.selected.then(|| "true".to_owned()))
            on:click=press(move || desk.act(|document| document.select_on(staff, player, Some(column))))
        >
            <span class="unseen">{part(|cell| Some(cell.name.clone()))}</span>
            <span aria-hidden="true" data-sounds=part(|cell| cell.sounds.clone()) class=part(|cell| Some(format!("mark {}{}", cell.kind.class(), cell.marked_for.class())))>{part(|cell| Some(cell.mark.clone()))}</span>
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
