//! The series of the crook against the semitones of the temperament.

use crate::components::column_cell::percent;
use crate::components::live::{live, press, when};
use crate::state::ladder::{self, Between, Ladder, Line, Rung};
use crate::state::session::Session;
use crate::words;
use leptos::prelude::*;

/// Cents from which a rung is marked as far.
const FAR: f64 = 25.0;

/// The ladder; nothing where the staff has no natural series.
pub fn ladder_panel() -> AnyView {
    let session = Session::get();
    let panel = move || {
        let title = live(move || ladder::title(&session.view.get(), &session.page.get().intonation));
        view! {
            <section class="card ladder" aria-label="Natural series">
                <h2>{title}</h2>
                {rungs()}
                {ranges()}
            </section>
        }
        .into_any()
    };
    when(move || session.ladder.get().is_some(), panel).into_any()
}

/// Lines, rungs and hand notes at their heights.
fn rungs() -> AnyView {
    let session = Session::get();
    let parts = move |part: fn(&Ladder) -> Vec<AnyView>| {
        live(move || Option::as_ref(&session.ladder.get()).map(part).unwrap_or_default())
    };
    view! {
        <div class="rungs">
            <div aria-hidden="true">{parts(|ladder| ladder.lines.iter().map(line).collect())}</div>
            <div role="group" aria-label="Partials">{parts(|ladder| ladder.rungs.iter().map(rung).collect())}</div>
            <div role="group" aria-label="Notes by hand or lip">
                {parts(|ladder| ladder.between.iter().map(hand).collect())}
            </div>
        </div>
    }
    .into_any()
}

fn line(line: &Line) -> AnyView {
    let class = if line.name.is_some() { "line named" } else { "line" };
    view! { <div class=class style:bottom=percent(line.height * 100.0)><span>{line.name.clone()}</span></div> }.into_any()
}

fn rung(rung: &Rung) -> AnyView {
    let session = Session::get();
    let written = rung.written;
    let far = if rung.drift.abs() >= FAR { " far" } else { "" };
    let selected = if rung.selected { " selected" } else { "" };
    view! {
        <button
            class=format!("rung{far}{selected}")
            style:bottom=percent(rung.height * 100.0)
            aria-label=rung.name.clone()
            on:click=press(move || session.enter_written(written))
        >
            <b aria-hidden="true">{rung.partial.number().to_string()}</b>
            <span class="tube"></span>
            <small aria-hidden="true">{words::signed_cents(rung.drift)}</small>
        </button>
    }
    .into_any()
}

fn hand(note: &Between) -> AnyView {
    let session = Session::get();
    let written = note.written;
    let selected = if note.selected { " selected" } else { "" };
    view! {
        <button
            class=format!("hand-note{selected}")
            style:bottom=percent(note.height * 100.0)
            aria-label=note.name.clone()
            on:click=press(move || session.enter_written(written))
        >
            <span class="dots"></span>
            <small aria-hidden="true">{note.sign}</small>
        </button>
    }
    .into_any()
}

/// How far the crook goes, by those who say so.
fn ranges() -> AnyView {
    let session = Session::get();
    let item = |range: String| view! { <li>{range}</li> }.into_any();
    let items = live(move || ladder::ranges(&session.view.get()).into_iter().map(item).collect::<Vec<_>>());
    view! {
        <details class="ranges">
            <summary>"How far this crook goes"</summary>
            <ul>{items}</ul>
            <p class="quiet">
                "A guide: sources, instruments and players differ. Range and endurance are for the player and a teacher to judge."
            </p>
        </details>
    }
    .into_any()
}
