//! The reader's own pages, ready margins, what was set aside, and files to keep elsewhere.

use crate::browser::store::database::Refusal;
use crate::browser::{field, files, focus};
use crate::components::live::{hear, live, press, when};
use crate::components::sheet;
use crate::state::kept::{Watched, follow};
use crate::state::ready::READY;
use crate::state::session::Session;
use crate::state::store::aside::Aside;
use crate::state::store::desk::opened;
use crate::state::store::pages::{self, KeptPage};
use crate::store::Store;
use crate::store::drawers::{self, Shelves};
use crate::words;
use leptos::ev::Event;
use leptos::prelude::*;
use leptos::task::spawn_local;

/// The name of the file for the reader to keep.
const FILE: &str = "crookwise-pages.txt";
/// The name of the file with something that was set aside.
const ASIDE_FILE: &str = "crookwise-set-aside.txt";

/// The heading of the reader's pages, by its id: the keyboard is there when a page has gone.
const YOURS: &str = "your-pages";

/// What the parts of the panel share; copy it.
#[derive(Clone, Copy)]
struct Panel {
    store: Store,
    session: Session,
    shelves: Watched<Shelves>,
    said: Watched<String>,
}

impl Panel {
    /// Says what the browser refused, or nothing any more.
    fn settle(self, outcome: Result<(), Refusal>) {
        let refused = outcome.err().map(|refusal| words::kept::refusal(refusal == Refusal::Full));
        self.said.set(refused.unwrap_or_default().to_owned());
    }

    /// Takes a page off the shelf and puts it on the desk.
    fn open(self, link: &str, name: &str) {
        if let Ok(page) = opened(link) {
            self.session.notices.show(None);
            self.session.desk.act(|document| document.open(page));
            self.session.desk.is_kept_as(name);
            sheet::shut(self.session.panels);
        }
    }
}

/// The panel. What is opened from it shuts it.
pub fn pages_panel() -> AnyView {
    let panel = Panel {
        store: Store::get(),
        session: Session::get(),
        shelves: Watched::new(Shelves::default()),
        said: Watched::new(String::new()),
    };
    follow(move || {
        let _ = panel.store.news.get();
        spawn_local(async move {
            if let Ok(shelves) = drawers::shelves(panel.store).await {
                panel.shelves.set(shelves);
            }
        });
    });
    view! {
        {keep_this(panel)}
        {kept(panel)}
        {when(move || panel.shelves.with(|shelves| !shelves.left.is_empty()), move || left(panel))}
        {when(move || panel.shelves.with(|shelves| !shelves.aside.is_empty()), move || aside(panel))}
        {ready(panel)}
        {files_row(panel)}
        <p role="status">{live(move || panel.said.get())}</p>
    }
    .into_any()
}

/// A name for the page on the screen.
fn keep_this(panel: Panel) -> AnyView {
    let name = Watched::new(String::new());
    let typed = hear(move |event: Event| name.set(field::text(&event)));
    let act = move || {
        let page = panel.session.desk.page.get_untracked();
        let given = name.get_untracked();
        spawn_local(async move {
            match drawers::keep_page(panel.store, given.clone(), page).await {
                Ok(Ok(())) => {
                    panel.session.desk.is_kept_as(&pages::clean(&given));
                    name.set(String::new());
                    panel.settle(Ok(()));
                }
                Ok(Err(_)) => panel.said.set(words::NO_ROOM_FOR_PAGES.to_owned()),
                Err(refusal) => panel.settle(Err(refusal)),
            }
        });
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
fn kept(panel: Panel) -> AnyView {
    let row = move |page: KeptPage| {
        let KeptPage { name, link, .. } = page.clone();
        let away = words::pages::remove(&name);
        let remove = move || {
            let page = page.clone();
            spawn_local(async move { panel.settle(drawers::remove_page(panel.store, page).await) });
            focus::now(YOURS);
        };
        let called = name.clone();
        view! {
            <li class="row">
                <button on:click=press(move || panel.open(&link, &called))>{name}</button>
                <button aria-label=away on:click=press(remove)>{words::pages::REMOVE}</button>
            </li>
        }
        .into_any()
    };
    let rows = live(move || panel.shelves.read().pages.iter().cloned().map(row).collect::<Vec<_>>());
    let none = live(move || !panel.shelves.read().pages.is_empty());
    view! {
        <h2 id=YOURS tabindex="-1">{words::pages::YOUR_PAGES_ON_THIS_DEVICE}</h2>
        <p class="quiet" hidden=none>{words::pages::NONE_YET}</p>
        <ul class="plain">{rows}</ul>
    }
    .into_any()
}

/// Pages on the desks of windows that are gone.
fn left(panel: Panel) -> AnyView {
    let row = move |page: KeptPage| {
        let shown = opened(&page.link).ok()?;
        let staves = shown.passage.staves();
        let label = staves.first().map(|staff| staff.label.as_str()).unwrap_or_default();
        let name = words::kept::left(label, staves.len());
        let open = press(move || panel.open(&page.link, &page.name));
        Some(view! { <li class="row"><button on:click=open>{name}</button></li> }.into_any())
    };
    let rows = live(move || panel.shelves.read().left.iter().cloned().filter_map(row).collect::<Vec<_>>());
    view! {
        <h2>{words::kept::LEFT_IN_OTHER_WINDOWS}</h2>
        <ul class="plain">{rows}</ul>
    }
    .into_any()
}

/// What could not be read.
fn aside(panel: Panel) -> AnyView {
    let row = move |one: Aside| {
        let name = words::kept::aside(one.what.word());
        let (save_name, away) = (
            words::kept::of(words::kept::SAVE_AS_A_FILE, name),
            words::kept::of(words::kept::REMOVE_FOR_GOOD, name),
        );
        let text = one.text.clone();
        let save = press(move || {
            if !files::save(ASIDE_FILE, &text) {
                panel.said.set(words::NO_FILES.to_owned());
            }
        });
        let remove = press(move || {
            let one = one.clone();
            spawn_local(async move { panel.settle(drawers::remove_aside(panel.store, one).await) });
        });
        view! {
            <li class="row">
                <span>{name}</span>
                <button aria-label=save_name on:click=save>{words::kept::SAVE_AS_A_FILE}</button>
                <button aria-label=away on:click=remove>{words::kept::REMOVE_FOR_GOOD}</button>
            </li>
        }
        .into_any()
    };
    let rows = live(move || panel.shelves.read().aside.iter().cloned().map(row).collect::<Vec<_>>());
    view! {
        <h2>{words::kept::SET_ASIDE}</h2>
        <p class="quiet">{words::kept::ASIDE}</p>
        <ul class="plain">{rows}</ul>
    }
    .into_any()
}

/// Ready margins of typical pages.
fn ready(panel: Panel) -> AnyView {
    let button = move |ready: crate::state::ready::Ready| {
        let act = press(move || {
            if let Some(page) = ready.page() {
                panel.session.desk.act(|document| document.open(page));
                sheet::shut(panel.session.panels);
            }
        });
        view! { <button on:click=act>{ready.name}</button> }.into_any()
    };
    view! {
        <h2>{words::pages::READY_MARGINS}</h2>
        <div class="listed">{READY.map(button).into_iter().collect::<Vec<_>>()}</div>
        <p class="quiet">{words::pages::ONE_UNDO_AWAY}</p>
    }
    .into_any()
}

/// All pages as a file, and a file of pages taken in.
fn files_row(panel: Panel) -> AnyView {
    let save = press(move || {
        // The page on the screen goes with the others: a backup of everything in one tap.
        let page = panel.session.desk.page.get_untracked();
        spawn_local(async move {
            match drawers::everything(panel.store, page).await {
                Ok(file) if files::save(FILE, &file) => {}
                Ok(_) => panel.said.set(words::NO_FILES.to_owned()),
                Err(refusal) => panel.settle(Err(refusal)),
            }
        });
    });
    let take_in = hear(move |event: Event| {
        spawn_local(async move {
            let Some(text) = files::chosen_text(event).await else {
                panel.said.set(words::FILE_UNREADABLE.to_owned());
                return;
            };
            panel.said.set(match drawers::take_in(panel.store, text).await {
                Ok(Ok((0, found))) => words::kept::set_aside(found.damaged, found.newer).unwrap_or_default(),
                Ok(Ok(_)) => words::NO_ROOM_FOR_PAGES.to_owned(),
                Ok(Err(_)) => words::pages::FOREIGN_FILE.to_owned(),
                Err(refusal) => words::kept::refusal(refusal == Refusal::Full).to_owned(),
            });
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
