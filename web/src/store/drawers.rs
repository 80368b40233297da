//! The drawers: pages, the record, what was set aside. Changed here, read here, told to the other windows.

use super::{Store, at_once};
use crate::browser::clock;
use crate::browser::store::database::{self, DRAWERS, Refusal, Rewrite};
use crate::browser::store::{local, persist, windows};
use crate::state::store::aside::{self, Aside, SetAside};
use crate::state::store::backup::{self, Foreign};
use crate::state::store::desk;
use crate::state::store::entry::What;
use crate::state::store::pages::{self, KeptPage, NoRoom};
use crate::state::store::{Drawers, earlier, record};
use crate::words;
use core::pin::Pin;
use crookwise_practice::record::{Attempt, Record, Zone};
use crookwise_share::ReadPage;
use crookwise_theory::ordered::Ordered;
use leptos::task::spawn_local;
use std::cell::Cell;

thread_local! {
    /// Whether what waited has been taken over since this window was opened.
    static TIDY: Cell<bool> = const { Cell::new(false) };
    /// Whether the browser has been asked for its promise since.
    static ASKED: Cell<bool> = const { Cell::new(false) };
}

/// What the panel of pages shows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shelves {
    /// The reader's pages.
    pub pages: Vec<KeptPage>,
    /// What was set aside.
    pub aside: Vec<Aside>,
    /// Pages on desks that no window has.
    pub left: Vec<KeptPage>,
}

/// The reader's clock.
#[must_use]
pub fn zone() -> Zone {
    Zone::ahead(clock::minutes_ahead())
}

/// Changes drawers, after what cannot be read was set aside. The reader is told what could not be kept or read.
async fn change<T>(
    store: Store,
    drawers: &[&'static str],
    change: impl FnOnce(&mut Drawers) -> T,
) -> Result<T, Refusal> {
    let mut given = None;
    changed(store, drawers, Box::new(|kept| given = Some(change(kept)))).await?;
    given.ok_or(Refusal::Other)
}

/// The same for every change: one future in its box, not one in each that waits for it.
fn changed<'a>(
    store: Store,
    drawers: &'a [&'static str],
    change: Rewrite<'a>,
) -> Pin<Box<dyn Future<Output = Result<(), Refusal>> + 'a>> {
    Box::pin(async move {
        let database = database::the().await;
        let mut found = SetAside::default();
        let sorted: Rewrite<'_> = Box::new(|kept| {
            if drawers.contains(&pages::DRAWER) {
                found = found.and(pages::sort_out(kept));
            }
            if drawers.contains(&record::DRAWER) {
                found = found.and(record::sort_out(kept, zone()));
            }
            change(kept);
        });
        let outcome = database.change(drawers, sorted).await;
        let changed = outcome
            .inspect_err(|refusal| store.notices.say(words::kept::refusal(*refusal == Refusal::Full)))?;
        say(store, found);
        if changed {
            store.news.set(store.news.get_untracked() + 1);
            windows::tell("changed");
            if !database.is_itself() {
                store.notices.say(words::kept::IN_PLACE);
            } else if !ASKED.replace(true) {
                // Not awaited: where the reader is asked, the answer may be long in coming.
                spawn_local(persist::ask());
            }
        }
        Ok(())
    })
}

/// Says what was set aside, if anything.
fn say(store: Store, found: SetAside) {
    if let Some(sentence) = words::kept::set_aside(found.damaged, found.newer) {
        store.notices.say(sentence);
    }
}

/// Takes into the drawers what waits among the texts that are kept at once, once in a window: what earlier versions kept,
/// what could not be kept before, pages that made way on this desk, and desks that nobody has used for long. Each goes
/// from there only when it is safe.
pub async fn tidy(store: Store) {
    if TIDY.replace(true) && !store.has_before() {
        return;
    }
    let read = |name: String| Some((name.clone(), local::read(&name)?));
    // What stands in place of the database waits only where there is one.
    let is_itself = database::the().await.is_itself();
    let waits = |name: &String| earlier::waits(name) && (is_itself || !name.starts_with(earlier::IN_PLACE));
    let ours = local::names(earlier::OURS).into_iter().filter(waits);
    let waiting: Ordered<String, String> = ours.filter_map(read).collect();
    let before = store.desk.with_untracked(|desk| desk.before.clone());
    let old = earlier::long_left(&left_desks(store).await);
    if waiting.is_empty() && before.is_empty() && old.is_empty() {
        return;
    }
    let with = (clock::stamp(), clock::chance(), zone());
    let taken = change(store, &DRAWERS, |kept| {
        let found = earlier::take_over(kept, &waiting, with);
        for (_, desk) in &old {
            earlier::take_desk(kept, desk);
        }
        let left = pages::take_in_before(kept, &before, with.0);
        (found, left)
    });
    let Ok((found, left)) = taken.await else {
        TIDY.set(false);
        return;
    };
    // What an older window has written there in the meantime stays.
    for (name, text) in waiting.iter() {
        if local::read(name).as_ref() == Some(text) {
            local::remove(name);
        }
    }
    for (name, desk) in &old {
        if local::read(name) == Some(desk.write()) {
            local::remove(name);
        }
    }
    let safe: Vec<String> = before.into_iter().filter(|link| !left.contains(link)).collect();
    let desk = store.desk.with_untracked(|desk| desk.without(&safe));
    store.write_desk(desk);
    say(store, found);
}

/// What the panel of pages shows.
///
/// # Errors
/// Where the browser refuses.
pub async fn shelves(store: Store) -> Result<Shelves, Refusal> {
    tidy(store).await;
    let left = left_desks(store).await;
    let left = left.values().rev().flat_map(pages::of_desk).collect();
    let drawers = [pages::DRAWER, aside::DRAWER];
    change(store, &drawers, |kept| Shelves { pages: pages::list(kept), aside: aside::all(kept), left }).await
}

/// The page that is kept under a name.
///
/// # Errors
/// Where the browser refuses.
pub async fn page_named(store: Store, name: &str) -> Result<Option<ReadPage>, Refusal> {
    tidy(store).await;
    let pages = change(store, &[pages::DRAWER, aside::DRAWER], |kept| pages::list(kept)).await?;
    let page = pages.into_iter().find(|page| page.name == name);
    Ok(page.and_then(|page| desk::opened(&page.link).ok()))
}

/// Keeps a page under a name.
///
/// # Errors
/// Where the browser refuses, or there is no room for one more.
pub async fn keep_page(store: Store, name: String, page: ReadPage) -> Result<Result<(), NoRoom>, Refusal> {
    let at = clock::stamp();
    // At once besides, for a window that is closed in the next moment.
    let waiting = at_once(What::Page, &pages::entry(&name, &page, at));
    let outcome =
        change(store, &[pages::DRAWER, aside::DRAWER], |kept| pages::keep(kept, &name, &page, at)).await;
    if let Some(waiting) = waiting {
        local::remove(&waiting);
    }
    outcome
}

/// Removes a page of the list.
///
/// # Errors
/// Where the browser refuses.
pub async fn remove_page(store: Store, page: KeptPage) -> Result<(), Refusal> {
    change(store, &[pages::DRAWER, aside::DRAWER], |kept| pages::remove(kept, &page)).await
}

/// Removes something that was set aside.
///
/// # Errors
/// Where the browser refuses.
pub async fn remove_aside(store: Store, one: Aside) -> Result<(), Refusal> {
    change(store, &[aside::DRAWER], |kept| {
        if kept.get(&one.name) == Some(&one.text) {
            kept.remove(&one.name);
        }
    })
    .await
}

/// Everything as a file, the page on the screen with it.
///
/// # Errors
/// Where the browser refuses.
pub async fn everything(store: Store, page: ReadPage) -> Result<String, Refusal> {
    tidy(store).await;
    change(store, &DRAWERS, |kept| {
        let all = pages::with_page(&pages::list(kept), words::PAGE_ON_SCREEN, &page);
        backup::write(&all, record::text(kept).as_deref(), &aside::all(kept))
    })
    .await
}

/// Takes in a file; gives how many pages found no room, and what could not be read and was set aside.
///
/// # Errors
/// Where the browser refuses, or the file is none of ours.
pub async fn take_in(store: Store, text: String) -> Result<Result<(usize, SetAside), Foreign>, Refusal> {
    let file = match backup::read(&text, clock::stamp()) {
        Ok(file) => file,
        Err(foreign) => return Ok(Err(foreign)),
    };
    let taken = change(store, &DRAWERS, |kept| {
        let mut found = file.found;
        for (what, text) in &file.aside {
            aside::put(kept, *what, text);
        }
        if let Some(record) = &file.record {
            found = found.and(record::join(kept, record, zone()));
        }
        let left = pages::take_in(kept, file.pages);
        // What was set aside when the file was written can perhaps be read here.
        pages::sort_out(kept);
        record::sort_out(kept, zone());
        (left.len(), found)
    });
    Ok(Ok(taken.await?))
}

/// The record, for the reader's clock.
///
/// # Errors
/// Where the browser refuses.
pub async fn record(store: Store) -> Result<Record, Refusal> {
    tidy(store).await;
    change(store, &[record::DRAWER, aside::DRAWER], |kept| record::read(kept, zone())).await
}

/// Adds answers to the record; those that are there already are not added again.
///
/// # Errors
/// Where the browser refuses.
pub async fn add_answers(store: Store, answers: &[Attempt], chance: u32) -> Result<(), Refusal> {
    let drawers = [record::DRAWER, aside::DRAWER];
    change(store, &drawers, |kept| record::add(kept, answers, chance, zone())).await
}

/// Forgets every answer.
///
/// # Errors
/// Where the browser refuses.
pub async fn wipe_record(store: Store) -> Result<(), Refusal> {
    change(store, &[record::DRAWER, aside::DRAWER], record::wipe).await
}

/// The desks that no window has, by name.
async fn left_desks(store: Store) -> Ordered<String, desk::KeptDesk> {
    let claimed = windows::claimed().await;
    let own = store.name.with_untracked(|name| format!("{}{name}", desk::NAMES));
    let free = local::names(desk::NAMES).into_iter().filter(|name| *name != own && !claimed.contains(name));
    free.filter_map(|name| Some((name.clone(), desk::KeptDesk::read(&local::read(&name)?).ok()?))).collect()
}
