//! The buttons under the staff.

use crate::state::document::Document;
use crate::state::session::Session;
use leptos::prelude::*;

/// Accidentals, octaves, hold, rest, remove, undo and redo.
#[component]
pub fn Toolbar() -> impl IntoView {
    let session = Session::get();
    let note = Memo::new(move |_| {
        session.view.read().selected_column().is_some_and(|column| column.printed.is_some())
    });
    let column = Memo::new(move |_| session.view.read().selected.is_some());
    let full = Memo::new(move |_| session.view.read().columns.len() >= crookwise_score::MOST_COLUMNS);
    let act = move |action: fn(&mut Document)| move |_| session.act(action);
    view! {
        <div class="tools" role="group" aria-label="The selected note">
            <button class="sign-button" aria-label="Flat" disabled=move || !note.get() on:click=act(|document| document.set_alteration(-1))>"♭"</button>
            <button class="sign-button" aria-label="Natural" disabled=move || !note.get() on:click=act(|document| document.set_alteration(0))>"♮"</button>
            <button class="sign-button" aria-label="Sharp" disabled=move || !note.get() on:click=act(|document| document.set_alteration(1))>"♯"</button>
            <button disabled=move || !note.get() on:click=act(|document| document.move_octaves(1))>"Octave up"</button>
            <button disabled=move || !note.get() on:click=act(|document| document.move_octaves(-1))>"Octave down"</button>
            <button disabled=move || !note.get() || full.get() on:click=move |_| session.attempt(Document::hold)>"Hold"</button>
            <button disabled=move || full.get() on:click=move |_| session.attempt(Document::rest)>"Rest"</button>
            <button disabled=move || !column.get() on:click=act(Document::remove)>"Remove"</button>
        </div>
        <div class="tools" role="group" aria-label="Steps">
            <button disabled=move || !session.can_undo() on:click=act(Document::undo)>"Undo"</button>
            <button disabled=move || !session.can_redo() on:click=act(Document::redo)>"Redo"</button>
            <button disabled=move || session.view.read().columns.is_empty() on:click=act(Document::clear)>"Clear the staff"</button>
        </div>
        <p class="quiet" id="key-help">
            "Tap the staff to place a note, drag it to move it. With the keyboard: letters A to G enter notes, arrows select and move, + and − alter, shift and an arrow moves by octaves."
        </p>
    }
}
