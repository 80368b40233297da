//! A worksheet for paper and its key: what is printed looks like an examination paper, the rest stays on the screen.

use crate::browser::{field, screen};
use crate::components::choice::choice;
use crate::components::live::{hear, live, press};
use crate::components::practise::doing::mended_note;
use crate::components::practise::question_page::{label, system};
use crate::state::kept::{Derived, Watched};
use crate::state::list_item::ListItem;
use crate::state::practise::Practise;
use crate::state::practise::asking::AnswerWay;
use crate::state::practise::paper::{self, Section, Space};
use crate::state::practise::picture::{AnswerStaff, QuestionPicture};
use crate::state::session::Session;
use crate::words::{self, Names};
use crookwise_practice::{Kind, Question, Time};
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
    let points = Watched::new(0_u32);
    let sections =
        Derived::new(move || paper::sections(made.read().as_deref().unwrap_or_default(), names.get()));
    let questions = live(move || {
        let one = |one: &Section| section(one, space.get(), points.get(), names.get());
        sections.read().iter().map(one).collect::<Vec<_>>()
    });
    let key = live(move || {
        let names = names.get();
        let items = sections.get().into_iter().flat_map(|one| one.items);
        items.map(|(_, question, _)| answered(&question, names)).collect::<Vec<_>>()
    });
    let total = live(move || {
        let count: usize = sections.read().iter().map(|one| one.items.len()).sum();
        let most = points.get() * u32::try_from(count).unwrap_or(u32::MAX);
        (most > 0).then(|| words::exercise::points_of(most))
    });
    let all_points =
        || (0..=3).map(|each| ListItem::new(each.to_string(), words::exercise::points_each(each))).collect();
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
            {choice(
                words::exercise::POINTS,
                Arc::new(all_points),
                Arc::new(move || points.get().to_string()),
                Box::new(move |value: String| points.set(value.parse().unwrap_or_default())),
            )}
            <button class="strong" on:click=press(screen::print)>{words::exercise::PRINT}</button>
            <p class="problem" role="status">{problem}</p>
            {mended_note(practise, "")}
        </section>
        <article class=class aria-label=words::exercise::WORKSHEET_AS_PRINTED>
            <div class="sheet-of-paper">
                <header class="paper-head">
                    <h1>{live(move || title.read().to_string())}</h1>
                    <p class="name-line"><span>{words::exercise::NAME}</span><span>{words::exercise::DATE}</span></p>
                    <p>{time}</p>
                    <p>{total}</p>
                </header>
                {questions}
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

/// The questions of one instruction.
fn section(section: &Section, space: Space, points: u32, names: Names) -> AnyView {
    let worth = (points > 0)
        .then(|| view! { <span class="worth">{words::exercise::points_each(points)}</span> }.into_any());
    let one = |(number, question, alone): &(usize, Question, Option<String>)| {
        printed(*number, question, alone.clone(), space, names)
    };
    let items: Vec<AnyView> = section.items.iter().map(one).collect();
    view! {
        <section class="paper-section">
            <h2 class="paper-prompt">{section.instruction.clone()} " " {worth}</h2>
            <ol class="paper-questions">{items}</ol>
        </section>
    }
    .into_any()
}

/// A question with room for its answer.
fn printed(number: usize, question: &Question, alone: Option<String>, space: Space, names: Names) -> AnyView {
    let room = paper::room(question);
    let mut picture = QuestionPicture::of(question, names, room.room);
    if question.passage.columns().len() < 2 {
        // There is only one note: nothing needs to point at it.
        picture.asked.1 = None;
    }
    let lone = picture.asked.1.is_none() && question.given.is_some();
    let systems: Vec<AnyView> = if question.kind == Kind::Label || lone && space == Space::Staff {
        // Nothing stands on the staff that is asked about, or the empty one for the answer is its place.
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
        <li class=class value=number.to_string()>
            {alone.map(|asked| view! { <p>{asked}</p> }.into_any())}
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
