//! A worksheet for paper and its key: what is printed looks like an examination paper, the rest stays on the screen.

use crate::browser::{field, screen};
use crate::components::choice::choice;
use crate::components::live::{hear, live, press};
use crate::components::practise::question_page::{label, system};
use crate::state::kept::{Derived, Watched};
use crate::state::list_item::ListItem;
use crate::state::practise::Practise;
use crate::state::practise::asking::AnswerWay;
use crate::state::practise::paper::{self, Space};
use crate::state::practise::picture::{AnswerStaff, QuestionPicture};
use crate::state::session::Session;
use crate::words::{self, Names};
use crookwise_practice::{Question, Time};
use leptos::ev::Event;
use leptos::prelude::*;
use std::sync::Arc;

/// Pixels of one staff space on paper: a staff of about eleven millimetres.
const SCALE: f64 = 10.0;

/// The worksheet as it will be printed, with what can be chosen over it.
pub fn paper() -> AnyView {
    let practise = Practise::get();
    let Session { names, .. } = Session::get();
    let title = Watched::new(words::practise::WORKSHEET.to_owned());
    let size = Watched::new("a4".to_owned());
    let space = Watched::new(Space::Staff);
    let made = Derived::new(move || practise.exercise.read().questions().map_err(|error| error.to_string()));
    let problem = live(move || made.get().err().unwrap_or_default());
    let class = live(move || format!("paper {}", size.read()));
    let questions = live(move || {
        let names = names.get();
        let one = |(at, question)| printed(at, question, space.get(), names);
        let questions = made.get().unwrap_or_default();
        questions.iter().enumerate().map(one).collect::<Vec<_>>()
    });
    let key = live(move || {
        let (questions, names) = (made.get().unwrap_or_default(), names.get());
        questions.iter().map(|question| answered(question, names)).collect::<Vec<_>>()
    });
    let sizes = || vec![ListItem::new("a4", "A4"), ListItem::new("letter", words::exercise::LETTER)];
    let spaces = || Space::ALL.map(|one| ListItem::new(one.id(), one.name())).into();
    let set_space = move |value: String| {
        if let Some(one) = Space::ALL.into_iter().find(|one| one.id() == value) {
            space.set(one);
        }
    };
    let time = live(move || match practise.exercise.read().time {
        Time::All(seconds) => words::exercise::time_in_minutes(seconds.div_ceil(60).into()),
        _ => String::new(),
    });
    view! {
        <section class="card settings not-printed" aria-label=words::exercise::WORKSHEET>
            <label class="field">
                <span>{words::exercise::TITLE}</span>
                <input
                    aria-label=words::exercise::TITLE
                    type="text"
                    maxlength="120"
                    prop:value=live(move || title.read().to_string())
                    on:input=hear(move |event: Event| title.set(field::text(&event)))
                />
            </label>
            {choice(words::exercise::PAPER, Arc::new(sizes), Arc::new(move || size.read().to_string()), Box::new(move |value| size.set(value)))}
            {choice(words::exercise::FOR_THE_ANSWERS, Arc::new(spaces), Arc::new(move || space.read().id().to_owned()), Box::new(set_space))}
            <button class="strong" on:click=press(screen::print)>{words::exercise::PRINT}</button>
            <p class="problem" role="status">{problem}</p>
        </section>
        <article class=class aria-label=words::exercise::WORKSHEET_AS_PRINTED>
            <div class="sheet-of-paper">
                <header class="paper-head">
                    <h1>{live(move || title.read().to_string())}</h1>
                    <p class="name-line"><span>{words::exercise::NAME}</span><span>{words::exercise::DATE}</span></p>
                    <p>{time}</p>
                </header>
                <ol class="paper-questions">{questions}</ol>
            </div>
            <div class="sheet-of-paper key">
                <h1>{live(move || words::exercise::key_of(&title.read()))}</h1>
                <ol class="paper-key">{key}</ol>
                <p class="quiet">{words::GUIDE}</p>
            </div>
        </article>
    }
    .into_any()
}

/// A question with room for its answer.
fn printed(at: usize, question: &Question, space: Space, names: Names) -> AnyView {
    let room = paper::room(question);
    let mut picture = QuestionPicture::of(question, names, room.room);
    if question.passage.columns().len() < 2 {
        // There is only one note: nothing needs to point at it.
        picture.asked.1 = None;
    }
    let lone = picture.asked.1.is_none() && question.given.is_some();
    let systems: Vec<AnyView> = if lone && space == Space::Staff {
        // The empty staff for the answer is the place it asks about.
        (0..picture.labels.len()).map(|staff| label(&picture, staff)).collect()
    } else {
        picture.sheet.systems.iter().map(|one| system(&picture, one)).collect()
    };
    let name = words::practise::page(question, names);
    let class = if room.whole_line { "paper-question whole" } else { "paper-question" };
    let choices: Vec<AnyView> = question
        .choices
        .iter()
        .map(|choice| {
            let text = words::practise::answer(choice, question, names);
            view! { <li>{text}</li> }.into_any()
        })
        .collect();
    let answer = match (AnswerWay::of(question), space) {
        (AnswerWay::Notes { clef, .. }, Space::Staff) => {
            let staff = AnswerStaff::for_paper(clef, SCALE);
            view! { <div class="empty-staff" inner_html=staff></div> }.into_any()
        }
        (AnswerWay::Choices(_), _) => view! { <ol class="paper-choices" type="a">{choices}</ol> }.into_any(),
        _ => view! { <p class="answer-line"></p> }.into_any(),
    };
    view! {
        <li class=class value=(at + 1).to_string()>
            <p class="paper-prompt">{words::practise::prompt(question, names)}</p>
            <div role="img" aria-label=name>{systems}</div>
            {answer}
        </li>
    }
    .into_any()
}

/// The answer of the key, and the interval that leads to it.
fn answered(question: &Question, names: Names) -> AnyView {
    let right = words::practise::answer(&question.right, question, names);
    let way = words::right_way::short_way(question, names);
    view! { <li><b>{right}</b> " " <span class="quiet">{way}</span></li> }.into_any()
}
