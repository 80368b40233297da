//! An exercise under way: the question, its page, the answer, the feedback.

use crate::browser::{audio, clock, focus};
use crate::components::live::{either, live, press, when};
use crate::components::practise::answer_area::answer_area;
use crate::components::practise::ending::ending;
use crate::components::practise::feedback::{NEXT, feedback};
use crate::components::practise::note_pad::PAD;
use crate::components::practise::question_page::question_page;
use crate::components::tones;
use crate::state::kept::{Derived, Watched};
use crate::state::practise::Practise;
use crate::state::practise::heard;
use crate::state::session::Session;
use crate::words;
use crookwise_practice::{Question, Time};
use leptos::prelude::*;

/// The screen: a button to begin, then question by question, then how it went.
pub fn doing() -> AnyView {
    let practise = Practise::get();
    let begun = move || practise.run.is_some();
    let over = move || begun() && practise.question.read().is_none();
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
    let about = live(move || words::practise::about(&practise.set.read()));
    let begin = press(move || practise.begin(None, clock::now()));
    view! {
        <section class="card exercise" aria-label="Exercise">
            <h2>"An exercise"</h2>
            <p>{about}</p>
            <div class="row"><button class="strong" id="begin" on:click=begin>"Begin"</button></div>
            <p class="quiet">{words::practise::NOTHING_IS_SENT}</p>
        </section>
    }
    .into_any()
}

fn asked() -> AnyView {
    let practise = Practise::get();
    let Session { names, .. } = Session::get();
    let shown =
        Derived::new(move || Option::as_ref(&practise.run.read()).is_some_and(|run| run.shown.is_some()));
    let prompt = live(move || {
        let (question, names) = (practise.question.read(), names.get());
        Option::as_ref(&question).map(|question| words::practise::prompt(question, names))
    });
    let number = live(move || {
        let run = practise.run.read();
        let run = Option::as_ref(&run)?;
        Some(format!("Question {} of {}", run.number()? + 1, run.questions.len()))
    });
    let helps = live(move || {
        let (run, names) = (practise.run.read(), names.get());
        let asked = Option::as_ref(&run).and_then(|run| Some((run.question()?, run.exercise.helps)));
        let helps = asked.map(|(question, helps)| words::practise::helps(question, helps, names));
        let item = |line: String| view! { <li>{line}</li> }.into_any();
        helps.unwrap_or_default().into_iter().map(item).collect::<Vec<_>>()
    });
    // The keyboard goes where the next thing is to be done.
    Effect::new(move |_| {
        let _ = practise.question.read();
        focus::to(if shown.get() { NEXT.into() } else { PAD.to_owned() });
    });
    let leave_out = move || {
        let act = press(move || practise.answer(None, clock::now()));
        view! { <button on:click=act>"Leave it out"</button> }.into_any()
    };
    view! {
        <section class="card exercise" aria-label="Question">
            <div class="row">
                <p class="quiet">{number}</p>
                {clock_view(practise, shown)}
                <div class="switches">
                    {when(move || !shown.get(), leave_out)}
                    <button on:click=press(move || practise.stop())>"Stop here"</button>
                </div>
            </div>
            <h2 class="prompt">{prompt}</h2>
            <ul class="plain helps">{helps}</ul>
            {question_page(practise.question, false)}
            {when(move || is_heard(Option::as_ref(&practise.question.read())), move || listen(practise.question))}
            {either(move || shown.get(), feedback, answer_area)}
        </section>
    }
    .into_any()
}

fn is_heard(question: Option<&Question>) -> bool {
    question.is_some_and(|question| question.heard.is_some())
}

/// The button that lets a question be heard; a sentence where the browser makes no sound.
pub(super) fn listen(question: Derived<Option<Question>>) -> AnyView {
    let Session { sounds, notices, .. } = Session::get();
    if !audio::is_there() {
        return view! { <p>{words::NO_SOUND}</p> }.into_any();
    }
    let act = press(move || {
        let question = question.read_untracked();
        tones::play(sounds, notices, Option::as_ref(&question).map(heard::tones).unwrap_or_default());
    });
    view! {
        <div class="row">
            <button class="strong" on:click=act><span class="triangle" aria-hidden="true"></span>"Listen"</button>
        </div>
    }
    .into_any()
}

/// What is left of the time; when it is over the question is left out, or all that is left.
fn clock_view(practise: Practise, shown: Derived<bool>) -> Option<AnyView> {
    let run = practise.run.read_untracked();
    let time = Option::as_ref(&run).map_or(Time::Free, |run| run.exercise.time);
    let begun = clock::now();
    let left = Watched::new(None::<u32>);
    let rest = move || match time {
        Time::Free => None,
        Time::Each(seconds) => {
            Some(f64::from(seconds) * 1000.0 - (clock::now() - practise.asked_at.get_untracked()))
        }
        Time::All(seconds) => Some(f64::from(seconds) * 1000.0 - (clock::now() - begun)),
    };
    (time != Time::Free).then(|| {
        clock::tick(move || {
            let Some(rest) = rest().filter(|_| !shown.get_untracked()) else { return };
            left.set(Some((rest.max(0.0) / 1000.0).ceil() as u32));
            if rest <= 0.0 {
                match time {
                    Time::All(_) => practise.stop(),
                    _ => practise.answer(None, clock::now()),
                }
            }
        });
        let text = live(move || left.read().map(|seconds| format!("{seconds} s left")));
        view! { <p class="time" role="timer">{text}</p> }.into_any()
    })
}
