//! Practise: the course, exercises that are set or done, results, the reader's own record.

use crate::browser::{address, clock, storage, style};
use crate::components::live::{live, press, when};
use crate::components::practise::class::class;
use crate::components::practise::course_view::{course, step};
use crate::components::practise::doing::doing;
use crate::components::practise::editor::editor;
use crate::components::practise::on_wall::on_wall;
use crate::components::practise::paper::paper;
use crate::components::practise::record_view::{kept, record_view, zone};
use crate::state::kept::Derived;
use crate::state::place::Place;
use crate::state::practise::run::Run;
use crate::state::practise::{Practise, Screen, remembered, setting};
use crate::state::session::Session;
use crate::words;
use crookwise_practice::Exercise;
use crookwise_share::Link;
use crookwise_share::practise::PractiseLink;
use leptos::prelude::*;

/// Where an exercise under way is kept: its link, then its answers.
const UNDER_WAY: &str = "crookwise.exercise";

/// Where the number is kept under which this device writes into the record.
const SOURCE: &str = "crookwise.source";

/// Screens that stand in the bar of Practise.
const SCREENS: [(Screen, &str); 4] = [
    (Screen::Course, words::course::COURSE),
    (Screen::Set, words::course::SET_AN_EXERCISE),
    (Screen::Class, words::course::RESULTS_OF_A_CLASS),
    (Screen::Record, words::course::MY_RECORD),
];

/// The page.
pub fn practise() -> AnyView {
    for sheet in [&style::PRACTISE, &style::PAPER, &style::WALL] {
        sheet.wear();
    }
    let practise = Practise::new(setting::first(clock::chance()));
    provide_context(practise);
    join_taken_in();
    follow(practise);
    let screen = Derived::new(move || practise.screen.get());
    let is = move |one: Screen| move || screen.get() == one;
    let tab = move |(one, name): (Screen, &'static str)| {
        let here = move || match screen.get() {
            Screen::Step(_) => one == Screen::Course,
            Screen::Do | Screen::Paper => one == Screen::Set,
            other => one == other,
        };
        let current = live(move || here().then_some("page"));
        let go = press(move || practise.screen.set(one));
        view! { <button aria-current=current on:click=go>{name}</button> }.into_any()
    };
    let notice = live(move || practise.notice.get());
    let steps = live(move || match screen.get() {
        Screen::Step(at) => Some(step(at)),
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
        {when(move || screen.get() != Screen::Wall, bar)}
        <p class="problem" role="status">{notice}</p>
        {when(is(Screen::Course), course)}
        {steps}
        {when(is(Screen::Set), editor)}
        {when(is(Screen::Do), doing)}
        {when(is(Screen::Wall), on_wall)}
        {when(is(Screen::Paper), paper)}
        {when(is(Screen::Class), class)}
        {when(is(Screen::Record), record_view)}
    }
    .into_any()
}

/// Keeps the address, the storage and the state in step.
fn follow(practise: Practise) {
    let Session { desk, notices, place, .. } = Session::get();
    Effect::new(move |_| {
        let place = place.read();
        let Place::Practise(pairs) = &*place else { return };
        if place.is_from_read() {
            let page = desk.page.read_untracked();
            practise.set_from(&page.passage);
            return;
        }
        let text = if pairs.is_empty() { "/practise".to_owned() } else { format!("/practise?{pairs}") };
        match Link::decode(&text) {
            Ok(Some(Link::Practise(link))) if link != untrack(|| practise.link()) => practise.open(link),
            Ok(_) => {}
            Err(error) => practise.notice.set(Some(error.to_string())),
        }
    });
    Effect::new(move |first: Option<()>| {
        let link = Link::from(practise.link()).encode();
        if first.is_some() {
            address::replace_hash(&link);
        }
    });
    // An exercise under way is taken up after a reload.
    Effect::new(move |_| {
        if practise.screen.get() == Screen::Do && practise.run.read_untracked().is_none() {
            let kept = storage::read(UNDER_WAY).unwrap_or_default();
            if let Some((link, done)) = kept.split_once('\n')
                && Link::decode_kept(link) == Ok(Some(done_link(&practise.set.read_untracked())))
                && !done.is_empty()
            {
                practise.begin(Some(done), clock::now());
            }
        }
    });
    let answered = Derived::new(move || {
        practise.run.map(|run| (run.done.len(), run.shown.is_some())).unwrap_or_default()
    });
    Effect::new(move |_| {
        if answered.get().1 {
            untrack(|| practise.run.map(remember));
        }
    });
    Effect::new(move |_| {
        // What is repeated is in the record already, answer by answer.
        let kept = practise.run.and_then(|run| {
            (!run.repetition).then(|| format!("{}\n{}", done_link(&run.exercise).encode(), run.write()))
        });
        if kept.is_some_and(|kept| !storage::write(UNDER_WAY, &kept)) {
            notices.say(words::NOT_KEPT);
        }
    });
}

/// Joins a record that came in a file to the one on the device.
fn join_taken_in() {
    if let Some(text) = storage::read(storage::RECORD_TAKEN_IN) {
        let both = kept().merged(&remembered::read(Some(&text), zone()));
        if storage::write(storage::RECORD, &both.to_text(zone())) {
            storage::remove(storage::RECORD_TAKEN_IN);
        }
    }
}

/// Remembers the last answer. What is kept is read anew each time: another tab may have written in the meantime.
fn remember(run: &Run) {
    if let Some(attempt) = remembered::last(run, zone().shown(clock::seconds())) {
        let mut record = kept();
        let source = storage::read(SOURCE).and_then(|text| text.parse().ok()).unwrap_or_else(|| {
            let source = clock::chance();
            storage::write(SOURCE, &source.to_string());
            source
        });
        record.add(source, attempt);
        storage::write(storage::RECORD, &record.to_text(zone()));
    }
}

fn done_link(exercise: &Exercise) -> Link {
    PractiseLink::Do(Some(Box::new(exercise.clone()))).into()
}
