//! The database: texts under names, several changed at once or none, whichever window changes them at the same time.
//!
//! gloo has nothing for it. It stands on IndexedDB by the crate `idb` 0.6 (MIT or Apache-2.0; kept since 2022, the ground of `rexie`, which would
//! add nothing here). Weighed against it: `indexed-db` has withdrawn its last version, `indexed_db_futures` builds every
//! request by a builder of its own and weighs more.
//!
//! Where the browser refuses its database, what would stand there goes into the texts that are kept at once: there is
//! less room, and the next visit with a database takes it over.

use crate::browser::store::local;
use crookwise_theory::ordered::Ordered;
use gloo_events::EventListener;
use gloo_timers::future::TimeoutFuture;
use gloo_utils::window;
use idb::{
    Database as Opened, DatabaseEvent, Error, Factory, ObjectStoreParams, Transaction, TransactionMode,
};
use std::cell::{Cell, RefCell};
use std::future::IntoFuture;
use std::pin::pin;
use std::rc::Rc;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::spawn_local;

/// The database's name.
const NAME: &str = "crookwise";
/// Its version, raised when another drawer is added.
const VERSION: u32 = 3;
/// Every drawer there is.
pub const DRAWERS: [&str; 4] = ["pages", "record", "aside", "lists"];
/// The drawer of what is said of opened scores.
pub const SCORES: &str = "scores";
/// The drawer of their files, which are bytes (`super::files`).
pub const FILES: &str = "files";
/// Milliseconds after which a database that does not answer counts as refused.
const PATIENCE: u32 = 5_000;
/// Where things stand in place of the database.
const IN_PLACE: &str = "crookwise.in/";

/// What is kept: texts by their names, each name beginning with its drawer: `pages/Corni`.
pub type Texts = Ordered<String, String>;

/// What is done with some texts; boxed, so that there is one way through the database and not one for each change.
pub type Rewrite<'a> = Box<dyn FnOnce(&mut Texts) + 'a>;

/// Why something was not kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// There is no more room on the device.
    Full,
    /// The browser refuses for another reason.
    Other,
}

thread_local! {
    static THE: RefCell<Option<Rc<Database>>> = const { RefCell::new(None) };
    /// What is under way, by number.
    static UNDER_WAY: RefCell<Vec<(u32, Transaction)>> = const { RefCell::new(Vec::new()) };
    static NUMBER: Cell<u32> = const { Cell::new(0) };
    static LEAVING: RefCell<Option<EventListener>> = const { RefCell::new(None) };
    /// Whether it has been closed since it was opened.
    static CLOSED: Cell<bool> = const { Cell::new(false) };
}

/// The database of this window, opened when it is first wanted.
pub async fn the() -> Rc<Database> {
    if CLOSED.take() {
        close();
    }
    if let Some(known) = THE.with_borrow(Clone::clone) {
        return known;
    }
    let opened = Database::open().await;
    // Whoever else waited for it may have been quicker.
    if let Some(known) = THE.with_borrow(Clone::clone) {
        if let Some(second) = &opened.opened {
            second.close();
        }
        return known;
    }
    let opened = Rc::new(opened);
    THE.replace(Some(Rc::clone(&opened)));
    opened
}

/// The database, or what stands in its place.
#[derive(Debug)]
pub struct Database {
    pub(super) opened: Option<Opened>,
}

impl Database {
    /// Opens it; where the browser refuses or does not answer, what stands in its place. One that comes too late is closed
    /// again: nobody would close it when another window wants it changed.
    async fn open() -> Self {
        use futures_util::future::{Either, select};
        let opened = match select(Box::pin(open()), pin!(TimeoutFuture::new(PATIENCE))).await {
            Either::Left((opened, _)) => opened.ok(),
            Either::Right(((), late)) => {
                spawn_local(async move {
                    if let Ok(opened) = late.await {
                        opened.close();
                    }
                });
                None
            }
        };
        Self { opened }
    }

    /// Whether it is the database itself.
    #[must_use]
    pub const fn is_itself(&self) -> bool {
        self.opened.is_some()
    }

    /// Reads some drawers, has them changed, and keeps what has changed: all of it or nothing. No other window changes
    /// them in between. Gives whether anything has.
    ///
    /// # Errors
    /// Where the browser refuses; then nothing has changed.
    pub async fn change(&self, drawers: &[&'static str], change: Rewrite<'_>) -> Result<bool, Refusal> {
        match &self.opened {
            Some(opened) => in_database(opened, drawers, change).await.map_err(|error| {
                // It may have been closed under us: next time it is opened anew.
                CLOSED.set(true);
                refusal(&error)
            }),
            None => in_place(drawers, change),
        }
    }
}

/// Closes the database of this window; the next that wants it opens it anew. One that is only let go stays open until the
/// browser tidies up, and holds up whoever wants it changed.
fn close() {
    if let Some(opened) = THE.take().as_ref().and_then(|database| database.opened.as_ref()) {
        opened.close();
    }
}

/// When the page is left, what is under way is given up and the database closed: what matters is kept at once besides. A
/// page that the browser only puts away would hold the database for ever, against the page that comes after it (seen in
/// WebKit).
fn give_up_when_left() {
    let give_up = |_: &web_sys::Event| {
        for (_, transaction) in UNDER_WAY.take() {
            // What has ended in the meantime refuses.
            let _ = transaction.abort();
        }
        close();
    };
    LEAVING.with_borrow_mut(|listener| {
        listener.get_or_insert_with(|| EventListener::new(&window(), "pagehide", give_up));
    });
}

async fn open() -> Result<Opened, Error> {
    give_up_when_left();
    let mut request = Factory::new()?.open(NAME, Some(VERSION))?;
    request.on_upgrade_needed(|event| {
        let Ok(database) = event.database() else { return };
        let there = database.store_names();
        let all = DRAWERS.into_iter().chain([SCORES, FILES]);
        for drawer in all.filter(|drawer| !there.iter().any(|known| known == drawer)) {
            let _ = database.create_object_store(drawer, ObjectStoreParams::new());
        }
    });
    let mut opened = request.into_future().await?;
    // A newer version of the app in another window adds a drawer: this one makes way, and says so when it is to keep.
    opened.on_version_change(|event| {
        if let Some(database) = event.target().and_then(|target| Opened::try_from(JsValue::from(target)).ok())
        {
            database.close();
        }
        CLOSED.set(true);
    });
    opened.on_close(|_| CLOSED.set(true));
    Ok(opened)
}

async fn in_database(opened: &Opened, drawers: &[&'static str], change: Rewrite<'_>) -> Result<bool, Error> {
    let transaction = opened.transaction(drawers, TransactionMode::ReadWrite)?;
    let number = NUMBER.get().wrapping_add(1);
    NUMBER.set(number);
    if let Some(drawer) = drawers.first() {
        let same = transaction.object_store(drawer)?.transaction();
        UNDER_WAY.with_borrow_mut(|all| all.push((number, same)));
    }
    let outcome = in_transaction(transaction, drawers, change).await;
    UNDER_WAY.with_borrow_mut(|all| all.retain(|(one, _)| *one != number));
    outcome
}

async fn in_transaction(
    transaction: Transaction,
    drawers: &[&'static str],
    change: Rewrite<'_>,
) -> Result<bool, Error> {
    let mut before = Texts::default();
    for drawer in drawers {
        let store = transaction.object_store(drawer)?;
        let (names, texts) = (store.get_all_keys(None, None)?, store.get_all(None, None)?);
        let (names, texts) = (names.await?, texts.await?);
        for (name, text) in names.iter().zip(&texts) {
            if let (Some(name), Some(text)) = (name.as_string(), text.as_string()) {
                before.insert(format!("{drawer}/{name}"), text);
            }
        }
    }
    let mut after = before.clone();
    change(&mut after);
    let mut witness = None;
    for (name, text) in differences(&before, &after) {
        let Some((drawer, name)) = name.split_once('/') else { continue };
        let store = transaction.object_store(drawer)?;
        // What goes wrong with one of them ends the whole transaction, which is awaited.
        match text {
            Some(text) => drop(store.put(&text.into(), Some(&name.into()))?),
            None => drop(store.delete(JsValue::from(name))?),
        }
        witness = Some(store.transaction());
    }
    if transaction.await?.is_committed() {
        return Ok(before != after);
    }
    Err(witness.and_then(|ended| ended.error()).map_or(Error::DomExceptionNotFound, Error::DomException))
}

/// Every name whose text differs, with the text that it has now.
fn differences<'a>(before: &'a Texts, after: &'a Texts) -> Vec<(&'a str, Option<&'a str>)> {
    let gone = before.keys().filter(|name| !after.contains_key(*name)).map(|name| (name.as_str(), None));
    let new = after.iter().filter(|(name, text)| before.get(*name) != Some(text));
    gone.chain(new.map(|(name, text)| (name.as_str(), Some(text.as_str())))).collect()
}

pub(super) fn refusal(error: &Error) -> Refusal {
    match error {
        Error::DomException(exception) if exception.name() == "QuotaExceededError" => Refusal::Full,
        _ => Refusal::Other,
    }
}

/// The same in place of the database. Nothing comes in between: a window does this in one go.
fn in_place(drawers: &[&'static str], change: Rewrite<'_>) -> Result<bool, Refusal> {
    let before = standing_in_place(drawers);
    let mut after = before.clone();
    change(&mut after);
    let mut done = Vec::new();
    for (name, text) in differences(&before, &after) {
        let kept = format!("{IN_PLACE}{name}");
        let written = match text {
            Some(text) => local::write(&kept, text),
            None => {
                local::remove(&kept);
                true
            }
        };
        done.push(name);
        if !written {
            // As it was, then: all or nothing.
            for name in done {
                let kept = format!("{IN_PLACE}{name}");
                match before.get(name) {
                    Some(text) => drop(local::write(&kept, text)),
                    None => local::remove(&kept),
                }
            }
            return Err(Refusal::Other);
        }
    }
    Ok(before != after)
}

/// What stands in place of the database.
fn standing_in_place(drawers: &[&'static str]) -> Texts {
    let of_drawer = |drawer: &&str| {
        let start = format!("{IN_PLACE}{drawer}/");
        let names = local::names(&start).into_iter();
        names.filter_map(|kept| Some((kept.strip_prefix(IN_PLACE)?.to_owned(), local::read(&kept)?)))
    };
    drawers.iter().flat_map(of_drawer).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_differs_is_written() {
        let kept = |pairs: &[(&str, &str)]| -> Texts {
            pairs.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect()
        };
        let before = kept(&[("pages/a", "1"), ("pages/b", "2"), ("pages/c", "3")]);
        let after = kept(&[("pages/a", "1"), ("pages/b", "4"), ("pages/d", "5")]);
        assert_eq!(
            differences(&before, &after),
            [("pages/c", None), ("pages/b", Some("4")), ("pages/d", Some("5"))]
        );
        assert!(differences(&before, &before).is_empty());
    }
}
