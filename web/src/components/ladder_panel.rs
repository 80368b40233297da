//! The series of the crook against the semitones of the temperament.

use crate::state::ladder::{Between, Ladder, Line, Rung};
use crate::state::session::Session;
use crate::words;
use leptos::prelude::*;

/// The ladder; nothing where the staff has no natural series.
#[component]
pub fn LadderPanel() -> impl IntoView {
    let session = Session::get();
    let there = Memo::new(move |_| session.ladder.read().is_some());
    view! {
        <Show when=move || there.get()>
            <section class="card ladder" aria-label="Natural series">
                <h2>{move || crate::state::ladder::title(&session.view.read(), &session.page.read().intonation)}</h2>
                <Rungs />
                <Ranges />
            </section>
        </Show>
    }
}

/// Lines, rungs and hand notes at their heights.
#[component]
fn Rungs() -> impl IntoView {
    let session = Session::get();
    let ladder = move || session.ladder.get();
    let lines = move || ladder().map(|Ladder { lines, .. }| lines.into_iter().map(line).collect_view());
    let rungs = move || {
        ladder().map(|Ladder { rungs, .. }| {
            rungs.into_iter().map(|rung| self::rung(session, rung)).collect_view()
        })
    };
    let between = move || {
        ladder()
            .map(|Ladder { between, .. }| between.into_iter().map(|note| hand(session, note)).collect_view())
    };
    view! {
        <div class="rungs">
            <div aria-hidden="true">{lines}</div>
            <div role="group" aria-label="Partials">{rungs}</div>
            <div role="group" aria-label="Notes by hand or lip">{between}</div>
        </div>
    }
}

fn bottom(height: f64) -> String {
    format!("{:.3}%", height * 100.0)
}

fn line(line: Line) -> impl IntoView {
    let named = line.name.is_some();
    view! {
        <div class="line" class:named=named style:bottom=bottom(line.height)>
            <span>{line.name}</span>
        </div>
    }
}

fn rung(session: Session, rung: Rung) -> impl IntoView {
    let far = rung.drift.abs() >= 25.0;
    view! {
        <button
            class="rung"
            class:far=far
            class:selected=rung.selected
            style:bottom=bottom(rung.height)
            aria-label=rung.name
            on:click=move |_| session.enter_written(rung.written)
        >
            <b>{rung.partial.number()}</b>
            <span class="tube"></span>
            <small>{words::signed_cents(rung.drift)}</small>
        </button>
    }
}

fn hand(session: Session, note: Between) -> impl IntoView {
    view! {
        <button
            class="hand-note"
            class:selected=note.selected
            style:bottom=bottom(note.height)
            aria-label=note.name
            on:click=move |_| session.enter_written(note.written)
        >
            <span class="dots"></span>
            <small>{note.sign}</small>
        </button>
    }
}

/// How far the crook goes, by those who say so.
#[component]
fn Ranges() -> impl IntoView {
    let session = Session::get();
    let ranges = Memo::new(move |_| crate::state::ladder::ranges(&session.view.read()));
    view! {
        <details class="ranges">
            <summary>"How far this crook goes"</summary>
            <ul>
                <For each=move || ranges.get() key=Clone::clone let:range>
                    <li>{range}</li>
                </For>
            </ul>
            <p class="quiet">"A guide: sources, instruments and players differ. Range and endurance are for the player and a teacher to judge."</p>
        </details>
    }
}
