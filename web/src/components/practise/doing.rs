//! An exercise under way: the question, its page, the answer, the feedback.

use crate::browser::{audio, clock, focus, screen};
use crate::components::live::{either, live, press, when};
use crate::components::practise::answer_area::{ASKED, answer_area};
use crate::components::practise::ending::{WENT, ending};
use crate::components::practise::feedback::{NEXT, button_on, feedback};
use crate::components::practise::note_pad::PAD;
use crate::components::practise::question_page::{Standing, question_page};
use crate::components::tones;
use crate::state::kept::{Derived, Watched, follow};
use crate::state::practise::Practise;
use crate::state::practise::heard;
use crate::state::session::Session;
use crate::words;
use crookwise_practice::{Question, Time};
use leptos::prelude::*;

/// The screen: a button to begin, then question by question, then how it went.
pub fn doing() -> AnyView {
    let practise = Practise::get();
    let begun = move || practise.answering.run.is_some();
    let over = move || begun() && practise.answering.question.read().is_none();
    // The keyboard goes where the next thing is to be done or to be read.
    follow(move || {
        if !begun() {
            return;
        }
        focus::to(if over() {
            WENT.to_owned()
        } else if practise.answering.is_shown() {
            NEXT.to_owned()
        } else {
            let _ = practise.answering.question.read();
            PAD.to_owned()
        });
    });
    view! {
        {when(move || !begun(), beginning)}
        {when(move || begun() && !over(), asked)}
        {when(over, ending)}
    }
    .into_any()
}

/// What is to come.
fn beginning() -> AnyView {
    let practise = Practise::get();
    let exercise = practise.exercise;
    let title =
        live(move || exercise.with(|one| one.own_title().unwrap_or(words::doing::AN_EXERCISE).to_owned()));
    let about = live(move || words::titles::about(&exercise.read()));
    let begin = press(move || practise.begin(clock::now()));
    view! {
        <section class="card exercise" aria-label=words::doing::EXERCISE>
            <h2>{title}</h2>
            <p>{about}</p>
            {mended_note(practise, "")}
            <div class="row"><button class="strong" id="begin" on:click=begin>{words::doing::BEGIN}</button></div>
            <p class="quiet">{words::practise::NOTHING_IS_SENT}</p>
        </section>
    }
    .into_any()
}

/// What was mended in the questions of an old link, and what that means; nothing where they are what they were.
pub fn mended_note(practise: Practise, meaning: &'static str) -> AnyView {
    let said = Derived::new(move || words::mended::mended(&practise.exercise.read().mended()));
    let note = move || view! { <p class="quiet">{live(move || said.get())} " " {meaning}</p> }.into_any();
    when(move || said.is_some(), note).into_any()
}

fn asked() -> AnyView {
    let practise = Practise::get();
    let Session { names, .. } = Session::get();
    let shown = Derived::new(move || practise.answering.is_shown());
    screen::on_escape(move || {
        practise.stop();
        true
    });
    let prompt =
        live(move || practise.answering.question.map(|one| words::practise::prompt(one, names.get())));
    let helps = live(move || {
        let helps = practise
            .answering
            .run
            .and_then(|run| Some(words::practise::helps(run.question()?, run.exercise.helps, names.get())));
        let item = |line: String| view! { <li>{line}</li> }.into_any();
        helps.unwrap_or_default().into_iter().map(item).collect::<Vec<_>>()
    });
    let told = move || feedback(practise.answering, next(practise));
    view! {
        <section class="exercise under-way" aria-label=words::doing::QUESTION>
            {where_it_is(practise, shown)}
            <div class="asked-page" id=ASKED>
                <h2 class="prompt">{prompt}</h2>
                <ul class="plain helps">{helps}</ul>
                {question_page(practise.answering.question, Standing::Alone)}
                {when(move || practise.answering.question.map(is_heard).unwrap_or_default(), move || listen(practise.answering.question))}
            </div>
            <div class="answering">{either(move || shown.get(), told, move || answer_area(practise.answering))}</div>
        </section>
    }
    .into_any()
}

/// The button that goes on to the next question, behind the last one to how it went.
fn next(practise: Practise) -> AnyView {
    let run = practise.answering.run;
    let last = move || run.map(|run| run.done.len() == run.questions.len()).unwrap_or_default();
    let name = move || if last() { words::doing::SEE_HOW_IT_WENT } else { words::doing::NEXT_QUESTION };
    button_on(name, move || practise.answering.go_on(clock::now()))
}

/// One line: which question of what it is, the time, and the way out.
fn where_it_is(practise: Practise, shown: Derived<bool>) -> AnyView {
    let number = live(move || {
        practise
            .answering
            .run
            .and_then(|run| Some(words::doing::one_of(run.number()? + 1, run.questions.len())))
    });
    let title = live(move || {
        practise.answering.run.map(|run| {
            if run.repetition {
                words::doing::WHAT_WAS_MISSED.to_owned()
            } else {
                words::titles::heading(&run.exercise)
            }
        })
    });
    view! {
        <div class="where-it-is">
            <p class="quiet"><span class="word">{words::doing::QUESTION} " "</span>{number} " · " <span>{title}</span></p>
            {clock_view(practise, shown)}
            <button aria-label=words::doing::STOP_HERE on:click=press(move || practise.stop())>
                <span class="said-wide">{words::doing::STOP_HERE}</span>
                <span class="said-close" aria-hidden="true">"✕"</span>
            </button>
        </div>
    }
    .into_any()
}

fn is_heard(question: &Question) -> bool {
    question.heard.is_some()
}

/// The button that lets a question be heard; a sentence where the browser makes no sound.
pub fn listen(question: Derived<Option<Question>>) -> AnyView {
    let Session { speaker, notices, .. } = Session::get();
    if !audio::is_there() {
        return view! { <p>{words::NO_SOUND}</p> }.into_any();
    }
    let act = press(move || {
        let tones = untrack(|| question.map(heard::tones)).unwrap_or_default();
        tones::play(speaker, notices, tones);
    });
    view! {
        <div class="row">
            <button class="strong" on:click=act><span class="triangle" aria-hidden="true"></span>{words::doing::LISTEN}</button>
        </div>
    }
    .into_any()
}

/// What is left of the time; when it is over the question is left out, or all that is left.
fn clock_view(practise: Practise, shown: Derived<bool>) -> Option<AnyView> {
    let time = untrack(|| practise.answering.run.map(|run| run.exercise.time)).unwrap_or(Time::Free);
    let left = Watched::new(None::<u32>);
    let rest = move || match time {
        Time::Free => None,
        Time::Each(seconds) => {
            Some(f64::from(seconds) * 1000.0 - (clock::now() - practise.answering.asked_at.get_untracked()))
        }
        Time::All(seconds) => {
            Some(f64::from(seconds) * 1000.0 - (clock::now() - practise.begun_at.get_untracked()))
        }
    };
    (time != Time::Free).then(|| {
        clock::tick(move || {
            let Some(rest) = rest().filter(|_| !shown.get_untracked()) else { return };
            left.set(Some((rest.max(0.0) / 1000.0).ceil() as u32));
            if rest <= 0.0 {
                match time {
                    Time::All(_) => practise.stop(),
                    _ => practise.answering.answer(None, clock::now()),
                }
            }
        });
        let text = live(move || left.get().map(words::doing::seconds_left));
        view! { <p class="time" role="timer">{text}</p> }.into_any()
    })
}
