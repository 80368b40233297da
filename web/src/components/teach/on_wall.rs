//! One question for the whole class: the answer is hidden until it is revealed by a key, a clicker or a tap.

use crate::browser::{audio, clock, field, screen};
use crate::components::link_card::code_alone;
use crate::components::live::{live, press, when};
use crate::components::practise::doing::listen;
use crate::components::practise::question_page::{Standing, question_page};
use crate::components::tones;
use crate::state::kept::{Derived, Watched};
use crate::state::practise::on_wall::OnWall;
use crate::state::practise::picture::right_on_staff;
use crate::state::practise::wall_clock::WallClock;
use crate::state::practise::{Practise, Screen, heard, paper};
use crate::state::session::Session;
use crate::words;
use crookwise_practice::{Kind, Question, Time};
use crookwise_share::Link;
use crookwise_share::practise::{PractiseLink, SentExercise};
use leptos::ev::KeyboardEvent;
use leptos::prelude::*;
use std::sync::Arc;

/// Height of the staff with the right answer, in pixels.
const WALL_STAFF: f64 = 260.0;

/// More staves than these have the whole height.
const MANY: usize = 2;

/// The screen for the wall.
pub fn on_wall() -> AnyView {
    let practise = Practise::get();
    let Session { names, speaker, notices, .. } = Session::get();
    let questions = Derived::new(move || practise.exercise.read().questions().unwrap_or_default());
    let count = move || questions.read().len();
    let question = Derived::new(move || questions.read().get(practise.on_wall.read().at).cloned());
    let prompt = live(move || question.map(|one| words::practise::prompt(one, names.get())));
    let on_paper = Derived::new(move || paper::numbers(&questions.read()));
    let number = live(move || {
        let at = practise.on_wall.read().at;
        let other = on_paper.read().get(at).copied().filter(|number| *number != at + 1);
        let on_paper = other.map(words::doing::on_paper).unwrap_or_default();
        format!("{}{on_paper}", words::doing::one_of(at + 1, count()))
    });
    let stood = Watched::new(WallClock::new(clock::now()));
    let code = Watched::new(false);
    let show = move |next: OnWall| {
        let heard = next.revealed && !practise.on_wall.get_untracked().revealed;
        practise.show_on_wall(next);
        code.set(false);
        stood.set(stood.get_untracked().restarted(clock::now()));
        let tones = untrack(|| question.map(heard::right)).unwrap_or_default();
        if heard && !tones.is_empty() && audio::is_there() {
            tones::play(speaker, notices, tones);
        }
    };
    // Nobody can think about a question that the code covers.
    let show_code = move || {
        let covered = !code.get_untracked();
        code.set(covered);
        stood.set(stood.get_untracked().covered(covered, clock::now()));
    };
    let step = move |places: isize| {
        let now = practise.on_wall.get_untracked();
        let at = now.at.saturating_add_signed(places).min(untrack(count).saturating_sub(1));
        show(OnWall { at, revealed: false });
    };
    let on = move || {
        let now = practise.on_wall.get_untracked();
        show(now.next(untrack(count)));
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
            // The code goes first.
            "Escape" if code.get_untracked() => show_code(),
            "Escape" => leave(),
            _ => return,
        }
        event.prevent_default();
    });
    let timer = match practise.exercise.read_untracked().time {
        Time::Each(seconds) => {
            let left = Watched::new(None::<u32>);
            let look = move || {
                let stood = stood.get_untracked();
                let waited = stood.waited(clock::now());
                let now = practise.on_wall.get_untracked();
                let rest = now.rest(waited, seconds, untrack(count));
                left.set(rest.map(|rest| (rest / 1000.0).ceil() as u32));
                let next = now.by_the_clock(waited, seconds, untrack(count));
                if let Some(next) = next.filter(|_| !stood.is_held()) {
                    show(next);
                }
            };
            clock::tick(look);
            Some(wall_clock(left, stood, look))
        }
        _ => None,
    };
    // Many staves need the height of the window: what is chosen and answered stands beside them.
    let beside = live(move || {
        let many = question.map(|one| one.passage.staves().len() > MANY).unwrap_or_default();
        if many { "beside-staves" } else { "" }
    });
    let is_heard = move || question.map(|one| one.heard.is_some()).unwrap_or_default();
    let revealed = live(move || {
        let now = practise.on_wall.get();
        match (now.revealed, now.is_last(count())) {
            (false, _) => words::doing::REVEAL,
            (true, false) => words::doing::NEXT_QUESTION,
            (true, true) => words::doing::FROM_THE_FIRST,
        }
    });
    view! {
        <div class="wall practise-wall">
            <div class="wall-bar" role="group" aria-label=words::doing::ON_THE_WALL>
                <button aria-label=words::doing::STEP_BACK on:click=press(move || step(-1))>"◀"</button>
                <button on:click=press(on)>{revealed}</button>
                <button on:click=press(leave)>{words::doing::LEAVE_THE_WALL}</button>
                <button aria-pressed=live(move || Some(code.get().to_string())) on:click=press(show_code)>
                    {words::doing::CODE_FOR_THE_CLASS}
                </button>
                <p class="quiet">{number}</p>
                {timer}
            </div>
            {when(move || code.get(), move || code_for_the_class(practise))}
            <section class=beside aria-label=words::doing::QUESTION hidden=live(move || code.get())>
                <h1 class="prompt">{prompt}</h1>
                {question_page(question, Standing::OnWall)}
                {when(is_heard, move || listen(question))}
                {below(practise, question)}
            </section>
        </div>
    }
    .into_any()
}

/// What is left of the time for what is shown, and the button that holds the clock.
fn wall_clock(left: Watched<Option<u32>>, stood: Watched<WallClock>, look: impl Fn() + 'static) -> AnyView {
    let text = live(move || left.get().map(words::doing::seconds_left));
    let pressed = live(move || Some(stood.read().is_pressed().to_string()));
    let turn = press(move || {
        stood.set(stood.get_untracked().turned(clock::now()));
        // What is held is what is told, not what was told a moment before.
        look();
    });
    view! {
        <p class="time" role="timer">{text}</p>
        <button aria-pressed=pressed on:click=turn>{words::doing::HOLD_THE_CLOCK}</button>
    }
    .into_any()
}

/// The link of the exercise as a code that is scanned from the benches.
fn code_for_the_class(practise: Practise) -> AnyView {
    let link = move || Link::Practise(PractiseLink::Do(Some(SentExercise::of(&practise.exercise.read()))));
    view! {
        <section class="wall-code" aria-label=words::doing::CODE_FOR_THE_CLASS>
            <h1 class="unseen">{words::doing::CODE_FOR_THE_CLASS}</h1>
            {code_alone(Arc::new(link))}
        </section>
    }
    .into_any()
}

/// Under the question: what there is to choose from; once it is revealed, the answer, how it follows, and its staff.
fn below(practise: Practise, question: Derived<Option<Question>>) -> AnyView {
    let Session { names, .. } = Session::get();
    let revealed = Derived::new(move || practise.on_wall.read().revealed);
    let choices = live(move || {
        let Some(question) = question.get() else { return Vec::new() };
        let item = |choice| {
            let text = words::practise::answer(choice, &question, names.get());
            let right = revealed.get() && *choice == question.right;
            let (class, mark) = if right { ("sea", "✓ ") } else { ("", "") };
            view! { <li class=class>{mark}{text}</li> }.into_any()
        };
        question.choices.iter().map(item).collect::<Vec<_>>()
    });
    let answer = live(move || {
        let text = question.map(|one| words::practise::answer(&one.right, one, names.get()));
        if revealed.get() { text } else { None }
    });
    let way = live(move || {
        let ways = question.map(|one| words::right_way::right_way(one, names.get()));
        // Of two players both are told; of one note its first way, which is by interval.
        let shown = if question.map(|one| one.kind == Kind::Players).unwrap_or_default() { 2 } else { 1 };
        Some(ways.filter(|_| revealed.get())?.into_iter().take(shown).collect::<Vec<_>>().join(" "))
    });
    let staff = live(move || {
        let svg = question.and_then(|one| right_on_staff(one, WALL_STAFF)).filter(|_| revealed.get());
        svg.map(|svg| view! { <div class="picture" aria-hidden="true" inner_html=svg></div> }.into_any())
    });
    view! {
        <div class="wall-below">
            <ol class="wall-choices">{choices}</ol>
            <div class="wall-answer" role="status">
                <p class="big sea">{answer}</p>
                <p>{way}</p>
            </div>
            {staff}
        </div>
    }
    .into_any()
}
