//! The series of the crook against the semitones of the temperament.

use crate::components::column_cell::percent;
use crate::components::live::{live, press, when};
use crate::state::kept::Derived;
use crate::state::ladder::{self, Between, Ladder, Line, Rung, Selected};
use crate::state::session::Session;
use crate::words;
use leptos::prelude::*;

/// Cents from which a rung is marked as far.
const FAR: f64 = 25.0;

/// The ladder; nothing where the staff has no natural series.
pub fn ladder_panel() -> AnyView {
    let Session { desk, .. } = Session::get();
    let panel = move || {
        let title = live(move || ladder::title(&desk.view.read(), &desk.page.read().intonation));
        view! {
            <section class="card ladder" aria-label=words::staves::NATURAL_SERIES>
                <h2>{title}</h2>
                {rungs()}
                {ranges()}
            </section>
        }
        .into_any()
    };
    when(move || desk.ladder.is_some(), panel).into_any()
}

/// The picture, with lines, rungs and hand notes at their heights, and a button for each. They stand closer than fingers
/// are thick, so the buttons stand in rows under the picture.
fn rungs() -> AnyView {
    let Session { desk, .. } = Session::get();
    let selected = Derived::new(move || Selected::of(&desk.view.read()));
    let parts = move |part: fn(&Ladder, Derived<Selected>) -> Vec<AnyView>| {
        live(move || desk.ladder.map(|ladder| part(ladder, selected)).unwrap_or_default())
    };
    view! {
        <div class="rungs" aria-hidden="true">
            {parts(|ladder, _| ladder.lines.iter().map(line).collect())}
            {parts(|ladder, selected| ladder.rungs.iter().map(|it| rung(it, selected)).collect())}
            {parts(|ladder, selected| ladder.between.iter().map(|it| hand(it, selected)).collect())}
        </div>
        <div class="chips" role="group" aria-label=words::staves::PARTIALS>
            {parts(|ladder, _| {
                let face = |it: &Rung| it.partial.number().to_string();
                ladder.rungs.iter().map(|it| chip("chip partial", it.name.clone(), face(it), "", it.written)).collect()
            })}
        </div>
        <div class="chips" role="group" aria-label=words::staves::NOTES_BY_HAND_OR_LIP>
            {parts(|ladder, _| {
                let chips = ladder.between.iter();
                chips.map(|it| chip("chip", it.name.clone(), it.note.clone(), it.sign, it.written)).collect()
            })}
        </div>
    }
    .into_any()
}

/// A button that enters a note: its name aloud, what stands on it, and the sign of the hand.
fn chip(
    class: &'static str,
    name: String,
    face: String,
    sign: &'static str,
    written: crookwise_theory::Written,
) -> AnyView {
    let Session { desk, .. } = Session::get();
    view! {
        <button class=class on:click=press(move || desk.enter_written(written))>
            <span class="unseen">{name}</span>
            <span aria-hidden="true">{face}<small>{sign}</small></span>
        </button>
    }
    .into_any()
}

fn line(line: &Line) -> AnyView {
    let class = if line.name.is_some() { "line named" } else { "line" };
    view! { <div class=class style:bottom=percent(line.height * 100.0)><span>{line.name.clone()}</span></div> }.into_any()
}

fn rung(rung: &Rung, selected: Derived<Selected>) -> AnyView {
    let far = if rung.drift.abs() >= FAR { " far" } else { "" };
    let shown = rung.clone();
    let class = live(move || {
        let selected = if selected.read().is_rung(&shown) { " selected" } else { "" };
        format!("rung{far}{selected}")
    });
    view! {
        <div class=class style:bottom=percent(rung.height * 100.0)>
            <b>{rung.partial.number().to_string()}</b>
            <span class="tube"></span>
            <small>{words::signed_cents(rung.drift)}</small>
        </div>
    }
    .into_any()
}

fn hand(note: &Between, selected: Derived<Selected>) -> AnyView {
    let shown = note.clone();
    let class =
        live(move || if selected.read().is_between(&shown) { "hand-note selected" } else { "hand-note" });
    view! {
        <div class=class style:bottom=percent(note.height * 100.0)>
            <span class="dots"></span>
            <small>{note.sign}</small>
        </div>
    }
    .into_any()
}

/// How far the crook goes, by those who say so.
fn ranges() -> AnyView {
    let Session { desk, .. } = Session::get();
    let item = |range: String| view! { <li>{range}</li> }.into_any();
    let items = live(move || ladder::ranges(&desk.view.read()).into_iter().map(item).collect::<Vec<_>>());
    view! {
        <details class="ranges">
            <summary>{words::staves::HOW_FAR_THIS_CROOK_GOES}</summary>
            <ul>{items}</ul>
            <p class="quiet">
                {words::staves::RANGES_ARE_A_GUIDE}
            </p>
        </details>
    }
    .into_any()
}
