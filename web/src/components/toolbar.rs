//! The buttons under the staff.

use crate::components::live::{live, press, when};
use crate::state::document::Document;
use crate::state::session::Session;
use leptos::prelude::*;

/// A tool: its name aloud, what stands on it, what it does and when it can be used.
type Tool = (&'static str, &'static str, fn(Session), fn(Session) -> bool);

/// Tools for the selected note.
const NOTE_TOOLS: [Tool; 8] = [
    ("Flat", "♭", |session| session.act(|document| document.set_alteration(-1)), Session::has_note),
    ("Natural", "♮", |session| session.act(|document| document.set_alteration(0)), Session::has_note),
    ("Sharp", "♯", |session| session.act(|document| document.set_alteration(1)), Session::has_note),
    ("Octave up", "Octave up", |session| session.act(|document| document.move_octaves(1)), Session::has_note),
    (
        "Octave down",
        "Octave down",
        |session| session.act(|document| document.move_octaves(-1)),
        Session::has_note,
    ),
    (
        "Hold",
        "Hold",
        |session| session.attempt(Document::hold),
        |session| session.has_note() && session.has_room(),
    ),
    ("Rest", "Rest", |session| session.attempt(Document::rest), Session::has_room),
    (
        "Remove",
        "Remove",
        |session| session.act(Document::remove),
        |session| session.view.get().selected.is_some(),
    ),
];

/// Tools for the whole staff.
const STEP_TOOLS: [Tool; 4] = [
    ("Add a staff", "Add a staff", Session::add_staff, |session| {
        session.whole.get().staves.len() < crookwise_score::MOST_STAVES
    }),
    ("Undo", "Undo", |session| session.act(Document::undo), |session| session.document().can_undo()),
    ("Redo", "Redo", |session| session.act(Document::redo), |session| session.document().can_redo()),
    (
        "Clear the staff",
        "Clear the staff",
        |session| session.act(Document::clear),
        |session| !session.view.get().columns.is_empty(),
    ),
];

/// Accidentals, octaves, hold, rest, remove, undo and redo. One that can do nothing now keeps the keyboard's focus.
pub fn toolbar() -> AnyView {
    let session = Session::get();
    let together = move || {
        let act = press(move || session.attempt(Document::play_together));
        view! { <div class="tools"><button on:click=act>"All players play this note"</button></div> }
            .into_any()
    };
    let several = move || {
        let whole = session.whole.get();
        whole.staves.get(whole.staff).is_some_and(|staff| staff.players.len() > 1) && session.has_note()
    };
    let button = move |(name, face, act, usable): Tool| {
        let class = if face.chars().count() == 1 { "sign-button" } else { "" };
        view! {
            <button
                class=class
                aria-label=name
                aria-disabled=live(move || (!usable(session)).then_some("true"))
                on:click=press(move || {
                    if untrack(|| usable(session)) {
                        act(session);
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
