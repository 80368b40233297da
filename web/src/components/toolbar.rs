//! The buttons under the staff.

use crate::components::change_form::change_form;
use crate::components::later::{Fetched, later};
use crate::components::live::{live, press, when};
use crate::state::desk::Desk;
use crate::state::document::Document;
use crate::state::kept::Derived;
use crate::state::session::Session;
use crate::words;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// A tool: its name aloud, what stands on it, what it does and when it can be used.
type Tool = (&'static str, &'static str, fn(Desk), fn(Desk) -> bool);

/// Tools for the selected note.
const NOTE_TOOLS: [Tool; 8] = [
    (words::staves::FLAT, "♭", |desk| desk.act(|document| document.set_alteration(-1)), Desk::has_note),
    (words::staves::NATURAL, "♮", |desk| desk.act(|document| document.set_alteration(0)), Desk::has_note),
    (words::staves::SHARP, "♯", |desk| desk.act(|document| document.set_alteration(1)), Desk::has_note),
    (
        words::staves::OCTAVE_UP,
        words::staves::OCTAVE_UP,
        |desk| desk.act(|document| document.move_octaves(1)),
        Desk::has_note,
    ),
    (
        words::staves::OCTAVE_DOWN,
        words::staves::OCTAVE_DOWN,
        |desk| desk.act(|document| document.move_octaves(-1)),
        Desk::has_note,
    ),
    (
        words::staves::HOLD,
        words::staves::HOLD,
        |desk| desk.attempt(Document::hold),
        |desk| desk.has_note() && desk.has_room(),
    ),
    (words::staves::REST, words::staves::REST, |desk| desk.attempt(Document::rest), Desk::has_room),
    (
        words::staves::REMOVE,
        words::staves::REMOVE,
        |desk| desk.act(Document::remove),
        |desk| desk.view.read().selected.is_some(),
    ),
];

/// What opens the form for changes.
const CHANGE: &str = "change-here";

/// The button that opens the form for what changes before the selected column, and the form.
fn changes() -> AnyView {
    let Session { desk, .. } = Session::get();
    let usable = move || desk.view.read().selected.is_some();
    let open = Derived::new(move || desk.changing.get() && usable());
    let turn = press(move || {
        if untrack(usable) {
            desk.changing.set(!desk.changing.get_untracked());
        }
    });
    view! {
        <div class="tools">
            <button
                id=CHANGE
                aria-expanded=live(move || open.get().to_string())
                aria-disabled=live(move || (!usable()).then_some("true"))
                on:click=turn
            >
                {words::changes::CHANGE_HERE}
            </button>
        </div>
        {when(move || open.get(), || later(|| Box::pin(fetched_change_form())))}
    }
    .into_any()
}

#[wasm_split(panels, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_change_form() -> Fetched {
    Ok(change_form(CHANGE))
}

/// Tools for the whole staff.
const STEP_TOOLS: [Tool; 4] = [
    (words::staves::ADD_A_STAFF, words::staves::ADD_A_STAFF, Desk::add_staff, |desk| {
        desk.whole.read().staves.len() < crookwise_score::MOST_STAVES
    }),
    (
        words::staves::UNDO,
        words::staves::UNDO,
        |desk| desk.act(Document::undo),
        |desk| desk.document().can_undo(),
    ),
    (
        words::staves::REDO,
        words::staves::REDO,
        |desk| desk.act(Document::redo),
        |desk| desk.document().can_redo(),
    ),
    (
        words::staves::CLEAR_THE_STAFF,
        words::staves::CLEAR_THE_STAFF,
        |desk| desk.act(Document::clear),
        |desk| !desk.view.read().columns.is_empty(),
    ),
];

/// Accidentals, octaves, hold, rest, remove, undo and redo. One that can do nothing now keeps the keyboard's focus.
pub fn toolbar() -> AnyView {
    let Session { desk, .. } = Session::get();
    let together = move || {
        let act = press(move || desk.attempt(Document::play_together));
        view! { <div class="tools"><button on:click=act>{words::staves::ALL_PLAYERS_PLAY_THIS_NOTE}</button></div> }
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
        {group(words::staves::THE_SELECTED_NOTE, &NOTE_TOOLS)}
        {when(several, together)}
        {changes()}
        {group(words::staves::STEPS, &STEP_TOOLS)}
        <p class="quiet" id="key-help">
            {words::staves::KEY_HELP}
        </p>
    }
    .into_any()
}
