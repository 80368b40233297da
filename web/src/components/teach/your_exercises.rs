//! Named exercises that are kept on the device: opened, renamed, taken out.

use crate::browser::{clock, field};
use crate::components::live::{either, hear, live, press, when};
use crate::components::practise::list_deeds::act;
use crate::state::kept::{Derived, Watched};
use crate::state::practise::Practise;
use crate::state::store::lists::changing::TakeBack;
use crate::state::store::lists::named::{self, Named};
use crate::store::Store;
use crate::words;
use crookwise_practice::{Exercise, LONGEST_TITLE, clean_title};
use crookwise_share::practise::SentExercise;
use leptos::ev::Event;
use leptos::prelude::*;

/// A button that keeps the exercise which is set. One without a title is kept under the line that stands for it.
pub fn keep_it() -> AnyView {
    let practise = Practise::get();
    let store = Store::get();
    let keep = press(move || {
        let set = practise.exercise.get_untracked();
        let title = clean_title(&words::titles::heading(&set));
        let set = Exercise { title, ..set };
        practise.set(&set);
        let sent = SentExercise::of(&set);
        act(practise, store, move |kept| {
            Some(match named::keep(kept, &sent, clock::stamp()) {
                Ok(None) => (words::weeks::kept(sent.title()), None),
                Ok(Some(before)) => (words::weeks::replaced(sent.title()), Some(TakeBack::Replaced(before))),
                Err(_) => (words::weeks::NO_ROOM.to_owned(), None),
            })
        });
    });
    view! { <button on:click=keep>{words::weeks::KEEP_THIS_EXERCISE}</button> }.into_any()
}

/// The list, folded.
pub fn your_exercises() -> AnyView {
    let practise = Practise::get();
    let all = Derived::new(move || practise.lists.map(|lists| lists.named.clone()).unwrap_or_default());
    let renamed = Watched::new(None::<Named>);
    let head = live(move || words::weeks::your_exercises(all.read().len()));
    let rows = live(move || {
        let row = |one: &Named| row(one.clone(), renamed);
        all.read().iter().map(row).collect::<Vec<_>>()
    });
    let none = || view! { <p class="quiet">{words::weeks::NONE_NAMED}</p> }.into_any();
    view! {
        <details class="card your-exercises">
            <summary>{head}</summary>
            {when(move || all.read().is_empty(), none)}
            <ul class="plain">{rows}</ul>
        </details>
    }
    .into_any()
}

fn row(one: Named, renamed: Watched<Option<Named>>) -> AnyView {
    let practise = Practise::get();
    let store = Store::get();
    let seen = one.clone();
    let away = press(move || {
        let seen = seen.clone();
        act(practise, store, move |kept| {
            Some(if named::remove(kept, &seen) {
                (words::weeks::taken_out(&seen.title), Some(TakeBack::OutNamed(seen)))
            } else {
                (words::weeks::GONE_MEANWHILE.to_owned(), None)
            })
        });
    });
    let title = one.title.clone();
    let names = [words::weeks::RENAME, words::weeks::TAKE_OUT].map(|deed| words::weeks::deed(deed, &title));
    let [rename_name, away_name] = names;
    let begin = one.clone();
    let rename = press(move || renamed.set(Some(begin.clone())));
    let is_renamed = {
        let one = one.clone();
        move || renamed.map(|renamed| *renamed == one).unwrap_or_default()
    };
    let sent = one.exercise.clone();
    let shown = move || {
        let (title, sent) = (title.clone(), sent.clone());
        let open = press(move || match sent.open() {
            Ok(exercise) => practise.set(&exercise),
            Err(error) => practise.say(error.to_string()),
        });
        view! { <button on:click=open>{title}</button> }.into_any()
    };
    let field = move || new_title(one.clone(), renamed);
    view! {
        <li class="row">
            {either(is_renamed, field, shown)}
            <button aria-label=rename_name on:click=rename>{words::weeks::RENAME}</button>
            <button aria-label=away_name on:click=away>{words::weeks::TAKE_OUT}</button>
        </li>
    }
    .into_any()
}

/// The field for another title, kept when it is left.
fn new_title(one: Named, renamed: Watched<Option<Named>>) -> AnyView {
    let practise = Practise::get();
    let store = Store::get();
    let before = one.title.clone();
    let typed = hear(move |event: Event| {
        let (title, one) = (field::text(&event), one.clone());
        renamed.set(None);
        act(practise, store, move |kept| {
            let now = named::rename(kept, &one, &title)?;
            Some((
                words::weeks::renamed(&one.title, &now.title),
                Some(TakeBack::Renamed { now, before: one }),
            ))
        });
    });
    view! {
        <input
            aria-label=words::weeks::NEW_TITLE
            type="text"
            maxlength=LONGEST_TITLE.to_string()
            autocomplete="off"
            value=before
            on:change=typed
        />
    }
    .into_any()
}
