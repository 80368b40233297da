//! How an exercise went.

use crate::browser::{address, clock, field};
use crate::components::copy_button::copy_button;
use crate::components::live::{hear, live, press, when};
use crate::state::kept::Watched;
use crate::state::practise::run::{Run, Verdict};
use crate::state::practise::sharing;
use crate::state::practise::{Practise, Screen};
use crate::state::session::Session;
use crate::words;
use crookwise_share::Link;
use crookwise_share::practise::PractiseLink;
use leptos::ev::Event;
use leptos::prelude::*;

/// The head of it, to which the keyboard goes.
pub const WENT: &str = "how-it-went";

/// How it went, what was missed, and a code for the teacher.
pub fn ending() -> AnyView {
    let practise = Practise::get();
    let Session { names, .. } = Session::get();
    let run = move || practise.run.get();
    let head = live(move || {
        run().map(|run| words::practise::score(run.right(), run.questions.len(), run.usual_ms()))
    });
    let missed = live(move || {
        let names = names.get();
        run().map(|run| missed(&run, names)).unwrap_or_default()
    });
    let go_on = move || {
        if practise.repeating.get() {
            let back = press(move || practise.go(Screen::Record));
            return vec![
                view! { <button class="strong" on:click=back>{words::doing::BACK_TO_MY_RECORD}</button> }
                    .into_any(),
            ];
        }
        let again = press(move || practise.begin(clock::now()));
        let others = press(move || {
            let mut set = practise.exercise.get_untracked();
            set.seed = clock::chance();
            practise.set(&set);
            practise.begin(clock::now());
        });
        vec![
            view! { <button class="strong" on:click=others>{words::doing::OTHER_QUESTIONS_OF_THIS_KIND}</button> }
                .into_any(),
            view! { <button on:click=again>{words::doing::THE_SAME_ONCE_MORE}</button> }.into_any(),
        ]
    };
    view! {
        <section class="card exercise" aria-label=words::doing::HOW_IT_WENT>
            <h2 class="prompt" id=WENT tabindex="-1">{head}</h2>
            <ul class="plain missed">{missed}</ul>
            <div class="row">{live(go_on)}</div>
            {when(move || !practise.repeating.get(), move || for_a_teacher(practise))}
        </section>
    }
    .into_any()
}

/// The code, with the name if the student wishes, and a link that brings it.
fn for_a_teacher(practise: Practise) -> AnyView {
    let name = Watched::new(String::new());
    let code = move || practise.run.map(|run| sharing::code(run, &name.read())).unwrap_or_default();
    let (copy, said) = copy_button("", words::doing::COPY_CODE_AND_LINK, move || {
        format!("{}\n{}", code(), address::with_hash(&Link::Practise(PractiseLink::Class(code())).encode()))
    });
    view! {
            <h3>{words::doing::FOR_A_TEACHER}</h3>
            <p class="quiet">{words::practise::CODE}</p>
            <div class="settings">
                <label class="field">
                    <span>{words::doing::YOUR_NAME_IF_YOU_WISH}</span>
                    <input
                        aria-label=words::doing::YOUR_NAME_IF_YOU_WISH
                        type="text"
                        maxlength="40"
                        autocomplete="off"
                        on:input=hear(move |event: Event| name.set(field::text(&event)))
                    />
                </label>
                {copy}
                {said}
            </div>
            <p class="code">{live(code)}</p>
    }
    .into_any()
}

/// What was not right, question by question.
fn missed(run: &Run, names: words::Names) -> Vec<AnyView> {
    let wrong = run.questions.iter().zip(&run.done).enumerate();
    wrong
        .filter(|(_, (_, done))| done.outcome != Verdict::Right)
        .map(|(at, (question, done))| {
            let right = words::practise::answer(&question.right, question, names);
            let what = words::practise::kind(question.kind);
            let said = match &done.outcome {
                Verdict::Wrong(missed) => words::results::missed(missed),
                _ => words::doing::LEFT_OUT.to_owned(),
            };
            let page = words::practise::page(question, names);
            view! {
                <li>
                    <b>{format!("{}. {what}: {right}", at + 1)}</b> " " <span class="quiet">{page}</span> " "
                    <span>{said}</span>
                </li>
            }
            .into_any()
        })
        .collect()
}
