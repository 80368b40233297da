//! A course over weeks while it is planned: its title, its weeks, their days and exercises; and the way to hand it on.

use crate::browser::{address, field, files, focus};
use crate::components::link_card::link_card;
use crate::components::live::{each, either, hear, live, press};
use crate::components::practise::list_deeds::{UNDO, act};
use crate::state::kept::Derived;
use crate::state::list_item::ListItem;
use crate::state::practise::Practise;
use crate::state::practise::offered::offered;
use crate::state::practise::placed;
use crate::state::practise::way_back::{DoneLast, planned_id, planned_place_id, week_id};
use crate::state::store::lists::changing::{PlanChange, TakeBack, change, next_week};
use crate::state::store::lists::plans::{self, KeptPlan};
use crate::store::Store;
use crate::words;
use crookwise_practice::LONGEST_TITLE;
use crookwise_share::Link;
use crookwise_share::practise::{PractiseLink, SentExercise};
use crookwise_share::weeks::PlannedWeek;
use leptos::ev::Event;
use leptos::prelude::*;
use std::sync::Arc;

/// The name of the file with a course.
const FILE: &str = "crookwise-weeks.txt";

/// The course that is planned; copy it.
#[derive(Clone, Copy)]
struct Planned {
    number: u32,
    practise: Practise,
    store: Store,
    kept: Derived<Option<KeptPlan>>,
}

impl Planned {
    /// Makes a step; what goes by it is said, with the way back.
    fn make(self, step: PlanChange, gone: Option<String>) {
        let number = self.number;
        if gone.is_some() {
            focus::to(UNDO.to_owned());
        }
        act(self.practise, self.store, move |kept| match change(kept, number, step) {
            Some(back) => {
                gone.map(|what| (words::weeks::taken_out(&what), Some(TakeBack::Changed(number, back))))
            }
            None => gone.map(|_| (words::weeks::GONE_MEANWHILE.to_owned(), None)),
        });
    }
}

/// The course of a number.
pub fn plan_editor(number: u32) -> AnyView {
    let practise = Practise::get();
    let kept = Derived::new(move || practise.lists.and_then(|lists| lists.plan(number).cloned()));
    let planned = Planned { number, practise, store: Store::get(), kept };
    let weeks = Derived::new(move || 0..kept.map(|one| one.plan.weeks.len()).unwrap_or_default());
    let titled = hear(move |event: Event| planned.make(PlanChange::Title(field::text(&event)), None));
    let add = press(move || {
        if let Some(one) = kept.get_untracked() {
            planned.make(PlanChange::PutWeek(one.plan.weeks.len(), next_week(&one.plan)), None);
        }
    });
    view! {
        <div class="plan-editor">
            <label class="field wide">
                <span>{words::weeks::TITLE_OF_THE_COURSE}</span>
                <input
                    aria-label=words::weeks::TITLE_OF_THE_COURSE
                    type="text"
                    maxlength=LONGEST_TITLE.to_string()
                    autocomplete="off"
                    prop:value=live(move || kept.map(|one| one.plan.title.clone()).unwrap_or_default())
                    on:change=titled
                />
            </label>
            {each(weeks, move |at| week(planned, at))}
            <div class="row"><button on:click=add>{words::weeks::ADD_A_WEEK}</button></div>
            {take_out(planned)}
        </div>
    }
    .into_any()
}

/// A week: its day, its exercises, and what can be put into it.
fn week(planned: Planned, at: usize) -> AnyView {
    let week = Derived::new(move || {
        planned.kept.and_then(|one| one.plan.weeks.get(at).cloned()).unwrap_or_default()
    });
    let by = hear(move |event: Event| {
        let text = field::text(&event);
        // What is no day, half typed perhaps, changes nothing.
        match text.parse() {
            Ok(day) => planned.make(PlanChange::By(at, Some(day)), None),
            Err(_) if text.trim().is_empty() => planned.make(PlanChange::By(at, None), None),
            Err(_) => {}
        }
    });
    let away = press(move || {
        planned.make(PlanChange::TakeWeek(at, week.get_untracked()), Some(words::weeks::week(at + 1, None)));
    });
    let exercises = live(move || {
        let row = |(place, one): (usize, &SentExercise)| exercise(planned, at, place, one);
        week.read().exercises.iter().enumerate().map(row).collect::<Vec<_>>()
    });
    let places = live(move || {
        let row = |(number, pairs): (usize, &String)| place(planned, (at, number), pairs);
        week.read().places.iter().enumerate().map(row).collect::<Vec<_>>()
    });
    view! {
        <div class="planned-week" role="group" aria-label=words::weeks::week(at + 1, None)>
            <div class="settings">
                <b>{words::weeks::week(at + 1, None)}</b>
                <label class="field">
                    <span>{words::weeks::TO_BE_DONE_BY}</span>
                    <input
                        aria-label=words::weeks::week_by(at + 1)
                        type="date"
                        prop:value=live(move || week.read().by.map(|day| day.to_string()).unwrap_or_default())
                        on:change=by
                    />
                </label>
                {add(planned, at, week)}
                {add_place(planned, at, week)}
                <button id=week_id(planned.number, at) on:click=away>{words::weeks::take_week_out(at + 1)}</button>
            </div>
            <ul class="plain">{exercises}{places}</ul>
        </div>
    }
    .into_any()
}

/// The list of what can be put into a week.
fn add(planned: Planned, at: usize, week: Derived<PlannedWeek>) -> AnyView {
    let practise = planned.practise;
    let all = Derived::new(move || {
        let named = practise.lists.map(|lists| lists.named.clone()).unwrap_or_default();
        offered(&practise.exercise.read(), &named)
    });
    let options = live(move || {
        let option = |(item, _): &(ListItem, SentExercise)| {
            view! { <option value=item.value.clone()>{item.text.clone()}</option> }.into_any()
        };
        all.read().iter().map(option).collect::<Vec<_>>()
    });
    let choose = hear(move |event: Event| {
        let value = field::text(&event);
        field::set(&event, "");
        let found =
            all.read_untracked().iter().find(|(item, _)| item.value == value).map(|(_, one)| one.clone());
        if let Some(one) = found {
            planned.make(PlanChange::PutExercise(at, week.read_untracked().exercises.len(), one), None);
        }
    });
    view! {
        <label class="field">
            <span>{words::weeks::ADD_AN_EXERCISE}</span>
            <select aria-label=words::weeks::add_to_week(at + 1) on:change=choose>
                <option value="">{words::weeks::CHOOSE_ONE}</option>
                {options}
            </select>
        </label>
    }
    .into_any()
}

/// The field for the link to a place of a score.
fn add_place(planned: Planned, at: usize, week: Derived<PlannedWeek>) -> AnyView {
    let pasted = hear(move |event: Event| {
        let text = field::text(&event);
        field::set(&event, "");
        match placed::pasted(&text) {
            Some(pairs) => {
                planned.make(PlanChange::PutPlace(at, week.read_untracked().places.len(), pairs), None);
            }
            None if text.trim().is_empty() => {}
            None => planned.practise.tell(Some(DoneLast::said(words::weeks::NO_PLACE))),
        }
    });
    view! {
        <label class="field">
            <span>{words::weeks::ADD_A_PLACE}</span>
            <input
                aria-label=words::weeks::place_to_week(at + 1)
                placeholder=words::weeks::PASTE_ITS_LINK
                type="text"
                autocomplete="off"
                on:change=pasted
            />
        </label>
    }
    .into_any()
}

fn place(planned: Planned, (week, at): (usize, usize), pairs: &str) -> AnyView {
    let title = placed::called(pairs).unwrap_or_else(|| words::weeks::CANNOT_BE_OPENED.to_owned());
    let (seen, gone) = (pairs.to_owned(), title.clone());
    let away = press(move || planned.make(PlanChange::TakePlace(week, at, seen.clone()), Some(gone.clone())));
    let name = words::weeks::deed(words::weeks::TAKE_OUT, &title);
    view! {
        <li class="row">
            <span>{title}</span>
            <button id=planned_place_id(planned.number, week, at) aria-label=name on:click=away>{words::weeks::TAKE_OUT}</button>
        </li>
    }
    .into_any()
}

fn exercise(planned: Planned, week: usize, place: usize, sent: &SentExercise) -> AnyView {
    let title = match sent.open() {
        Ok(exercise) => words::titles::called(&exercise),
        Err(_) => words::weeks::CANNOT_BE_OPENED.to_owned(),
    };
    let (seen, gone) = (sent.clone(), title.clone());
    let away = press(move || {
        planned.make(PlanChange::TakeExercise(week, place, seen.clone()), Some(gone.clone()));
    });
    let name = words::weeks::deed(words::weeks::TAKE_OUT, &title);
    view! {
        <li class="row">
            <span>{title}</span>
            <button id=planned_id(planned.number, week, place) aria-label=name on:click=away>{words::weeks::TAKE_OUT}</button>
        </li>
    }
    .into_any()
}

/// The end of it.
fn take_out(planned: Planned) -> AnyView {
    let away = press(move || {
        let number = planned.number;
        focus::to(UNDO.to_owned());
        act(planned.practise, planned.store, move |kept| {
            let gone = plans::remove(kept, number)?;
            Some((words::weeks::taken_out(&gone.plan.title), Some(TakeBack::Plan(gone))))
        });
    });
    view! { <div class="row"><button on:click=away>{words::weeks::TAKE_COURSE_OUT}</button></div> }.into_any()
}

/// The link and the file of the course of a number.
pub fn hand_on(number: u32) -> AnyView {
    let practise = Practise::get();
    let kept = Derived::new(move || practise.lists.and_then(|lists| lists.plan(number).cloned()));
    let link = move || {
        let text = kept.map(|one| one.plan.to_text()).unwrap_or_default();
        Link::Practise(PractiseLink::Weeks(text))
    };
    let fits = move || link().share("").is_ok();
    let card =
        move || link_card(words::weeks::LINK_TO_THIS_COURSE, Arc::new(link), Arc::new(|| ().into_any()));
    let too_long = || view! { <p>{words::weeks::TOO_LONG_FOR_A_LINK}</p> }.into_any();
    let no_code = live(move || {
        let front = address::with_hash("");
        let has_none = link().share(&front).is_ok_and(|shared| shared.code.is_err());
        let plan = kept.map(|one| one.plan.clone()).filter(|_| has_none)?;
        Some(words::weeks::too_long_for_a_code(plan.held_by_a_code(&front), plan.exercises()))
    });
    let save = press(move || {
        let text = kept.get_untracked().map(|one| one.write()).unwrap_or_default();
        if !files::save(FILE, &text) {
            practise.tell(Some(DoneLast::said(words::NO_FILES)));
        }
    });
    view! {
        <div class="hand-on">
            {either(fits, card, too_long)}
            <p>{no_code}</p>
            <div class="row"><button on:click=save>{words::weeks::SAVE_COURSE_AS_A_FILE}</button></div>
        </div>
    }
    .into_any()
}
