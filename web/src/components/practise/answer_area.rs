//! Where a question is answered.

use crate::browser::clock;
use crate::components::live::{live, press};
use crate::components::practise::note_pad::{PAD, answer, note_pad};
use crate::state::practise::Practise;
use crate::state::practise::asking::{AnswerWay, FIRST_OR_SECOND, PARTIALS};
use crate::state::session::Session;
use crate::words;
use crookwise_practice::Answer;
use leptos::prelude::*;

/// The buttons or the pad of the question.
pub fn answer_area() -> AnyView {
    let practise = Practise::get();
    let area = live(move || match &practise.way.get()? {
        AnswerWay::Choices(choices) => Some(offered(choices.clone(), "choices")),
        AnswerWay::Notes { clef, most } => {
            let (clef, most) = (*clef, *most);
            Some(with_button(note_pad(clef, most)))
        }
        AnswerWay::Partials => {
            let numbers = PARTIALS.map(|number| Answer::Partial(Some(number)));
            Some(offered(numbers.chain([Answer::Partial(None)]).collect(), "choices numbers"))
        }
        AnswerWay::Degrees => Some(with_button(degree_pad())),
        AnswerWay::Columns(columns) => {
            let columns = (0..*columns).filter_map(|column| u8::try_from(column).ok());
            Some(offered(columns.map(Answer::Column).collect(), "choices numbers"))
        }
        AnswerWay::Staves(staves) => {
            let staves = (0..staves.len()).filter_map(|staff| u8::try_from(staff).ok());
            Some(offered(staves.map(Answer::Staff).collect(), "choices"))
        }
        AnswerWay::FirstOrSecond => Some(offered(FIRST_OR_SECOND.map(Answer::Which).into(), "choices")),
    });
    view! { <div class="answer-area">{area}</div> }.into_any()
}

/// One press answers.
fn offered(choices: Vec<Answer>, class: &'static str) -> AnyView {
    let practise = Practise::get();
    let Session { names, .. } = Session::get();
    let button = |(at, choice): (usize, Answer)| {
        let shown = choice.clone();
        let name = live(move || {
            practise
                .question
                .map(|question| words::capital(&words::practise::answer(&shown, question, names.get())))
        });
        let act = press(move || practise.answer(Some(choice.clone()), clock::now()));
        // The first is where the keyboard goes with the question.
        let id = (at == 0).then_some(PAD);
        view! { <button id=id on:click=act>{name}</button> }.into_any()
    };
    let buttons: Vec<AnyView> = choices.into_iter().enumerate().map(button).collect();
    view! { <div class=class role="group" aria-label=words::doing::YOUR_ANSWER>{buttons}</div> }.into_any()
}

/// A pad and the button that gives its answer.
fn with_button(pad: AnyView) -> AnyView {
    let practise = Practise::get();
    let ready = move || {
        let draft = practise.draft.read();
        practise.way.and_then(|way| draft.answer(way)).is_some()
    };
    view! {
        {pad}
        <button
            class="strong"
            aria-disabled=live(move || (!ready()).then_some("true"))
            on:click=press(move || answer(practise))
        >
            {words::doing::ANSWER}
        </button>
    }
    .into_any()
}

/// A degree: a sign and a number.
fn degree_pad() -> AnyView {
    let practise = Practise::get();
    let sign = |name: &'static str, face: &'static str, alter: i32| {
        let pressed = live(move || Some((practise.draft.read().alter == alter).to_string()));
        let act = press(move || practise.draw(|draft| draft.sign(alter)));
        view! { <button class="sign-button" aria-label=name aria-pressed=pressed on:click=act>{face}</button> }
            .into_any()
    };
    let number = |number: u8| {
        let pressed = live(move || Some((practise.draft.read().number == Some(number)).to_string()));
        let act = press(move || practise.draw(|draft| draft.number = Some(number)));
        let id = (number == 1).then_some(PAD);
        view! { <button class="letter" id=id aria-pressed=pressed on:click=act>{number.to_string()}</button> }
            .into_any()
    };
    view! {
        <div class="tools" role="group" aria-label=words::doing::YOUR_ANSWER>
            {sign(words::doing::LOWERED, "♭", -1)}
            {sign(words::doing::RAISED, "♯", 1)}
            {(1..=7).map(number).collect::<Vec<_>>()}
        </div>
    }
    .into_any()
}
