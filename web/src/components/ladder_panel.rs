//! The series of the crook against the semitones of the temperament.

use crate::browser::{field, focus, pointer};
use crate::components::column_cell::percent;
use crate::components::later::{Fetched, later};
use crate::components::live::{LiveText, hear, live, press, when};
use crate::state::desk::Desk;
use crate::state::kept::{Derived, Watched};
use crate::state::ladder::{self, Between, Ladder, Line, Rung, Selected};
use crate::state::session::Session;
use crate::words;
use crookwise_theory::Written;
use leptos::ev::{Event, KeyboardEvent, PointerEvent};
use leptos::prelude::*;
use leptos::wasm_split::wasm_split;

/// Cents from which a rung is marked as far.
const FAR: f64 = 25.0;

/// The ladder; nothing where the staff has no natural series.
pub fn ladder_panel() -> AnyView {
    let Session { desk, .. } = Session::get();
    let panel = move || {
        let title = live(move || ladder::title(&desk.view.read(), &desk.page.read().intonation));
        view! {
            <section class="ladder" aria-label=words::staves::NATURAL_SERIES>
                <h2>{title}</h2>
                {rungs()}
                {ranges()}
            </section>
        }
        .into_any()
    };
    when(move || desk.ladder.is_some(), panel).into_any()
}

/// The picture, with lines, rungs and hand notes at their heights. Rungs stand closer than fingers are thick: the
/// nearest to a pointer is taken, and shown before letting go. By keyboard the arrows go from one to the next.
fn rungs() -> AnyView {
    let Session { desk, .. } = Session::get();
    let pointed = Watched::new(None);
    let selected = Derived::new(move || Selected::of(&desk.view.read()));
    let stops = Derived::new(move || desk.ladder.map(|ladder| ladder.stops(selected.get())));
    let marked = Marked { selected, pointed, stops };
    let parts = move |part: fn(&Ladder, Marked) -> Vec<AnyView>| {
        live(move || desk.ladder.map(|ladder| part(ladder, marked)).unwrap_or_default())
    };
    let down = hear(move |event: PointerEvent| {
        if pointer::is_main(&event) {
            pointed.set(nearest(desk, &event));
        }
    });
    let up = hear(move |_: PointerEvent| {
        if let Some(written) = pointed.get_untracked() {
            pointed.set(None);
            desk.enter_written(written);
        }
    });
    let away = move || hear(move |_: PointerEvent| pointed.set(None));
    let moved = hear(move |event: PointerEvent| {
        if pointed.get_untracked().is_some() {
            pointed.set(nearest(desk, &event));
        }
    });
    let turn = hear(move |event: KeyboardEvent| {
        let Some(id) = desk.ladder.and_then(|ladder| ladder.beside(&field::id(&event), &event.key())) else {
            return;
        };
        event.prevent_default();
        focus::now(&id);
    });
    view! {
        <div
            class="rungs"
            on:pointerdown=down
            on:pointermove=moved
            on:pointerup=up
            on:pointercancel=away()
            on:pointerleave=away()
            on:keydown=turn
        >
            {parts(|ladder, _| ladder.lines.iter().map(line).collect())}
            <div role="group" aria-label=words::staves::PARTIALS>
                {parts(|ladder, marked| ladder.rungs.iter().map(|it| rung(it, marked)).collect())}
            </div>
            <div role="group" aria-label=words::staves::NOTES_BY_HAND_OR_LIP>
                {parts(|ladder, marked| ladder.between.iter().map(|it| hand(it, marked)).collect())}
            </div>
        </div>
    }
    .into_any()
}

/// What is marked on the ladder: the selected note, and the one a pointer takes.
#[derive(Clone, Copy)]
struct Marked {
    selected: Derived<Selected>,
    pointed: Watched<Option<Written>>,
    /// Where the tabulator key stops.
    stops: Derived<Option<[String; 2]>>,
}

impl Marked {
    /// The class of a note of the ladder: its own, whether it is selected, whether it is being taken.
    fn class(
        self,
        class: &'static str,
        written: Written,
        is: impl Fn(Selected) -> bool + Send + 'static,
    ) -> LiveText {
        live(move || {
            let selected = if is(self.selected.get()) { " selected" } else { "" };
            let taken = if self.pointed.get() == Some(written) { " taken" } else { "" };
            format!("{class}{selected}{taken}")
        })
    }
}

/// The note of the ladder that is nearest to a pointer.
fn nearest(desk: Desk, event: &PointerEvent) -> Option<Written> {
    let (right, up) = pointer::share(event)?;
    untrack(|| desk.ladder.and_then(|ladder| ladder.nearest(right, up)))
}

/// A button for the ear and the keyboard, at the place of the note it enters.
fn button(name: String, id: String, written: Written, marked: Marked) -> AnyView {
    let Session { desk, .. } = Session::get();
    let own = id.clone();
    let stop = live(move || {
        let stops = marked.stops.map(|stops| stops.contains(&own)).unwrap_or_default();
        if stops { "0" } else { "-1" }
    });
    view! { <button class="unseen" id=id tabindex=stop on:click=press(move || desk.enter_written(written))>{name}</button> }.into_any()
}

fn line(line: &Line) -> AnyView {
    let class = if line.name.is_some() { "line named" } else { "line" };
    view! { <div class=class style:bottom=percent(line.height * 100.0)><span>{line.name.clone()}</span></div> }.into_any()
}

fn rung(rung: &Rung, marked: Marked) -> AnyView {
    let shown = rung.clone();
    let class = if rung.drift.abs() >= FAR { "rung far" } else { "rung" };
    let class = marked.class(class, rung.written, move |selected| selected.is_rung(&shown));
    view! {
        <div class=class style:bottom=percent(rung.height * 100.0)>
            {button(rung.name.clone(), rung.id(), rung.written, marked)}
            <b aria-hidden="true">{rung.partial.number().to_string()}</b>
            <span class="tube"></span>
            <small aria-hidden="true">{words::signed_cents(rung.drift)}</small>
            <output aria-hidden="true">{rung.note.clone()}</output>
        </div>
    }
    .into_any()
}

fn hand(note: &Between, marked: Marked) -> AnyView {
    let shown = note.clone();
    let class = marked.class("hand-note", note.written, move |selected| selected.is_between(&shown));
    view! {
        <div class=class style:bottom=percent(note.height * 100.0)>
            {button(note.name.clone(), note.id(), note.written, marked)}
            <span class="dots"></span>
            <small aria-hidden="true">{note.sign}</small>
            <output aria-hidden="true">{note.note.clone()}</output>
        </div>
    }
    .into_any()
}

/// How far the crook goes, by those who say so.
fn ranges() -> AnyView {
    let opened = Watched::new(false);
    let part = || later(|| Box::pin(fetched_ranges()));
    view! {
        <details class="ranges" on:toggle=hear(move |_: Event| opened.set(true))>
            <summary>{words::staves::HOW_FAR_THIS_CROOK_GOES}</summary>
            {when(move || opened.get(), part)}
        </details>
    }
    .into_any()
}

#[wasm_split(beside, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_ranges() -> Fetched {
    Ok(said_ranges())
}

/// The ranges, when they are looked at.
fn said_ranges() -> AnyView {
    let Session { desk, .. } = Session::get();
    let item = |range: String| view! { <li>{range}</li> }.into_any();
    let items = live(move || ladder::ranges(&desk.view.read()).into_iter().map(item).collect::<Vec<_>>());
    view! {
        <ul>{items}</ul>
        <p class="quiet">
            {words::staves::RANGES_ARE_A_GUIDE}
        </p>
    }
    .into_any()
}
