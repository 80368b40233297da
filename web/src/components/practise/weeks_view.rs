//! Courses over weeks: what is done, due and late, and the way into each exercise.

use crate::browser::{clock, files, sight, style};
use crate::components::later::{Fetched, later};
use crate::components::live::{each, either, hear, live, press, when};
use crate::components::practise::list_deeds::{act, done_last};
use crate::components::teach::plan_editor::{hand_on, plan_editor};
use crate::state::kept::{Derived, Watched};
use crate::state::practise::placed;
use crate::state::practise::way_back::{DoneLast, plan_id};
use crate::state::practise::weeks::{HowFar, Today};
use crate::state::practise::{Practise, Screen};
use crate::state::store::lists::changing::TakeBack;
use crate::state::store::lists::plans;
use crate::store::Store;
use crate::store::drawers::zone;
use crate::words;
use crookwise_share::practise::SentExercise;
use crookwise_share::weeks::{PlannedWeek, WeekPlan};
use crookwise_share::{Day, Link};
use leptos::ev::Event;
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_split::wasm_split;

/// A course, if there is one.
type Shown = Derived<Option<WeekPlan>>;

/// The screen.
pub fn weeks() -> AnyView {
    let practise = Practise::get();
    let kept = Derived::new(move || practise.lists.map(|lists| lists.plans.clone()).unwrap_or_default());
    let changing = Watched::new(None::<u32>);
    let none = move || practise.lists.map(|lists| lists.plans.is_empty()) == Some(true);
    let course = move |at: usize| {
        let plan = Derived::new(move || kept.read().get(at).map(|one| one.plan.clone()));
        course(plan, changing)
    };
    view! {
        {brought()}
        {each(Derived::new(move || 0..kept.read().len()), course)}
        <section class="card exercise" aria-label=words::weeks::COURSES_OF_WEEKS>
            <h2>{words::weeks::COURSES_OF_WEEKS}</h2>
            {when(none, || view! { <p>{words::weeks::NO_COURSE_YET}</p> }.into_any())}
            {begin(changing)}
        </section>
        <div class="said-below">{done_last()}</div>
    }
    .into_any()
}

/// A new course, and one from a file.
fn begin(changing: Watched<Option<u32>>) -> AnyView {
    let practise = Practise::get();
    let store = Store::get();
    let plan = press(move || {
        let number = clock::chance();
        let title = words::weeks::A_NEW_COURSE.to_owned();
        let new = WeekPlan { number, title, weeks: vec![PlannedWeek::default()] };
        act(practise, store, move |kept| match plans::keep(kept, &new, clock::stamp()) {
            Ok(_) => None,
            Err(_) => Some((words::weeks::NO_ROOM.to_owned(), None)),
        });
        changing.set(Some(number));
    });
    let take_in = hear(move |event: Event| {
        spawn_local(async move {
            let text = files::chosen_text(event).await;
            match text.and_then(|text| plans::in_file(&text)) {
                Some(one) => practise.brought.set(one.plan.to_text()),
                None => practise.tell(Some(DoneLast::said(words::weeks::FOREIGN_FILE))),
            }
        });
    });
    view! {
        <div class="row">
            <button on:click=plan>{words::weeks::PLAN_A_COURSE}</button>
            <label class="field">
                <span>{words::weeks::TAKE_IN_A_COURSE}</span>
                <input aria-label=words::weeks::TAKE_IN_A_COURSE type="file" accept=".txt,text/plain" on:change=take_in />
            </label>
        </div>
    }
    .into_any()
}

/// What a link or a file has brought, until it is kept or left.
fn brought() -> AnyView {
    let practise = Practise::get();
    let read = Derived::new(move || {
        let text = practise.brought.read();
        (!text.is_empty()).then(|| WeekPlan::from_text(&text).ok())
    });
    let plan = Derived::new(move || read.get().flatten());
    // The one that stands here under its number.
    let here = Derived::new(move || {
        let number = plan.map(|plan| plan.number)?;
        practise.lists.and_then(|lists| lists.plan(number).map(|one| one.plan.clone()))
    });
    let is_new = move || plan.is_some() && *plan.read() != *here.read() && practise.lists.is_some();
    let is_damaged = move || read.map(Option::is_none) == Some(true);
    let card =
        move || {
            let much =
                live(move || plan.map(|plan| words::weeks::so_much(plan.weeks.len(), plan.exercises())));
            let name = live(move || {
                if here.is_some() { words::weeks::TAKE_IN_THE_NEW_FORM } else { words::weeks::TAKE_IT_IN }
            });
            let store = Store::get();
            let keep = press(move || {
                if let Some(plan) = plan.get_untracked() {
                    act(practise, store, move |kept| match plans::keep(kept, &plan, clock::stamp()) {
                        Ok(before) => Some((words::weeks::TAKEN_IN.to_owned(), before.map(TakeBack::Plan))),
                        Err(_) => Some((words::weeks::NO_ROOM.to_owned(), None)),
                    });
                }
                practise.brought.set(String::new());
            });
            let leave = press(move || practise.brought.set(String::new()));
            view! {
                <section class="card exercise" aria-label=words::weeks::FROM_A_LINK>
                    <p class="quiet">{words::weeks::FROM_A_LINK} ": " {much}</p>
                    {title(plan)}
                    <div class="row">
                        <button class="strong" on:click=keep>{name}</button>
                        <button on:click=leave>{words::weeks::NOT_NOW}</button>
                    </div>
                    {weeks_of(plan)}
                </section>
            }
            .into_any()
        };
    let damaged = || view! { <p class="problem" role="alert">{words::weeks::DAMAGED_PLAN}</p> }.into_any();
    view! { {when(is_damaged, damaged)} {when(is_new, card)} }.into_any()
}

fn title(plan: Shown) -> AnyView {
    let id = live(move || plan.map(|plan| plan_id(plan.number)));
    view! { <h2 class="prompt" id=id tabindex="-1">{live(move || plan.map(|plan| plan.title.clone()))}</h2> }
        .into_any()
}

/// A course that is kept.
fn course(plan: Shown, changing: Watched<Option<u32>>) -> AnyView {
    let practise = Practise::get();
    let number = Derived::new(move || plan.map(|plan| plan.number).unwrap_or_default());
    let is_changed = Derived::new(move || changing.get() == Some(number.get()));
    let progress = live(move || {
        plan.map(|plan| {
            let (done, late) = today(practise, |today| today.counts(plan));
            words::weeks::progress(done, late, plan.exercises())
        })
    });
    let change = press(move || {
        let now = is_changed.get_untracked();
        changing.set((!now).then(|| number.get_untracked()));
    });
    let pressed = live(move || Some(is_changed.get().to_string()));
    let name =
        live(
            move || {
                if is_changed.get() { words::weeks::CHANGED_ENOUGH } else { words::weeks::CHANGE_THIS_COURSE }
            },
        );
    let editor = move || {
        let number = untrack(|| number.get());
        later(move || Box::pin(fetched_editor(number)))
    };
    let handed_on = Watched::new(false);
    let expanded = live(move || Some(handed_on.get().to_string()));
    let hand = press(move || handed_on.set(!handed_on.get_untracked()));
    let link = move || {
        let number = untrack(|| number.get());
        later(move || Box::pin(fetched_hand_on(number)))
    };
    view! {
        <section class="card exercise" aria-label=live(move || plan.map(|plan| plan.title.clone()))>
            {title(plan)}
            <p class="quiet">{progress}</p>
            // Over the weeks: what comes into them or goes moves neither button.
            <div class="row">
                <button aria-expanded=pressed on:click=change>{name}</button>
                <button aria-expanded=expanded on:click=hand>{words::weeks::HAND_IT_ON}</button>
            </div>
            {when(move || handed_on.get(), link)}
            {either(move || is_changed.get(), editor, move || weeks_of(plan))}
        </section>
    }
    .into_any()
}

#[wasm_split(teach, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_editor(number: u32) -> Fetched {
    style::TEACH.wear();
    Ok(plan_editor(number))
}

#[wasm_split(teach, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_hand_on(number: u32) -> Fetched {
    style::TEACH.wear();
    Ok(hand_on(number))
}

/// By what was done here, today.
fn today<T>(practise: Practise, look: impl FnOnce(Today<'_>) -> T) -> T {
    let lists = practise.lists.read();
    let done = Option::as_ref(&lists).map_or(&[][..], |lists| lists.done.as_slice());
    let zone = zone();
    look(Today { done, zone, day: Day::of_seconds(zone.shown(clock::seconds())) })
}

/// All weeks of a course.
fn weeks_of(plan: Shown) -> AnyView {
    let one =
        move |at: usize| week(at, Derived::new(move || plan.and_then(|plan| plan.weeks.get(at).cloned())));
    let numbers = Derived::new(move || 0..plan.map(|plan| plan.weeks.len()).unwrap_or_default());
    each(numbers, one)
}

fn week(at: usize, week: Derived<Option<PlannedWeek>>) -> AnyView {
    let practise = Practise::get();
    let head = live(move || week.map(|week| words::weeks::week(at + 1, week.by)));
    let mark = live(move || {
        let standing = week.and_then(|week| today(practise, |today| today.week(week)))?;
        let (class, said) = said(standing);
        Some(view! { <span class=class>{said}</span> }.into_any())
    });
    let exercises = live(move || {
        let Some(week) = week.get() else { return Vec::new() };
        week.exercises.iter().map(|one| exercise(practise, one, week.by)).collect::<Vec<_>>()
    });
    let places = live(move || {
        let places = week.map(|week| week.places.clone()).unwrap_or_default();
        places.iter().map(|pairs| place(pairs)).collect::<Vec<_>>()
    });
    let is_empty =
        move || week.map(|week| week.exercises.is_empty() && week.places.is_empty()).unwrap_or_default();
    let nothing = || view! { <p class="quiet">{words::weeks::NOTHING_IN_IT}</p> }.into_any();
    view! {
        <section class="planned-week">
            <h3>{head} " " {mark}</h3>
            <ul class="steps">{exercises}{places}</ul>
            {when(is_empty, nothing)}
        </section>
    }
    .into_any()
}

/// How a standing looks, and its word.
const fn said(standing: HowFar) -> (&'static str, &'static str) {
    match standing {
        HowFar::Done { late: false } => ("standing done", words::weeks::DONE),
        HowFar::Done { late: true } => ("standing done", words::weeks::DONE_LATE),
        HowFar::Due => ("standing", words::weeks::DUE),
        HowFar::Open => ("standing", words::weeks::TO_DO),
        HowFar::Late => ("standing late", words::weeks::LATE),
    }
}

/// A place of a movement: one tap leads there.
fn place(pairs: &str) -> AnyView {
    let Some(said) = placed::called(pairs) else {
        return view! { <li><p class="problem">{words::weeks::CANNOT_BE_OPENED}</p></li> }.into_any();
    };
    let href = format!("#{}", Link::Score(pairs.to_owned()).encode());
    view! { <li><a class="to-place" href=href on:click=press(sight::top_after_link)>{said}</a></li> }
        .into_any()
}

/// An exercise: one tap begins it.
fn exercise(practise: Practise, sent: &SentExercise, by: Option<Day>) -> AnyView {
    let (standing, done) = today(practise, |today| today.exercise(sent, by));
    let (class, said) = said(standing);
    let right = done.map(|done| words::weeks::right_of(done.right, done.of));
    let Ok(exercise) = sent.open() else {
        return view! { <li><p class="problem">{words::weeks::CANNOT_BE_OPENED}</p></li> }.into_any();
    };
    let title = words::titles::called(&exercise);
    let begin = press(move || {
        practise.set(&exercise);
        practise.go(Screen::Do);
        practise.begin(clock::now());
    });
    view! {
        <li>
            <button class="step" on:click=begin>
                <span>{title}</span>
                <small class=class>{said} {right}</small>
            </button>
        </li>
    }
    .into_any()
}
