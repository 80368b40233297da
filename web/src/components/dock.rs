//! The dock at the lower edge: the tools of the moment, each a sign with its name.

use crate::browser::{audio, focus, measure, popover, toolbar};
use crate::components::icon::changing_icon;
use crate::components::later::{Fetched, later};
use crate::components::live::{each, hear, live, press, when};
use crate::components::sound_panel::{caution, play, stop};
use crate::state::desk::Desk;
use crate::state::document::Document;
use crate::state::hearing::{self, HeardPart};
use crate::state::kept::Derived;
use crate::state::panels::Panel;
use crate::state::session::Session;
use crate::state::speaker::Caution;
use crate::state::view::StaffView;
use crate::words::{changes, dock, staves};
use leptos::ev::{FocusEvent, KeyboardEvent};
use leptos::html::Div;
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// A tool.
#[derive(Clone, Copy)]
struct Tool {
    /// Its id behind "tool-".
    id: &'static str,
    /// Whether it stands behind one more button on a telephone ("seldom") or everywhere ("rare"), and whether a line parts
    /// it from the one before.
    class: &'static str,
    look: fn(Session) -> Look,
    act: fn(Session),
    usable: fn(Session) -> bool,
    /// What it opens is open.
    open: fn(Session) -> Option<bool>,
}

/// How a tool looks now.
#[derive(Clone, Copy)]
struct Look {
    /// Its name aloud.
    name: &'static str,
    /// The word under its sign.
    face: &'static str,
    sign: &'static str,
}

/// Tools for the selected note.
const NOTE_TOOLS: [Tool; 8] = [
    Tool {
        id: "flat",
        look: |_| Look { name: staves::FLAT, face: dock::FLAT, sign: "flat" },
        act: |Session { desk, .. }| desk.act(|document| document.set_alteration(-1)),
        usable: has_note,
        ..PLAIN
    },
    Tool {
        id: "natural",
        look: |_| Look { name: staves::NATURAL, face: dock::NATURAL, sign: "natural" },
        act: |Session { desk, .. }| desk.act(|document| document.set_alteration(0)),
        usable: has_note,
        ..PLAIN
    },
    Tool {
        id: "sharp",
        look: |_| Look { name: staves::SHARP, face: dock::SHARP, sign: "sharp" },
        act: |Session { desk, .. }| desk.act(|document| document.set_alteration(1)),
        usable: has_note,
        ..PLAIN
    },
    Tool {
        id: "up",
        class: "tool parted seldom",
        look: |_| Look { name: staves::OCTAVE_UP, face: dock::OCTAVE, sign: "up" },
        act: |Session { desk, .. }| desk.act(|document| document.move_octaves(1)),
        usable: has_note,
        ..PLAIN
    },
    Tool {
        id: "down",
        class: "tool seldom",
        look: |_| Look { name: staves::OCTAVE_DOWN, face: dock::OCTAVE, sign: "down" },
        act: |Session { desk, .. }| desk.act(|document| document.move_octaves(-1)),
        usable: has_note,
        ..PLAIN
    },
    Tool {
        id: "hold",
        class: "tool parted seldom",
        look: |_| Look { name: staves::HOLD, face: dock::HOLD, sign: "hold" },
        act: |Session { desk, .. }| desk.attempt(Document::hold),
        usable: |Session { desk, .. }| desk.has_note() && desk.has_room(),
        ..PLAIN
    },
    Tool {
        id: "rest",
        class: "tool seldom",
        look: |_| Look { name: staves::REST, face: dock::REST, sign: "rest" },
        act: |Session { desk, .. }| desk.attempt(Document::rest),
        usable: |Session { desk, .. }| desk.has_room(),
        ..PLAIN
    },
    Tool {
        id: "remove",
        look: |_| Look { name: staves::REMOVE, face: dock::REMOVE, sign: "remove" },
        act: |Session { desk, .. }| desk.act(Document::remove),
        usable: is_selected,
        ..PLAIN
    },
];

/// One step back or on.
const STEP_TOOLS: [Tool; 2] = [
    Tool {
        id: "undo",
        class: "tool parted",
        look: |_| Look { name: staves::UNDO, face: dock::UNDO, sign: "undo" },
        act: |Session { desk, .. }| desk.act(Document::undo),
        usable: |Session { desk, .. }| desk.document().can_undo(),
        ..PLAIN
    },
    Tool {
        id: "redo",
        class: "tool seldom",
        look: |_| Look { name: staves::REDO, face: dock::REDO, sign: "redo" },
        act: |Session { desk, .. }| desk.act(Document::redo),
        usable: |Session { desk, .. }| desk.document().can_redo(),
        ..PLAIN
    },
];

/// Hearing the note or the column; stopping, or the other ways.
const SOUND_TOOLS: [Tool; 2] = [
    Tool {
        id: "hear",
        class: "tool sea parted",
        look: |session| match heard(session) {
            HeardPart::Column => Look { name: staves::HEAR_THE_COLUMN, face: dock::COLUMN, sign: "hear" },
            _ => Look { name: staves::HEAR_THE_NOTE, face: dock::NOTE, sign: "hear" },
        },
        act: |session| play(session, heard(session)),
        usable: |session| {
            let Session { desk, .. } = session;
            hearing::can_hear(&desk.whole.read(), &desk.page.read(), heard(session))
        },
        ..PLAIN
    },
    Tool {
        id: "ways",
        class: "tool sea ways",
        look: |Session { speaker, .. }| match speaker.playing.get() {
            true => Look { name: staves::STOP, face: dock::STOP, sign: "stop" },
            false => Look { name: dock::WAYS_OF_HEARING, face: dock::WAYS, sign: "ways" },
        },
        act: |Session { speaker, notices, panels, .. }| match speaker.playing.get() {
            true => stop(speaker, notices),
            false => panels.show(Panel::Sound),
        },
        open: |Session { panels, .. }| Some(panels.shows(Panel::Sound)),
        ..PLAIN
    },
];

/// What is done now and then.
const PAGE_TOOLS: [Tool; 4] = [
    Tool {
        id: "change",
        class: "tool parted seldom now-and-then",
        look: |_| Look { name: changes::CHANGE_HERE, face: dock::CHANGE, sign: "change" },
        act: |Session { panels, .. }| panels.show(Panel::Change),
        usable: is_selected,
        open: |Session { panels, .. }| Some(panels.shows(Panel::Change)),
    },
    Tool {
        id: "staff",
        class: "tool seldom now-and-then",
        look: |_| Look { name: staves::ADD_A_STAFF, face: dock::STAFF, sign: "staff" },
        act: |Session { desk, .. }| desk.add_staff(),
        usable: |Session { desk, .. }| desk.whole.read().staves.len() < crookwise_score::MOST_STAVES,
        ..PLAIN
    },
    Tool {
        id: "clear",
        class: "tool rare",
        look: |_| Look { name: staves::CLEAR_THE_STAFF, face: dock::CLEAR, sign: "clear" },
        act: |Session { desk, .. }| desk.act(Document::clear),
        usable: |Session { desk, .. }| !desk.view.read().columns.is_empty(),
        ..PLAIN
    },
    Tool {
        id: "more",
        look: |_| Look { name: dock::MORE_TOOLS, face: dock::MORE, sign: "more" },
        act: |Session { panels, .. }| panels.more.set(!panels.more.get()),
        open: |Session { panels, .. }| Some(panels.more.get()),
        ..PLAIN
    },
];

/// A tool that is always there and opens nothing.
const PLAIN: Tool = Tool {
    id: "",
    class: "tool",
    look: |_| Look { name: "", face: "", sign: "" },
    act: |_| {},
    usable: |_| true,
    open: |_| None,
};

fn has_note(Session { desk, .. }: Session) -> bool {
    desk.has_note()
}

fn is_selected(Session { desk, .. }: Session) -> bool {
    desk.view.read().selected.is_some()
}

/// What is heard at one press: the note of one player alone, else the column.
fn heard(Session { desk, .. }: Session) -> HeardPart {
    if desk.whole.read().is_alone() { HeardPart::Note } else { HeardPart::Column }
}

/// The dock. A tool that can do nothing now keeps the keyboard's focus.
pub fn dock() -> AnyView {
    let Session { desk, panels, speaker, .. } = Session::get();
    let class = live(move || if panels.more.get() { "dock open" } else { "dock" });
    let hint = live(move || if desk.whole.read().columns() == 0 { "quiet hint" } else { "unseen" });
    let group = |name: &'static str, tools: &[Tool]| {
        let buttons = tools.iter().copied().map(button).collect::<Vec<_>>();
        view! { <div role="group" aria-label=name>{buttons}</div> }.into_any()
    };
    let said = move || speaker.caution.get() == Caution::Said;
    let body = NodeRef::<Div>::new();
    measure::keep_clear(body);
    view! {
        <section class=class aria-label=dock::TOOLS>
            <div node_ref=body>
            {when(said, || later(|| Box::pin(fetched_caution())))}
            <p class=hint id="key-help">{staves::KEY_HELP}</p>
            <div
                class="tool-row"
                role="toolbar"
                aria-label=dock::TOOLS
                on:keydown=hear(move |event: KeyboardEvent| {
                    toolbar::step(&event);
                    // One thing at a time: a list that is open is shut first.
                    if event.key() == "Escape" && !popover::shut_open() && panels.more.get_untracked() {
                        panels.more.set(false);
                        focus::now("tool-more");
                    }
                })
                on:focusin=hear(|event: FocusEvent| toolbar::enter(&event))
                on:focusout=hear(|event: FocusEvent| toolbar::leave(&event))
            >
                {group(staves::THE_SELECTED_NOTE, &NOTE_TOOLS)}
                {players()}
                {group(staves::STEPS, &STEP_TOOLS)}
                {audio::is_there().then(|| group(staves::SOUND, &SOUND_TOOLS))}
                {PAGE_TOOLS.map(button).into_iter().collect::<Vec<_>>()}
            </div>
            </div>
        </section>
    }
    .into_any()
}

#[wasm_split(panels, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_caution() -> Fetched {
    Ok(caution("tool-hear"))
}

fn button(tool: Tool) -> AnyView {
    let session = Session::get();
    let Tool { id, class, look, act, usable, open } = tool;
    let first = id == NOTE_TOOLS[0].id;
    let class = live(move || match id == "ways" && session.speaker.playing.get() {
        true => format!("{class} on"),
        false => class.to_owned(),
    });
    view! {
        <button
            id=format!("tool-{id}")
            class=class
            tabindex=if first { "0" } else { "-1" }
            aria-label=live(move || look(session).name)
            aria-expanded=live(move || open(session).map(|open| open.to_string()))
            aria-disabled=live(move || (!usable(session)).then_some("true"))
            on:click=press(move || {
                untrack(|| {
                    if usable(session) {
                        act(session);
                    }
                });
            })
        >
            {changing_icon(move || look(session).sign)}
            <span>{live(move || look(session).face)}</span>
        </button>
    }
    .into_any()
}

/// Whose note is meant, where a staff has several players. It stands there from the beginning: what came later would push
/// the tools from under a finger.
fn players() -> AnyView {
    let Session { desk, .. } = Session::get();
    let count = Derived::new(move || staff(desk, |staff| staff.players.len()).unwrap_or_default());
    let group = move || {
        view! {
            <div class="whose" role="group" aria-label=dock::WHOSE_NOTE>
                {each(Derived::new(move || 0..count.get()), move |player| player_button(desk, player))}
                {all_button(desk)}
            </div>
        }
        .into_any()
    };
    when(move || count.get() > 1, group).into_any()
}

/// Looks at the selected staff.
fn staff<R>(desk: Desk, look: impl FnOnce(&StaffView) -> R) -> Option<R> {
    let whole = desk.whole.read();
    whole.staves.get(whole.staff).map(look)
}

/// Selects a player.
fn player_button(desk: Desk, player: usize) -> AnyView {
    let number = move || {
        let number = staff(desk, |staff| staff.players.first().map(|view| view.staff.number(player)));
        number.flatten().unwrap_or_default()
    };
    let choose = press(move || {
        let column = desk.page.read_untracked().selected;
        let staff = desk.whole.read_untracked().staff;
        desk.act(|document| document.select_on(staff, player, column));
    });
    let class = if player == 0 { "tool parted" } else { "tool" };
    view! {
        <button
            class=class
            tabindex="-1"
            aria-label=live(move || dock::player(number()))
            aria-pressed=live(move || (desk.whole.read().player == player).to_string())
            on:click=choose
        >
            <b>{live(move || changes::roman(number()))}</b>
            <span>{dock::PLAYER}</span>
        </button>
    }
    .into_any()
}

/// Gives the note to all players.
fn all_button(desk: Desk) -> AnyView {
    let shared = move || {
        let at = desk.view.read().selected;
        at.and_then(|at| staff(desk, |staff| staff.together.get(at).copied())).flatten().unwrap_or_default()
    };
    let count = move || staff(desk, |staff| staff.players.len()).unwrap_or_default();
    let act = press(move || {
        if untrack(|| desk.has_note()) {
            desk.attempt(Document::play_together);
        }
    });
    view! {
        <button
            class="tool"
            tabindex="-1"
            aria-label=staves::ALL_PLAYERS_PLAY_THIS_NOTE
            aria-pressed=live(move || shared().to_string())
            aria-disabled=live(move || (!desk.has_note()).then_some("true"))
            on:click=act
        >
            <b>{live(move || dock::in_one(count()))}</b>
            <span>{dock::ALL}</span>
        </button>
    }
    .into_any()
}
