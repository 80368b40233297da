//! The course: its steps, and the lesson of one with its examples, exercises, and works to look into.

use crate::browser::{clock, focus, sight};
use crate::components::live::{live, press, when};
use crate::components::practise::lesson_example::example;
use crate::components::practise::record_view::repeat_now;
use crate::state::kept::{Derived, Watched};
use crate::state::practise::{Practise, Screen, remembered, weeks};
use crate::store::drawers::zone;
use crate::words;
use crookwise_practice::course::{CourseStep, Entry, Lesson, Progress, Work};
use crookwise_practice::record::Record;
use crookwise_share::{Day, Link};
use leptos::prelude::*;

/// The head of a step, and of the course.
const HEAD: &str = "course-head";

/// The head of the exercises of a step.
const EXERCISES: &str = "course-exercises";

/// Goes to a step or to the course: the page stands at its top, the keyboard at its head.
pub fn go_to(practise: Practise, screen: Screen) {
    practise.go(screen);
    sight::top();
    focus::to(HEAD.to_owned());
}

/// All steps.
pub fn course() -> AnyView {
    let practise = Practise::get();
    let now = zone().shown(clock::seconds());
    let due =
        Derived::new(move || practise.record.map(|record| remembered::due(record, now)).unwrap_or_default());
    let waits = live(move || {
        let due = due.read();
        let said = |record: &Record| {
            let next = remembered::next_in_days(record, now);
            words::results::due(due.len(), &remembered::due_staves(record, &due), next)
        };
        practise.record.and_then(|record| (!record.is_empty()).then(|| said(record)))
    });
    // What courses over weeks ask for, where there is any.
    let of_weeks = Derived::new(move || {
        let day = Day::of_seconds(now);
        let counts = practise.lists.map(|lists| weeks::waiting(lists, zone(), day));
        counts.filter(|counts| *counts != (0, 0))
    });
    let to_weeks = move || {
        let said = live(move || of_weeks.map(|(due, late)| words::weeks::waiting(*due, *late)));
        let go = press(move || practise.go(Screen::Weeks));
        view! { <div class="row"><button on:click=go>{said}</button></div> }.into_any()
    };
    // What is due is begun where it is named.
    let repeat = move || {
        let go = press(move || repeat_now(practise));
        view! { <div class="row"><button class="strong" on:click=go>{words::course::REPEAT_NOW}</button></div> }
            .into_any()
    };
    let step = move |step: CourseStep| {
        let at = usize::from(step.number) - 1;
        let progress = live(move || {
            let progress = |record: &Record| Progress::of(&step, record);
            let waits = remembered::due_of_step(&due.read(), step);
            let begun = practise.lists.map(|lists| remembered::is_begun(lists, step)).unwrap_or_default();
            words::results::progress_and_due(&practise.record.map(progress).unwrap_or_default(), begun, waits)
        });
        let go = press(move || go_to(practise, Screen::Step(at)));
        view! {
            <li>
                <button class="step" on:click=go>
                    <b>{step.number.to_string()}</b>
                    <span>{step.title}</span>
                    <small class="source">{progress}</small>
                </button>
            </li>
        }
        .into_any()
    };
    view! {
        <section class="card exercise" aria-label=words::course::COURSE>
            <h2 id=HEAD tabindex="-1">{words::course::COURSE_TITLE}</h2>
            <p>{words::practise::COURSE}</p>
            <p>{waits}</p>
            {when(move || !due.read().is_empty(), repeat)}
            {when(move || of_weeks.is_some(), to_weeks)}
            <ol class="steps">{CourseStep::ALL.map(step).into_iter().collect::<Vec<_>>()}</ol>
        </section>
    }
    .into_any()
}

/// One step.
pub fn step(at: usize) -> AnyView {
    let practise = Practise::get();
    let Some(step) = CourseStep::ALL.get(at).copied() else { return course() };
    let body = step.lesson().map(|lesson| shown(at, &lesson));
    let go = move |to: Screen, name: &'static str| {
        view! { <button on:click=press(move || go_to(practise, to))>{name}</button> }.into_any()
    };
    let next = (at + 1 < CourseStep::ALL.len()).then(|| go(Screen::Step(at + 1), words::course::NEXT_STEP));
    view! {
        <article class="card exercise lesson" aria-label=words::course::LESSON>
            <p class="quiet">{words::course::step_of(step.number.into(), CourseStep::ALL.len())}</p>
            <h2 class="prompt" id=HEAD tabindex="-1">{step.title}</h2>
            <div class="row"><button on:click=press(|| focus::to(EXERCISES.to_owned()))>{words::course::TO_THE_EXERCISES}</button></div>
            {body.ok()}
            <h2 id=EXERCISES tabindex="-1">{words::course::EXERCISES_OF_THIS_STEP}</h2>
            <ol class="steps">{exercises(practise, step)}</ol>
            <div class="row">{go(Screen::Course, words::course::ALL_STEPS)} {next}</div>
        </article>
    }
    .into_any()
}

fn exercises(practise: Practise, step: CourseStep) -> Vec<AnyView> {
    let one = |exercise: crookwise_practice::Exercise| {
        let about = words::titles::about(&exercise);
        let begin = press(move || practise.begin_of_course(exercise.clone(), clock::chance(), clock::now()));
        view! { <li><button class="step" on:click=begin><span>{about}</span></button></li> }.into_any()
    };
    step.exercises().into_iter().map(one).collect()
}

fn shown(step: usize, lesson: &Lesson) -> AnyView {
    // The first example is live to begin with.
    let first = lesson.entries.iter().position(|entry| matches!(entry, Entry::Touch { .. }));
    let touched = Watched::new(first.unwrap_or_default());
    let entries: Vec<AnyView> =
        lesson.entries.iter().enumerate().map(|(number, one)| entry((step, number), touched, one)).collect();
    let look: Vec<AnyView> =
        lesson.look.iter().map(|line| view! { <p>{line.clone()}</p> }.into_any()).collect();
    let works: Vec<AnyView> = lesson.works.iter().map(work).collect();
    view! {
        {entries}
        <h2>{words::course::WHAT_TO_LOOK_FOR_IN_SCORES}</h2>
        {look}
        <ul class="works">{works}</ul>
        <p class="quiet">{words::GUIDE}</p>
    }
    .into_any()
}

fn entry(which: (usize, usize), touched: Watched<usize>, entry: &Entry) -> AnyView {
    match entry {
        Entry::Says { source, text } => {
            let source = words::practise::source(source);
            view! { <p>{text.clone()} " " <small class="source">{source}</small></p> }.into_any()
        }
        Entry::Touch { link, text, .. } => match Link::decode_readable(link) {
            Ok(Some(Link::Read(page))) => example(which, touched, &page, text),
            _ => view! { <p>{text.clone()}</p> }.into_any(),
        },
        Entry::Place { link, text } => place(link, text),
    }
}

/// A place of a movement: what to attend to, and the way there.
fn place(link: &str, text: &str) -> AnyView {
    let href = format!("#{link}");
    view! {
        <div class="example">
            <p>{text.to_owned()}</p>
            <div class="row">
                <a class="to-place" href=href on:click=press(sight::top_after_link)>{words::course::OPEN_IN_SCORE}</a>
            </div>
        </div>
    }
    .into_any()
}

fn work(work: &Work) -> AnyView {
    let mark = if work.verified { words::course::SEEN_IN_AN_OPEN_SCORE } else { words::course::FROM_MEMORY };
    view! { <li>{format!("{}: {} ", work.name, work.what)} <small class="source">{mark}</small></li> }
        .into_any()
}
