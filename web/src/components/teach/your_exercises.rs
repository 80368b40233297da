//! Named exercises that are kept on the device: opened, renamed, taken out.

use crate::browser::{clock, field, focus};
use crate::components::live::{each, either, hear, live, press, when};
use crate::components::practise::list_deeds::{UNDO, act};
use crate::state::kept::{Derived, Watched};
use crate::state::practise::Practise;
use crate::state::practise::way_back::{KEEP_IT, named_id};
use crate::state::store::lists::changing::TakeBack;
use crate::state::store::lists::named::{self, Named};
use crate::store::Store;
use crate::words;
use crookwise_practice::{Exercise, LONGEST_TITLE, clean_title};
use crookwise_share::practise::SentExercise;
use leptos::ev::{Event, FocusEvent, KeyboardEvent};
use leptos::prelude::*;

/// The field for another title, by its id.
const NEW_TITLE: &str = "new-title";

/// A button that keeps the exercise which is set. One without a title is kept under the line that stands for it.
pub fn keep_it() -> AnyView {
    let practise = Practise::get();
    let store = Store::get();
    let keep = press(move || {
        let set = practise.exercise.get_untracked();
        let title = clean_title(&words::titles::heading(&set));
        let set = Exercise { title, ..set };
        practise.set(&set);
        practise.kept_it();
        let sent = SentExercise::of(&set);
        act(practise, store, move |kept| {
            Some(match named::keep(kept, &sent, clock::stamp()) {
                Ok(None) => (words::weeks::kept(sent.title()), None),
                Ok(Some(before)) => (words::weeks::replaced(sent.title()), Some(TakeBack::Replaced(before))),
                Err(_) => (words::weeks::NO_ROOM.to_owned(), None),
            })
        });
    });
    view! { <button id=KEEP_IT on:click=keep>{words::weeks::KEEP_THIS_EXERCISE}</button> }.into_any()
}

/// The list, folded.
pub fn your_exercises() -> AnyView {
    let practise = Practise::get();
    let all = Derived::new(move || practise.lists.map(|lists| lists.named.clone()).unwrap_or_default());
    let renamed = Watched::new(None::<Named>);
    let head = live(move || words::weeks::your_exercises(all.read().len()));
    let one = move |at: usize| row(Derived::new(move || all.read().get(at).cloned()), renamed);
    let rows = each(Derived::new(move || 0..all.read().len()), one);
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

fn row(one: Derived<Option<Named>>, renamed: Watched<Option<Named>>) -> AnyView {
    let practise = Practise::get();
    let store = Store::get();
    let title = move || one.map(|one| one.title.clone()).unwrap_or_default();
    let named = move |deed: &'static str| live(move || Some(words::weeks::deed(deed, &title())));
    let away = press(move || {
        let Some(seen) = one.get_untracked() else { return };
        act(practise, store, move |kept| {
            Some(if named::remove(kept, &seen) {
                (words::weeks::taken_out(&seen.title), Some(TakeBack::OutNamed(seen)))
            } else {
                (words::weeks::GONE_MEANWHILE.to_owned(), None)
            })
        });
        focus::to(UNDO.to_owned());
    });
    let rename = press(move || {
        renamed.set(one.get_untracked());
        focus::to(NEW_TITLE.to_owned());
    });
    let is_renamed = move || one.is_some() && *renamed.read() == *one.read();
    let shown = move || {
        let open = press(move || match one.get_untracked().map(|one| one.exercise.open()) {
            Some(Ok(exercise)) => practise.set(&exercise),
            Some(Err(error)) => practise.say(error.to_string()),
            None => {}
        });
        view! { <button id=live(move || one.map(|one| named_id(one.at))) on:click=open>{live(title)}</button> }.into_any()
    };
    view! {
        <li class="row">
            {either(is_renamed, move || new_title(one, renamed), shown)}
            <button aria-label=named(words::weeks::RENAME) on:click=rename>{words::weeks::RENAME}</button>
            <button aria-label=named(words::weeks::TAKE_OUT) on:click=away>{words::weeks::TAKE_OUT}</button>
        </li>
    }
    .into_any()
}

/// The field for another title, kept when it is left or by Enter; Escape leaves the one before.
fn new_title(one: Derived<Option<Named>>, renamed: Watched<Option<Named>>) -> AnyView {
    let practise = Practise::get();
    let store = Store::get();
    let before = untrack(|| one.map(|one| one.title.clone()));
    let keep = move |title: String| {
        // What has been kept by Enter is not kept once more when the field goes.
        let Some(seen) = renamed.get_untracked() else { return };
        renamed.set(None);
        act(practise, store, move |kept| {
            let now = named::rename(kept, &seen, &title)?;
            let said = words::weeks::renamed(&seen.title, &now.title);
            Some((said, Some(TakeBack::Renamed { now, before: seen })))
        });
    };
    let keyed = hear(move |event: KeyboardEvent| {
        let place = one.map(|one| named_id(one.at)).unwrap_or_default();
        match event.key().as_str() {
            "Enter" => keep(field::text(event.as_ref())),
            "Escape" => renamed.set(None),
            _ => return,
        }
        event.prevent_default();
        focus::to(place);
    });
    view! {
        <input
            id=NEW_TITLE
            aria-label=words::weeks::NEW_TITLE
            type="text"
            maxlength=LONGEST_TITLE.to_string()
            autocomplete="off"
            value=before
            on:focus=hear(|event: FocusEvent| field::select_all(&event))
            on:keydown=keyed
            on:change=hear(move |event: Event| keep(field::text(&event)))
            on:blur=hear(move |_: FocusEvent| renamed.set(None))
        />
    }
    .into_any()
}
