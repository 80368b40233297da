//! What became of an answer: right or not, which mistake, and the right way.

use crate::browser::clock;
use crate::components::live::{live, press};
use crate::state::practise::Practise;
use crate::state::session::Session;
use crate::words;
use leptos::prelude::*;

/// The button that goes on.
pub const NEXT: &str = "next-question";

/// The feedback on the last answer.
pub fn feedback() -> AnyView {
    let practise = Practise::get();
    let Session { names, .. } = Session::get();
    let said = live(move || {
        let (run, names) = (practise.run.get()?, names.get());
        let (question, (given, mark)) = (run.question()?, run.shown.as_ref()?);
        let right = words::practise::answer(&question.right, question, names);
        let (class, head) = match (given, mark.right) {
            (_, true) => ("verdict right", words::doing::right(&right)),
            (Some(given), false) => {
                let given = words::practise::answer(given, question, names);
                ("verdict wrong", words::doing::you_said(&given, &right))
            }
            (None, false) => ("verdict wrong", words::doing::it_is(&right)),
        };
        let sign = if mark.right { "✓" } else { "✗" };
        let mistake = given.as_ref().filter(|_| !mark.right).and_then(|given| {
            let said = words::mistakes::said(question, given, mark)?;
            Some(view! { <p class="mistakes">{said}</p> }.into_any())
        });
        let way = |line| view! { <li>{line}</li> }.into_any();
        let ways: Vec<AnyView> = words::right_way::right_way(question, names).into_iter().map(way).collect();
        Some(
            view! {
                <p class=class><span aria-hidden="true">{sign}</span>" "{head}</p>
                {mistake}
                <ul class="plain quiet">{ways}</ul>
            }
            .into_any(),
        )
    });
    let last = move || practise.run.map(|run| run.done.len() == run.questions.len()).unwrap_or_default();
    view! {
        <div class="feedback">
            <div role="status">{said}</div>
            <button class="strong" id=NEXT on:click=press(move || practise.go_on(clock::now()))>
                {live(move || if last() { words::doing::SEE_HOW_IT_WENT } else { words::doing::NEXT_QUESTION })}
            </button>
        </div>
    }
    .into_any()
}
