//! Where a question is answered.

use crate::browser::{clock, field, focus};
use crate::components::live::{hear, live, press};
use crate::components::practise::note_pad::{PAD, answer, note_pad};
use crate::state::kept::Watched;
use crate::state::practise::answering::Answering;
use crate::state::practise::asking::{AnswerWay, FIRST_OR_SECOND, PARTIALS};
use crate::state::practise::picker::Picker;
use crate::state::session::Session;
use crate::words;
use crookwise_practice::Answer;
use leptos::ev::KeyboardEvent;
use leptos::prelude::*;

/// The element that holds the question, which is read with the place where it is answered.
pub const ASKED: &str = "asked";

/// The buttons or the pad of the question.
pub fn answer_area(answering: Answering) -> AnyView {
    let area = live(move || match &answering.way.get()? {
        AnswerWay::Choices(choices) => Some(offered(answering, choices.clone(), 1, "choices")),
        AnswerWay::Notes { clef, most } => {
            let (clef, most) = (*clef, *most);
            Some(with_button(answering, note_pad(answering, clef, most)))
        }
        AnswerWay::Partials => {
            let numbers = PARTIALS.map(|number| Answer::Partial(Some(number)));
            let all = numbers.chain([Answer::Partial(None)]).collect();
            Some(offered(answering, all, usize::from(*PARTIALS.start()), "choices numbers"))
        }
        AnswerWay::Degrees => Some(with_button(answering, degree_pad(answering))),
        AnswerWay::Columns(columns) => {
            let columns = (0..*columns).filter_map(|column| u8::try_from(column).ok());
            Some(offered(answering, columns.map(Answer::Column).collect(), 1, "choices numbers"))
        }
        AnswerWay::Staves(staves) => {
            let staves = (0..staves.len()).filter_map(|staff| u8::try_from(staff).ok());
            Some(offered(answering, staves.map(Answer::Staff).collect(), 1, "choices staves"))
        }
        AnswerWay::FirstOrSecond => {
            Some(offered(answering, FIRST_OR_SECOND.map(Answer::Which).into(), 1, "choices"))
        }
    });
    view! { <div class="answer-area">{area}</div> }.into_any()
}

/// A tap chooses and *Answer* gives it: a thumb that slips answers nothing. The keyboard comes to the group, not to a choice:
/// a number or an arrow chooses one, Enter gives it.
fn offered(answering: Answering, choices: Vec<Answer>, first: usize, class: &'static str) -> AnyView {
    let Session { names, .. } = Session::get();
    let count = choices.len();
    let is_chosen = move |choice: &Answer| answering.draft.read().chosen.as_ref() == Some(choice);
    let button = |(at, choice): (usize, Answer)| {
        let (shown, marked) = (choice.clone(), choice.clone());
        let pressed = live(move || Some(is_chosen(&marked).to_string()));
        let name = live(move || {
            answering
                .question
                .map(|question| words::capital(&words::practise::answer(&shown, question, names.get())))
        });
        let act = press(move || choose(answering, &choice));
        // What says its number itself needs none before it.
        let number = (class != "choices numbers")
            .then(|| view! { <i class="number" aria-hidden="true">{(at + 1).to_string()}</i> }.into_any());
        view! { <button id=choice_id(at) aria-pressed=pressed on:click=act>{number}{name}</button> }
            .into_any()
    };
    let buttons: Vec<AnyView> = choices.iter().cloned().enumerate().map(button).collect();
    let picker = Watched::new(Picker::new(first, count));
    let keyed = hear(move |event: KeyboardEvent| {
        let here = field::id_of_key(&event);
        let here = (0..count).find(|at| choice_id(*at) == here);
        if event.key() == "Enter" {
            event.prevent_default();
            if let Some(choice) = here.and_then(|at| choices.get(at)) {
                choose(answering, choice);
            }
            answer(answering);
        } else if let Some(at) = picker.update(|picker| picker.key(&event.key(), here)) {
            event.prevent_default();
            if let Some(choice) = choices.get(at) {
                choose(answering, choice);
            }
            focus::now(&choice_id(at));
        }
    });
    let pad = view! {
        <div
            class=class
            id=PAD
            tabindex="0"
            role="group"
            aria-label=words::doing::YOUR_ANSWER
            aria-describedby=ASKED
            on:keydown=keyed
        >
            {buttons}
        </div>
    }
    .into_any();
    with_button(answering, pad)
}

fn choose(answering: Answering, choice: &Answer) {
    answering.draw(|draft| draft.chosen = Some(choice.clone()));
}

fn choice_id(at: usize) -> String {
    format!("choice-{at}")
}

fn leave_out(answering: Answering) -> AnyView {
    let act = press(move || answering.answer(None, clock::now()));
    view! { <button on:click=act>{words::doing::LEAVE_IT_OUT}</button> }.into_any()
}

/// A pad and the button that gives its answer.
fn with_button(answering: Answering, pad: AnyView) -> AnyView {
    let ready = move || {
        let draft = answering.draft.read();
        answering.way.and_then(|way| draft.answer(way)).is_some()
    };
    let lacking = live(move || {
        let draft = answering.draft.read();
        answering.way.and_then(|way| draft.lacking.then(|| draft.what_is_lacking(way)))
    });
    view! {
        {pad}
        <p class="lacking" role="status">{lacking}</p>
        <div class="giving">
            {leave_out(answering)}
            <button
                class="strong"
                aria-disabled=live(move || (!ready()).then_some("true"))
                on:click=press(move || answer(answering))
            >
                {words::doing::ANSWER}
            </button>
        </div>
    }
    .into_any()
}

/// A degree: a sign and a number.
fn degree_pad(answering: Answering) -> AnyView {
    let sign = |name: &'static str, face: &'static str, alter: i32| {
        let pressed = live(move || Some((answering.draft.read().alter == alter).to_string()));
        let act = press(move || answering.draw(|draft| draft.sign_of_degree(alter)));
        view! { <button class="sign-button" aria-label=name aria-pressed=pressed on:click=act>{face}</button> }
            .into_any()
    };
    let number = |number: u8| {
        let pressed = live(move || Some((answering.draft.read().number == Some(number)).to_string()));
        let act = press(move || answering.draw(|draft| draft.degree(number)));
        view! { <button class="letter" aria-pressed=pressed on:click=act>{number.to_string()}</button> }
            .into_any()
    };
    let made = live(move || {
        let draft = answering.draft.read();
        draft.answer(&AnswerWay::Degrees).and_then(|answer| {
            answering
                .question
                .map(|question| words::practise::answer(&answer, question, words::Names::default()))
        })
    });
    let keyed = hear(move |event: KeyboardEvent| {
        let key = event.key();
        let on_pad = event.target() == event.current_target();
        match key.as_str() {
            "Enter" if on_pad => answer(answering),
            "+" => answering.draw(|draft| draft.sign_of_degree(1)),
            "-" => answering.draw(|draft| draft.sign_of_degree(-1)),
            _ => match key.parse().ok().filter(|number| (1..=7).contains(number)) {
                Some(number) => answering.draw(|draft| draft.degree(number)),
                None => return,
            },
        }
        event.prevent_default();
    });
    view! {
        <div
            class="degree-pad"
            id=PAD
            tabindex="0"
            role="application"
            aria-label=words::doing::DEGREE_BY_KEYS
            aria-describedby=ASKED
            on:keydown=keyed
        >
            <p class="big sea" role="status">{made}</p>
            <div class="letters">{(1..=7).map(number).collect::<Vec<_>>()}</div>
            <div class="tools">
                {sign(words::doing::LOWERED, "♭", -1)}
                {sign(words::doing::RAISED, "♯", 1)}
            </div>
        </div>
    }
    .into_any()
}
