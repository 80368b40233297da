//! The drawers: pages, the record, what was set aside. Changed here, read here, told to the other windows.

use super::{CROOKS, Store, at_once};
use crate::browser::clock;
use crate::browser::store::database::{self, DRAWERS, Refusal, Rewrite, SCORES};
use crate::browser::store::{local, persist, windows};
use crate::state::store::aside::{self, Aside, SetAside};
use crate::state::store::backup::{self, Foreign};
use crate::state::store::desk;
use crate::state::store::entry::What;
use crate::state::store::lists::done::Done;
use crate::state::store::lists::{self, Lists};
use crate::state::store::pages::{self, KeptPage, NoRoom};
use crate::state::store::record::{self, KEEPER, Keeper};
use crate::state::store::{Drawers, earlier, scores};
use crate::words;
use core::pin::Pin;
use crookwise_practice::record::{Record, Zone};
use crookwise_share::ReadPage;
use crookwise_theory::ordered::Ordered;
use leptos::task::spawn_local;
use leptos::wasm_split::{SplitLoaderError, wasm_split};
use std::cell::Cell;

/// Drawers for what has nothing to do with the record.
const PAGES_AND_ASIDE: [&str; 2] = [pages::DRAWER, aside::DRAWER];
/// All but the record's.
const BUT_THE_RECORD: [&str; 3] = [pages::DRAWER, lists::DRAWER, aside::DRAWER];
/// For exercises and courses alone.
const LISTS_AND_ASIDE: [&str; 2] = [lists::DRAWER, aside::DRAWER];
/// And for the record alone.
const RECORD_AND_ASIDE: [&str; 2] = [record::DRAWER, aside::DRAWER];

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

#[wasm_split(practise, wasm_split_path = leptos::wasm_split, fallible)]
fn fetched_keeper() -> Result<Keeper, SplitLoaderError> {
    Ok(KEEPER)
}

/// Changes drawers, after what cannot be read was set aside: of the record only by its keeper. The reader is told what could
/// not be kept or read.
pub(super) async fn change<T>(
    store: Store,
    drawers: &[&'static str],
    keeper: Option<Keeper>,
    change: impl FnOnce(&mut Drawers) -> T,
) -> Result<T, Refusal> {
    let mut given = None;
    changed(store, drawers, keeper, Box::new(|kept| given = Some(change(kept)))).await?;
    given.ok_or(Refusal::Other)
}

/// The same for every change: one future in its box, not one in each that waits for it.
fn changed<'a>(
    store: Store,
    drawers: &'a [&'static str],
    keeper: Option<Keeper>,
    change: Rewrite<'a>,
) -> Pin<Box<dyn Future<Output = Result<(), Refusal>> + 'a>> {
    Box::pin(async move {
        let database = database::the().await;
        let mut found = SetAside::default();
        let sorted: Rewrite<'_> = Box::new(|kept| {
            if drawers.contains(&pages::DRAWER) {
                found = found.and(pages::sort_out(kept));
            }
            if drawers.contains(&lists::DRAWER) {
                found = found.and(lists::sort_out(kept));
            }
            if drawers.contains(&SCORES) {
                found = found.and(scores::sort_out(kept));
            }
            if let Some(keeper) = keeper {
                found = found.and((keeper.sort_out)(kept, zone()));
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
    let of = |of_record: bool| {
        let mine = waiting.iter().filter(move |(name, _)| earlier::waits_for_record(name) == of_record);
        mine.map(|(name, text)| (name.clone(), text.clone())).collect::<Ordered<_, _>>()
    };
    let (others, mut of_record) = (of(false), of(true));
    let keeper = if of_record.is_empty() { None } else { fetched_keeper().await.ok() };
    if keeper.is_none() && !of_record.is_empty() {
        // Its code cannot be fetched: what waits for the record waits on.
        of_record = Ordered::default();
        TIDY.set(false);
    }
    let before = store.desk.with_untracked(|desk| desk.before.clone());
    let old = earlier::long_left(&left_desks(store).await);
    if others.is_empty() && of_record.is_empty() && before.is_empty() && old.is_empty() {
        return;
    }
    let (at, chance) = (clock::stamp(), clock::chance());
    let drawers: &[&str] = if keeper.is_some() { &DRAWERS } else { &BUT_THE_RECORD };
    let taken = change(store, drawers, keeper, |kept| {
        let mut found = earlier::take_over(kept, &others, at);
        if let Some(keeper) = keeper {
            found = found.and((keeper.take_over)(kept, &of_record, chance, zone()));
        }
        for (_, desk) in &old {
            earlier::take_desk(kept, desk);
        }
        let left = pages::take_in_before(kept, &before, at);
        (found, left)
    });
    let Ok((found, left)) = taken.await else {
        TIDY.set(false);
        return;
    };
    // What an older window has written there in the meantime stays.
    for (name, text) in others.iter().chain(of_record.iter()) {
        if local::read(name).as_ref() == Some(text) {
            local::remove(name);
        }
    }
    for (name, desk) in &old {
        if local::read(name) == Some(desk.write()) {
            local::remove(name);
            // No window will have this desk again, and what stood in Crooks there may be long.
            local::remove(&name.replacen(desk::NAMES, CROOKS, 1));
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
    change(store, &PAGES_AND_ASIDE, None, |kept| Shelves {
        pages: pages::list(kept),
        aside: aside::all(kept),
        left,
    })
    .await
}

/// The page that is kept under a name.
///
/// # Errors
/// Where the browser refuses.
pub async fn page_named(store: Store, name: &str) -> Result<Option<ReadPage>, Refusal> {
    tidy(store).await;
    let pages = change(store, &PAGES_AND_ASIDE, None, |kept| pages::list(kept)).await?;
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
    let outcome = change(store, &PAGES_AND_ASIDE, None, |kept| pages::keep(kept, &name, &page, at)).await;
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
    change(store, &PAGES_AND_ASIDE, None, |kept| pages::remove(kept, &page)).await
}

/// Removes something that was set aside.
///
/// # Errors
/// Where the browser refuses.
pub async fn remove_aside(store: Store, one: Aside) -> Result<(), Refusal> {
    change(store, &[aside::DRAWER], None, |kept| {
        if kept.get(&one.name) == Some(&one.text) {
            kept.remove(&one.name);
        }
    })
    .await
}

/// Everything as a file, the page on the screen with it, and the record as it is kept.
///
/// # Errors
/// Where the browser refuses.
pub async fn everything(store: Store, page: ReadPage) -> Result<String, Refusal> {
    tidy(store).await;
    change(store, &DRAWERS, None, |kept| {
        let all = pages::with_page(&pages::list(kept), words::PAGE_ON_SCREEN, &page);
        backup::write(&all, &lists::entries(kept), record::text(kept).as_deref(), &aside::all(kept))
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
    // What was set aside when the file was written can perhaps be read here.
    let has_record = file.record.is_some() || file.aside.iter().any(|(what, _)| *what == What::Record);
    let keeper = if has_record { fetched_keeper().await.ok() } else { None };
    let drawers: &[&str] = if has_record { &DRAWERS } else { &BUT_THE_RECORD };
    let taken = change(store, drawers, keeper, |kept| {
        let mut found = file.found;
        for (what, text) in &file.aside {
            aside::put(kept, *what, text);
        }
        match (&file.record, keeper) {
            (Some(record), Some(keeper)) => found = found.and((keeper.join)(kept, record, zone())),
            // Where the code that joins cannot be fetched, it waits aside until Practise is opened.
            (Some(record), None) => drop(aside::put(kept, What::Record, record)),
            (None, _) => {}
        }
        let left = pages::take_in(kept, file.pages);
        for (what, text) in &file.lists {
            // What finds no room or is not understood waits aside.
            if lists::take_in(kept, *what, text) != Ok(Ok(())) {
                aside::put(kept, *what, text);
            }
        }
        pages::sort_out(kept);
        lists::sort_out(kept);
        if let Some(keeper) = keeper {
            (keeper.sort_out)(kept, zone());
        }
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
    change(store, &RECORD_AND_ASIDE, Some(KEEPER), |kept| record::read(kept, zone())).await
}

/// Adds answers to the record; those that are there already are not added again.
///
/// # Errors
/// Where the browser refuses.
pub async fn add_answers(store: Store, answers: &Record, chance: u32) -> Result<(), Refusal> {
    change(store, &RECORD_AND_ASIDE, Some(KEEPER), |kept| record::add(kept, answers, chance, zone())).await
}

/// Forgets every answer, and which exercises were done.
///
/// # Errors
/// Where the browser refuses.
pub async fn wipe_record(store: Store) -> Result<(), Refusal> {
    change(store, &DRAWERS, Some(KEEPER), |kept| {
        record::wipe(kept);
        lists::done::wipe(kept);
    })
    .await
}

/// Exercises and courses as they are kept.
///
/// # Errors
/// Where the browser refuses.
pub async fn lists(store: Store) -> Result<Lists, Refusal> {
    tidy(store).await;
    change(store, &LISTS_AND_ASIDE, None, |kept| lists::all(kept)).await
}

/// Changes exercises or courses.
///
/// # Errors
/// Where the browser refuses.
pub async fn change_lists<T>(store: Store, deed: impl FnOnce(&mut Drawers) -> T) -> Result<T, Refusal> {
    change(store, &LISTS_AND_ASIDE, None, deed).await
}

/// Remembers that an exercise was done.
pub async fn remember_done(store: Store, done: Done) {
    // At once besides, for a window that is closed in the next moment.
    let waiting = at_once(What::Done, &done.write());
    let outcome = change_lists(store, |kept| lists::done::join(kept, done)).await;
    if let Some(waiting) = waiting.filter(|_| outcome.is_ok()) {
        local::remove(&waiting);
    }
}

/// The desks that no window has, by name.
async fn left_desks(store: Store) -> Ordered<String, desk::KeptDesk> {
    let claimed = windows::claimed().await;
    let own = store.name.with_untracked(|name| format!("{}{name}", desk::NAMES));
    let free = local::names(desk::NAMES).into_iter().filter(|name| *name != own && !claimed.contains(name));
    free.filter_map(|name| Some((name.clone(), desk::KeptDesk::read(&local::read(&name)?).ok()?))).collect()
}
