//! One question for the whole class: the answer is hidden until it is revealed by a key, a clicker or a tap.

use crate::browser::{clock, field, screen};
use crate::components::live::{live, press, when};
use crate::components::practise::doing::listen;
use crate::components::practise::question_page::{Standing, question_page};
use crate::state::kept::{Derived, Watched};
use crate::state::practise::{OnWall, Practise, Screen};
use crate::state::session::Session;
use crate::words;
use crookwise_practice::Time;
use leptos::ev::KeyboardEvent;
use leptos::prelude::*;

/// The screen for the wall.
pub fn on_wall() -> AnyView {
    let practise = Practise::get();
    let Session { names, .. } = Session::get();
    let questions = Derived::new(move || practise.exercise.read().questions().unwrap_or_default());
    let count = move || questions.read().len();
    let question = Derived::new(move || questions.read().get(practise.on_wall.read().at).cloned());
    let prompt = live(move || question.map(|one| words::practise::prompt(one, names.get())));
    let number = live(move || format!("{} of {}", practise.on_wall.read().at + 1, count()));
    let answer = live(move || {
        let text = question.map(|one| words::practise::answer(&one.right, one, names.get()));
        if practise.on_wall.read().revealed { text } else { None }
    });
    let choices = live(move || {
        let Some(question) = question.get() else { return Vec::new() };
        let item = |choice| {
            let text = words::practise::answer(choice, &question, names.get());
            view! { <li>{text}</li> }.into_any()
        };
        question.choices.iter().map(item).collect::<Vec<_>>()
    });
    let asked_at = Watched::new(clock::now());
    let step = move |places: isize| {
        let now = practise.on_wall.get_untracked();
        let at = now.at.saturating_add_signed(places).min(untrack(count).saturating_sub(1));
        practise.show_on_wall(OnWall { at, revealed: false });
        asked_at.set(clock::now());
    };
    let on = move || {
        let now = practise.on_wall.get_untracked();
        if now.revealed { step(1) } else { practise.show_on_wall(OnWall { revealed: true, ..now }) }
    };
    let leave = move || {
        screen::give_back();
        practise.go(Screen::Set);
    };
    screen::on_key(move |event: KeyboardEvent| {
        let presses = matches!(event.key().as_str(), "Enter" | " ") && field::is_button(&event);
        if event.default_prevented() || presses {
            return;
        }
        match event.key().as_str() {
            "ArrowRight" | "PageDown" | " " | "Enter" => on(),
            "ArrowLeft" | "PageUp" => step(-1),
            "Escape" => leave(),
            _ => return,
        }
        event.prevent_default();
    });
    if let Time::Each(seconds) = practise.exercise.read_untracked().time {
        clock::tick(move || {
            let waited = clock::now() - asked_at.get_untracked();
            let now = practise.on_wall.get_untracked();
            if waited >= f64::from(seconds) * 1000.0 && !now.revealed {
                practise.show_on_wall(OnWall { revealed: true, ..now });
            }
        });
    }
    let heard = move || question.map(|one| one.heard.is_some()).unwrap_or_default();
    let revealed = live(move || {
        if practise.on_wall.read().revealed { words::doing::NEXT_QUESTION } else { words::doing::REVEAL }
    });
    view! {
        <div class="wall practise-wall">
            <div class="wall-bar" role="group" aria-label=words::doing::ON_THE_WALL>
                <button aria-label=words::doing::STEP_BACK on:click=press(move || step(-1))>"◀"</button>
                <button on:click=press(on)>{revealed}</button>
                <button on:click=press(leave)>{words::doing::LEAVE_THE_WALL}</button>
                <p class="quiet">{number}</p>
            </div>
            <section aria-label=words::doing::QUESTION>
                <h1 class="prompt">{prompt}</h1>
                {question_page(question, Standing::OnWall)}
                {when(heard, move || listen(question))}
                <ol class="wall-choices">{choices}</ol>
                <p class="big sea" role="status">{answer}</p>
            </section>
        </div>
    }
    .into_any()
}
