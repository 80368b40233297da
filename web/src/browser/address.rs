//! The part of the address behind `#`, and the steps of the browser's history.
//!
//! The crate gloo-history has the same in a `HashHistory`, but ends the app where the browser refuses to write (WebKit
//! does after a hundred times in half a minute) and where an address does not begin with `/` (any reader can type one),
//! and turns a bare address into `#/`. So the browser is asked itself.

use crate::browser::owned;
use gloo_events::EventListener;
use gloo_timers::future::sleep;
use gloo_utils::{document, window};
use leptos::task::spawn_local;
use std::cell::{Cell, RefCell};
use std::time::Duration;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, History};

/// What stands behind `#`, without the sign.
#[must_use]
pub fn hash() -> String {
    let hash = window().location().hash().unwrap_or_default();
    hash.strip_prefix('#').unwrap_or(&hash).to_owned()
}

/// The whole address with another part behind `#`.
#[must_use]
pub fn with_hash(hash: &str) -> String {
    let href = window().location().href().unwrap_or_default();
    let base = href.split('#').next().unwrap_or_default();
    format!("{base}#{hash}")
}

/// So many changes are written at once before there must be pauses between them.
const AT_ONCE: u32 = 10;
/// After so long they may be written at once again.
const RECOVERY: Duration = Duration::from_secs(30);
/// Between two changes when there are many: WebKit refuses more than a hundred in half a minute.
const PAUSE: Duration = Duration::from_millis(400);

thread_local! {
    static SPENT: Cell<u32> = const { Cell::new(0) };
    static RESTING: Cell<bool> = const { Cell::new(false) };
    static WAITING: RefCell<Option<String>> = const { RefCell::new(None) };
}

/// Puts another part behind `#` without a step in the browser's history: at once, or where changes follow each other
/// quickly, the last of them after a pause.
pub fn replace(hash: &str) {
    if RESTING.get() {
        WAITING.replace(Some(hash.to_owned()));
        return;
    }
    write(hash, History::replace_state_with_url);
    SPENT.set(SPENT.get() + 1);
    match SPENT.get() {
        1 => spawn_local(async {
            sleep(RECOVERY).await;
            SPENT.set(0);
        }),
        spent if spent > AT_ONCE => rest(),
        _ => {}
    }
}

/// Puts another part behind `#` as a step in the browser's history. What waited is written first: the step leads away from
/// it, and back to it.
pub fn push(hash: &str) {
    settle();
    write(hash, History::push_state_with_url);
}

/// Names the window, and with it this step in the browser's history.
pub fn entitle(title: &str) {
    document().set_title(title);
}

fn rest() {
    RESTING.set(true);
    spawn_local(async {
        sleep(PAUSE).await;
        RESTING.set(false);
        if let Some(hash) = WAITING.take() {
            replace(&hash);
        }
    });
}

/// Writes now what waits to be written.
fn settle() {
    if let Some(hash) = WAITING.take() {
        write(&hash, History::replace_state_with_url);
    }
}

fn write(hash: &str, how: fn(&History, &JsValue, &str, Option<&str>) -> Result<(), JsValue>) {
    if let Ok(history) = window().history() {
        // Where the browser refuses, the address stays behind until the next change.
        let _ = how(&history, &WAS_HERE, "", Some(&format!("#{hash}")));
    }
}

/// What is written beside each step of the history where the app has been.
const WAS_HERE: JsValue = JsValue::TRUE;

/// Whether the app has been at this step of the history before: the reader went back or forth to it. A link that he follows,
/// pastes or types makes a new one.
#[must_use]
pub fn was_here() -> bool {
    window().history().and_then(|history| history.state()).is_ok_and(|state| state == WAS_HERE)
}

/// Says that the app has been at this step of the history.
pub fn stay() {
    if let Ok(history) = window().history()
        && !was_here()
    {
        let _ = history.replace_state(&WAS_HERE, "");
    }
}

/// Calls back when the reader goes a step in the history, follows a link of the page, or puts an address into the bar, the
/// same one again among them.
pub fn on_change(changed: impl Fn(String) + Clone + 'static) {
    for event in ["popstate", "hashchange"] {
        let changed = changed.clone();
        owned::on_window(event, move || {
            // What waits to be written belongs to the page before.
            WAITING.take();
            changed(hash());
        });
    }
    owned::keep(EventListener::new(&window(), "click", |event| {
        let at = event.target().and_then(|at| at.dyn_into::<Element>().ok());
        if at.is_some_and(|at| at.closest("a[href^='#']").is_ok_and(|link| link.is_some())) {
            settle();
        }
    }));
}
