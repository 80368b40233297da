//! How an exercise went.

use crate::browser::{address, clipboard, clock, field};
use crate::components::live::{hear, live, press};
use crate::state::kept::Cell;
use crate::state::practise::Practise;
use crate::state::practise::run::{Outcome, Run};
use crate::state::practise::sharing;
use crate::state::session::Session;
use crate::words;
use crookwise_share::practise::PractiseLink;
use leptos::ev::Event;
use leptos::prelude::*;
use leptos::task::spawn_local_scoped;

/// How it went, what was missed, and a code for the teacher.
pub fn ending() -> AnyView {
    let practise = Practise::get();
    let session = Session::get();
    let name = Cell::new(String::new());
    let copied = Cell::new(None::<bool>);
    let run = move || Option::clone(&practise.run.get());
    let head = live(move || {
        run().map(|run| words::practise::score(run.right(), run.questions.len(), run.usual_ms()))
    });
    let missed = live(move || {
        let names = *session.names.get();
        run().map(|run| missed(&run, names)).unwrap_or_default()
    });
    let tag = clock::chance();
    let code = move || run().map(|run| sharing::code(&run, tag, &name.get())).unwrap_or_default();
    let copy = press(move || {
        let text =
            untrack(|| format!("{}\n{}", code(), address::with_hash(&PractiseLink::Class(code()).encode())));
        spawn_local_scoped(async move { copied.set(Some(clipboard::copy(&text).await)) });
    });
    let again = press(move || practise.begin(None, clock::now()));
    let others = press(move || {
        let mut set = crookwise_practice::Exercise::clone(&practise.set.get_untracked());
        set.seed = clock::chance();
        practise.set.set(set);
        practise.begin(None, clock::now());
    });
    view! {
        <section class="card exercise" aria-label="How it went">
            <h2 class="prompt" id="answer" tabindex="-1">{head}</h2>
            <ul class="plain missed">{missed}</ul>
            <div class="row">
                <button class="strong" on:click=others>"Other questions of this kind"</button>
                <button on:click=again>"The same once more"</button>
            </div>
            <h3>"For a teacher"</h3>
            <p class="quiet">{words::practise::CODE}</p>
            <div class="settings">
                <label class="field">
                    <span>"Your name, if you wish"</span>
                    <input
                        aria-label="Your name, if you wish"
                        type="text"
                        maxlength="40"
                        autocomplete="off"
                        on:input=hear(move |event: Event| name.set(field::text(&event)))
                    />
                </label>
                <button on:click=copy>"Copy code and link"</button>
                <span role="status">{live(move || words::copied(*copied.get()))}</span>
            </div>
            <p class="code">{live(code)}</p>
        </section>
    }
    .into_any()
}

/// What was not right, question by question.
fn missed(run: &Run, names: words::Names) -> Vec<AnyView> {
    let wrong = run.questions.iter().zip(&run.done).enumerate();
    wrong
        .filter(|(_, (_, done))| done.outcome != Outcome::Right)
        .map(|(at, (question, done))| {
            let right = words::practise::answer(&question.right, question, names);
            let what = words::practise::kind(question.kind);
            let said: Vec<&str> = match &done.outcome {
                Outcome::Wrong(mistakes) => {
                    mistakes.iter().map(|mistake| words::mistakes::short(*mistake)).collect()
                }
                _ => vec!["left out"],
            };
            let page = words::practise::page(question, names);
            view! {
                <li>
                    <b>{format!("{}. {what}: {right}", at + 1)}</b> " " <span class="quiet">{page}</span> " "
                    <span>{said.join(", ")}</span>
                </li>
            }
            .into_any()
        })
        .collect()
}
