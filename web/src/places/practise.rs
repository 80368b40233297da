//! Practise: the course, exercises that are set or done, results, the reader's own record.

use crate::browser::{clock, focus, style};
use crate::components::lasting::once;
use crate::components::later::{Fetched, later};
use crate::components::live::{live, press, when};
use crate::components::practise::course_view::{course, step};
use crate::components::practise::doing::doing;
use crate::components::practise::record_view::record_view;
use crate::components::practise::weeks_view;
use crate::components::teach::class::class;
use crate::components::teach::editor::editor;
use crate::components::teach::on_wall::on_wall;
use crate::components::teach::paper::paper;
use crate::state::kept::{Derived, follow};
use crate::state::practise::remembered::last;
use crate::state::practise::run::Run;
use crate::state::practise::weeks;
use crate::state::practise::{Practise, Screen};
use crate::state::session::Session;
use crate::state::store::entry::Unread;
use crate::state::store::lists::done::Done;
use crate::state::store::under_way::UnderWay;
use crate::store::drawers::{self, zone};
use crate::store::{Store, answers};
use crate::words;
use crookwise_share::LONGEST;
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_split::wasm_split;

/// Screens that stand in the bar of Practise.
const SCREENS: [(Screen, &str); 5] = [
    (Screen::Course, words::course::COURSE),
    (Screen::Weeks, words::weeks::WEEKS),
    (Screen::Set, words::course::SET_AN_EXERCISE),
    (Screen::Class, words::course::RESULTS_OF_A_CLASS),
    (Screen::Record, words::course::MY_RECORD),
];

/// The page.
pub fn practise() -> AnyView {
    for sheet in [&style::PANELS, &style::PRACTISE] {
        sheet.wear();
    }
    let practise = once(|| {
        let practise = Practise::new(Session::get().whereabouts);
        take_up(practise);
        keep(practise);
        practise
    });
    let screen = practise.screen;
    let is = move |one: Screen| move || screen.get() == one;
    let tab = move |(one, name): (Screen, &'static str)| {
        let here = move || match screen.get() {
            Screen::Step(_) => one == Screen::Course,
            Screen::Do if practise.of_step.is_some() => one == Screen::Course,
            Screen::Do | Screen::Paper => one == Screen::Set,
            Screen::Repeat => one == Screen::Record,
            other => one == other,
        };
        let current = live(move || here().then_some("page"));
        let go = press(move || practise.go(one));
        view! { <button aria-current=current on:click=go>{name}</button> }.into_any()
    };
    // Nothing is being repeated, or no more.
    let idle = move || screen.get() == Screen::Repeat && !practise.repeating.get();
    let notice = live(move || practise.notice.get());
    let steps = live(move || match screen.get() {
        Screen::Step(at) => Some(step(at)),
        one @ (Screen::Set | Screen::Wall | Screen::Paper | Screen::Class) => {
            Some(later(move || Box::pin(fetched_for_a_teacher(one))))
        }
        _ => None,
    });
    let bar = move || {
        view! {
            <nav class="tools places" aria-label=words::course::PRACTISE>
                {SCREENS.map(tab).into_iter().collect::<Vec<_>>()}
            </nav>
        }
        .into_any()
    };
    view! {
        {when(move || screen.get() != Screen::Wall && !practise.under_way.get(), bar)}
        <p class="problem" role="status">{notice}</p>
        {when(is(Screen::Course), course)}
        {when(is(Screen::Weeks), weeks_view::weeks)}
        {steps}
        {when(move || screen.get() == Screen::Do || practise.repeating.get(), doing)}
        {when(move || screen.get() == Screen::Record || idle(), record_view)}
    }
    .into_any()
}

/// What a teacher alone needs.
#[wasm_split(teach, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_for_a_teacher(screen: Screen) -> Fetched {
    for sheet in [&style::WALL, &style::TEACH, &style::PAPER] {
        sheet.wear();
    }
    Ok(match screen {
        Screen::Wall => on_wall(),
        Screen::Paper => paper(),
        Screen::Class => class(),
        _ => editor(),
    })
}

/// Takes up what was at hand and under way before the app was loaded again.
fn take_up(practise: Practise) {
    let Session { notices, .. } = Session::get();
    let store = Store::get();
    let under_way = store.under_way(clock::now()).unwrap_or_else(|why| {
        notices.show(words::kept::set_aside_one(why == Unread::Newer));
        None
    });
    practise.resume(store.at_hand().as_ref(), under_way.as_ref(), clock::now());
    if under_way.is_some_and(|kept| !Run::understands(&kept.answers)) {
        store.set_under_way_aside();
        notices.show(words::kept::set_aside_one(false));
    }
}

/// Keeps the exercise at hand, the one under way, its answers and the record.
fn keep(practise: Practise) {
    let Session { notices, .. } = Session::get();
    let store = Store::get();
    // The record is read anew after each change, also by another window.
    follow(move || {
        let _ = store.news.get();
        spawn_local(async move {
            if let Ok(record) = drawers::record(store).await {
                practise.record.set(Some(record));
            }
            if let Ok(lists) = drawers::lists(store).await {
                practise.lists.set(Some(lists));
                practise.back_at.with_untracked(|place| focus::come(place));
            }
        });
    });
    let answered = Derived::new(move || {
        practise.answering.latest.map(|run| (run.done.len(), run.shown.is_some())).unwrap_or_default()
    });
    follow(move || {
        if answered.get().1
            && let Some(answer) = untrack(|| {
                practise.answering.latest.and_then(|run| last(run, zone().shown(clock::seconds())))
            })
        {
            answers::remember(store, answer);
        }
    });
    let done = Derived::new(move || practise.answering.latest.and_then(|run| weeks::finished(run, 0)));
    follow(move || {
        if let Some(done) = done.get() {
            spawn_local(drawers::remember_done(store, Done { at: clock::seconds(), ..done }));
        }
    });
    follow(move || {
        // Where the address holds it, nothing is lost by a device that keeps nothing.
        let lost = |kept: UnderWay| !store.keep_at_hand(&kept) && kept.link.len() > LONGEST;
        if practise.at_hand().is_some_and(lost) {
            notices.say(words::NOT_KEPT);
        }
    });
    follow(move || {
        let kept = practise.answering.latest.and_then(|run| Some(practise.under_way(run)));
        if kept.is_some_and(|kept| !store.keep_under_way(&kept)) {
            notices.say(words::NOT_KEPT);
        }
    });
}
