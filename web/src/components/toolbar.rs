//! The buttons under the staff.

use crate::components::live::{live, press, when};
use crate::state::desk::Desk;
use crate::state::document::Document;
use crate::state::session::Session;
use leptos::prelude::*;

/// A tool: its name aloud, what stands on it, what it does and when it can be used.
type Tool = (&'static str, &'static str, fn(Desk), fn(Desk) -> bool);

/// Tools for the selected note.
const NOTE_TOOLS: [Tool; 8] = [
    ("Flat", "♭", |desk| desk.act(|document| document.set_alteration(-1)), Desk::has_note),
    ("Natural", "♮", |desk| desk.act(|document| document.set_alteration(0)), Desk::has_note),
    ("Sharp", "♯", |desk| desk.act(|document| document.set_alteration(1)), Desk::has_note),
    ("Octave up", "Octave up", |desk| desk.act(|document| document.move_octaves(1)), Desk::has_note),
    ("Octave down", "Octave down", |desk| desk.act(|document| document.move_octaves(-1)), Desk::has_note),
    ("Hold", "Hold", |desk| desk.attempt(Document::hold), |desk| desk.has_note() && desk.has_room()),
    ("Rest", "Rest", |desk| desk.attempt(Document::rest), Desk::has_room),
    ("Remove", "Remove", |desk| desk.act(Document::remove), |desk| desk.view.read().selected.is_some()),
];

/// Tools for the whole staff.
const STEP_TOOLS: [Tool; 4] = [
    ("Add a staff", "Add a staff", Desk::add_staff, |desk| {
        desk.whole.read().staves.len() < crookwise_score::MOST_STAVES
    }),
    ("Undo", "Undo", |desk| desk.act(Document::undo), |desk| desk.document().can_undo()),
    ("Redo", "Redo", |desk| desk.act(Document::redo), |desk| desk.document().can_redo()),
    (
        "Clear the staff",
        "Clear the staff",
        |desk| desk.act(Document::clear),
        |desk| !desk.view.read().columns.is_empty(),
    ),
];

/// Accidentals, octaves, hold, rest, remove, undo and redo. One that can do nothing now keeps the keyboard's focus.
pub fn toolbar() -> AnyView {
    let Session { desk, .. } = Session::get();
    let together = move || {
        let act = press(move || desk.attempt(Document::play_together));
        view! { <div class="tools"><button on:click=act>"All players play this note"</button></div> }
            .into_any()
    };
    let several = move || {
        let whole = desk.whole.read();
        whole.staves.get(whole.staff).is_some_and(|staff| staff.players.len() > 1) && desk.has_note()
    };
    let button = move |(name, face, act, usable): Tool| {
        let class = if face.chars().count() == 1 { "sign-button" } else { "" };
        view! {
            <button
                class=class
                aria-label=name
                aria-disabled=live(move || (!usable(desk)).then_some("true"))
                on:click=press(move || {
                    if untrack(|| usable(desk)) {
                        act(desk);
                    }
                })
            >
                {face}
            </button>
        }
        .into_any()
    };
    let group = |name: &'static str, tools: &[Tool]| {
        let buttons = tools.iter().copied().map(button).collect::<Vec<_>>();
        view! { <div class="tools" role="group" aria-label=name>{buttons}</div> }.into_any()
    };
    view! {
        {group("The selected note", &NOTE_TOOLS)}
        {when(several, together)}
        {group("Steps", &STEP_TOOLS)}
        <p class="quiet" id="key-help">
            "Tap the staff to place a note, drag it to move it. With the keyboard: letters A to G enter notes, arrows select and move, + and − alter, shift and an arrow moves by octaves."
        </p>
    }
    .into_any()
}
