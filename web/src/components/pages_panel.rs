//! The reader's own pages, ready margins, and files to keep elsewhere.

use crate::browser::{field, files, focus, storage};
use crate::components::live::{hear, live, press};
use crate::state::kept::Watched;
use crate::state::pages::{self, KeptPage};
use crate::state::ready::READY;
use crate::state::session::Session;
use crate::words;
use leptos::ev::Event;
use leptos::prelude::*;
use leptos::task::spawn_local_scoped;

/// Where the pages are kept.
const PAGES: &str = "crookwise.pages";
/// The name of the file for the reader to keep.
const FILE: &str = "crookwise-pages.txt";

/// Keeps a list on the device; says so where the device refuses.
fn keep(list: Watched<Vec<KeptPage>>, changed: Vec<KeptPage>, said: Watched<String>) {
    let kept = storage::write(PAGES, &pages::write(&changed));
    list.set(changed);
    said.set(if kept { String::new() } else { words::NOT_KEPT.to_owned() });
}

/// What made way for a link goes among the pages, once it is safe there.
fn take_in_set_aside(mine: &mut Vec<KeptPage>) {
    let Some(text) = storage::read(storage::SET_ASIDE) else { return };
    let left = pages::take_in_set_aside(mine, &text, words::PAGE_BEFORE);
    if storage::write(PAGES, &pages::write(mine)) {
        if left.is_empty() {
            storage::remove(storage::SET_ASIDE);
        } else {
            storage::write(storage::SET_ASIDE, &left);
        }
    }
}

/// The panel; `open` is whether it is there.
pub fn pages_panel(open: Watched<bool>) -> AnyView {
    let stored = storage::read(PAGES);
    let (mine, problem) = stored.as_deref().map(pages::read).unwrap_or_default();
    let mut mine = mine;
    take_in_set_aside(&mut mine);
    let list = Watched::new(mine);
    let said = Watched::new(problem.map(|problem| problem.on_device()).unwrap_or_default());
    let done = move || {
        open.set(false);
        focus::to("pages".to_owned());
    };
    view! {
        <section class="card share" aria-label=words::pages::PAGES>
            {keep_this(list, said)}
            {kept(list, said)}
            {ready()}
            {files_row(list, said)}
            <p role="status">{live(move || said.get())}</p>
            <div class="row"><button on:click=press(done)>{words::pages::DONE}</button></div>
        </section>
    }
    .into_any()
}

/// A name for the page on the screen.
fn keep_this(list: Watched<Vec<KeptPage>>, said: Watched<String>) -> AnyView {
    let Session { desk, .. } = Session::get();
    let name = Watched::new(String::new());
    let typed = hear(move |event: Event| name.set(field::text(&event)));
    let act = move || {
        let mut changed = list.get_untracked();
        if pages::keep(&mut changed, &name.read_untracked(), &desk.page.read_untracked()) {
            keep(list, changed, said);
            name.set(String::new());
        } else {
            said.set(words::NO_ROOM_FOR_PAGES.to_owned());
        }
    };
    view! {
        <div class="row keep">
            <label class="field">
                <span>{words::pages::A_NAME_FOR_THIS_PAGE}</span>
                <input
                    aria-label=words::pages::A_NAME_FOR_THIS_PAGE
                    type="text"
                    maxlength="80"
                    autocomplete="off"
                    prop:value=live(move || name.get())
                    on:input=typed
                />
            </label>
            <button class="strong" on:click=press(act)>{words::pages::KEEP_THIS_PAGE}</button>
        </div>
    }
    .into_any()
}

/// The kept pages.
fn kept(list: Watched<Vec<KeptPage>>, said: Watched<String>) -> AnyView {
    let Session { desk, .. } = Session::get();
    let row = move |page: KeptPage| {
        let KeptPage { name, link } = page.clone();
        let away = words::pages::remove(&name);
        let remove = move || {
            let mut changed = list.get_untracked();
            changed.retain(|kept| *kept != page);
            keep(list, changed, said);
        };
        view! {
            <li class="row">
                <button on:click=press(move || desk.open_link(&link))>{name}</button>
                <button aria-label=away on:click=press(remove)>{words::pages::REMOVE}</button>
            </li>
        }
        .into_any()
    };
    let rows = live(move || list.read().iter().cloned().map(row).collect::<Vec<_>>());
    let none = live(move || !list.read().is_empty());
    view! {
        <h2>{words::pages::YOUR_PAGES_ON_THIS_DEVICE}</h2>
        <p class="quiet" hidden=none>{words::pages::NONE_YET}</p>
        <ul class="plain">{rows}</ul>
    }
    .into_any()
}

/// Ready margins of typical pages.
fn ready() -> AnyView {
    let Session { desk, .. } = Session::get();
    let button = move |ready: crate::state::ready::Ready| {
        let act = press(move || {
            if let Some(page) = ready.page() {
                desk.act(|document| document.open(page));
            }
        });
        view! { <button on:click=act>{ready.name}</button> }.into_any()
    };
    view! {
        <h2>{words::pages::READY_MARGINS}</h2>
        <div class="row">{READY.map(button).into_iter().collect::<Vec<_>>()}</div>
        <p class="quiet">{words::pages::ONE_UNDO_AWAY}</p>
    }
    .into_any()
}

/// All pages as a file, and a file of pages taken in.
fn files_row(list: Watched<Vec<KeptPage>>, said: Watched<String>) -> AnyView {
    let Session { desk, .. } = Session::get();
    let save = press(move || {
        // The page on the screen goes with the others: a backup of everything in one tap.
        let all =
            pages::with_page(&list.read_untracked(), words::PAGE_ON_SCREEN, &desk.page.read_untracked());
        if !files::save(FILE, &pages::backup(&all, storage::read(storage::RECORD).as_deref())) {
            said.set(words::NO_FILES.to_owned());
        }
    });
    let take_in = hear(move |event: Event| {
        spawn_local_scoped(async move {
            let Some(text) = files::chosen_text(event).await else {
                said.set(words::FILE_UNREADABLE.to_owned());
                return;
            };
            let (part, record) = pages::parts(&text);
            if let Some(record) = record {
                // Practise joins it to its own when it is opened next.
                storage::write(storage::RECORD_TAKEN_IN, record);
            }
            let (more, problem) = pages::read(part);
            let mut changed = list.get_untracked();
            let left = pages::merge(&mut changed, more);
            keep(list, changed, said);
            if !left.is_empty() {
                said.set(words::NO_ROOM_FOR_PAGES.to_owned());
            }
            if let Some(problem) = problem {
                said.set(problem.to_string());
            }
        });
    });
    view! {
        <h2>{words::pages::A_COPY_TO_KEEP_ELSEWHERE}</h2>
        <div class="row">
            <button on:click=save>{words::pages::SAVE_EVERYTHING_AS_A_FILE}</button>
            <label class="field">
                <span>{words::pages::TAKE_IN_A_FILE_OF_PAGES}</span>
                <input aria-label=words::pages::TAKE_IN_A_FILE_OF_PAGES type="file" accept=".txt,text/plain" on:change=take_in />
            </label>
        </div>
    }
    .into_any()
}
