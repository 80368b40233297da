//! What became of an answer: right or not, which mistake, and the right way.

use crate::browser::{audio, clock};
use crate::components::live::{hear, live, press};
use crate::components::tones;
use crate::state::kept::Watched;
use crate::state::practise::answering::Answering;
use crate::state::practise::asking::answer_clef;
use crate::state::practise::heard;
use crate::state::practise::picture::{AnswerStaff, COMPARED};
use crate::state::session::Session;
use crate::words::{self, Names};
use crookwise_practice::{Answer, Question};
use crookwise_theory::Pitch;
use leptos::ev::MouseEvent;
use leptos::prelude::*;

/// Pixels of a staff space of the two notes beside each other.
const SCALE: f64 = 9.0;

/// The button that goes on.
pub const NEXT: &str = "next-question";

/// The button that goes on. It comes to stand under the finger that answered: a second tap of that finger shall not skip what
/// became of the answer, so for so long the button takes keys alone and says that it is busy.
pub fn button_on(
    name: impl FnMut() -> &'static str + Send + 'static,
    mut act: impl FnMut() + 'static,
) -> AnyView {
    let busy = Watched::new(true);
    clock::after_a_second_tap(move || busy.set(false));
    let pressed = hear(move |event: MouseEvent| {
        let by_key = event.detail() == 0;
        if by_key || !busy.get_untracked() {
            act();
        }
    });
    let is_busy = live(move || busy.get().then_some("true"));
    view! { <button class="strong" id=NEXT aria-busy=is_busy on:click=pressed>{live(name)}</button> }
        .into_any()
}

/// The feedback on the last answer, and under it the button that goes on.
pub fn feedback(answering: Answering, on: AnyView) -> AnyView {
    let Session { names, .. } = Session::get();
    let said = live(move || {
        let (run, names) = (answering.run.get()?, names.get());
        let (question, (given, mark)) = (run.question()?, run.shown.as_ref()?);
        let right = words::practise::answer_in_sentence(&question.right, question, names);
        // What was left out is no mistake.
        let (class, sign, head) = match (given, mark.right) {
            (_, true) => ("verdict right", "✓", words::doing::right(&right)),
            (Some(given), false) => {
                let given = words::practise::answer_in_sentence(given, question, names);
                ("verdict wrong", "✗", words::doing::you_said(&given, &right))
            }
            (None, false) => ("verdict", "–", words::doing::left_out(&right)),
        };
        let mistake = given.as_ref().filter(|_| !mark.right).and_then(|given| {
            let said = words::mistakes::said(question, given, mark)?;
            Some(view! { <p class="mistakes">{said}</p> }.into_any())
        });
        let beside = given
            .as_ref()
            .filter(|_| !mark.right)
            .and_then(|given| Some(compared(question, question.beside(given)?, names)));
        let way = |line| view! { <li>{line}</li> }.into_any();
        let ways: Vec<AnyView> = words::right_way::right_way(question, names).into_iter().map(way).collect();
        Some(
            view! {
                <p class=class><span aria-hidden="true">{sign}</span>" "{head}</p>
                {mistake}
                {beside}
                <ul class="plain quiet">{ways}</ul>
            }
            .into_any(),
        )
    });
    view! {
        <div class="feedback">
            <div class="explained" role="group" aria-label=words::doing::WHAT_BECAME_OF_IT tabindex="0">
                <div role="status">{said}</div>
            </div>
            {on}
        </div>
    }
    .into_any()
}

/// The note that was given and the right one: on one staff, and to be heard.
pub(super) fn compared(question: &Question, (given, right): (Pitch, Pitch), names: Names) -> AnyView {
    let Session { speaker, notices, .. } = Session::get();
    // Both are to be read, however far from each other.
    let clef = answer_clef(question, &[given, right]);
    // Of two players it is said whose notes these are.
    let at = match &question.right {
        Answer::Notes(notes) if notes.len() > 1 => notes.iter().position(|note| *note == right),
        _ => None,
    };
    let whose = at.and_then(|at| question.players_read().get(at).map(|(number, _)| *number));
    let whose = whose.map(|number| format!("{} ", words::practise::player_mark(number))).unwrap_or_default();
    let name = format!("{whose}{}", words::doing::beside(&names.note(given), &names.note(right)));
    let hear = |label: &'static str, pitch: Pitch| {
        let heard = heard::answered(question, pitch);
        let act = press(move || tones::play(speaker, notices, heard.clone()));
        let sign = view! { <span class="triangle" aria-hidden="true"></span> }.into_any();
        audio::is_there().then(|| view! { <button on:click=act>{sign}{label}</button> }.into_any())
    };
    let width = format!("{COMPARED}px");
    view! {
        <div class="compared">
            <div role="img" aria-label=name>
                <div class="picture" inner_html=AnswerStaff::compared(clef, given, right, SCALE)></div>
                <p class="under-notes" style=("--column", width) aria-hidden="true">
                    <span>{format!("{whose}{}", words::doing::YOURS)}</span>
                    <span class="sea">{words::doing::IT_IS_RIGHT}</span>
                </p>
            </div>
            <div class="tools">
                {hear(words::doing::HEAR_YOURS, given)}
                {hear(words::doing::HEAR_IT_RIGHT, right)}
            </div>
        </div>
    }
    .into_any()
}
