//! The other windows of the same reader: which of them has what, and word from one to all others.
//!
//! What a window claims is its own until it is gone, by the browser's locks (W3C Web Locks). A page that was not fetched
//! over a secure connection has none: there each window answers for what it has when another asks. Neither gloo
//! nor another crate covers locks or channels.

use gloo_events::EventListener;
use gloo_timers::future::TimeoutFuture;
use gloo_utils::window;
use js_sys::{Array, Function, Object, Promise, Reflect};
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{BroadcastChannel, MessageEvent};

/// The channel on which windows say what has changed.
const NEWS: &str = "crookwise.news";
/// The channel on which windows ask for what the others have, where there are no locks.
const CLAIMS: &str = "crookwise.claims";
const WHO_HAS: &str = "crookwise.who";
/// Milliseconds within which a window answers.
const ANSWERED: u32 = 120;

/// A channel with the listener that hears it.
type Heard = (BroadcastChannel, EventListener);

thread_local! {
    /// What this window answers for, where there are no locks.
    static ANSWERING: RefCell<Vec<Heard>> = const { RefCell::new(Vec::new()) };
    /// Where this window hears of changes.
    static HEARING: RefCell<Option<Heard>> = const { RefCell::new(None) };
}

/// Claims the first of these names that no other window has, until this window is gone; `None` where others have all.
pub async fn claim(names: &[String]) -> Option<String> {
    let Some(locks) = locks() else { return claim_by_asking(names).await };
    for name in names {
        if lock(&locks, name).await {
            return Some(name.clone());
        }
    }
    None
}

fn locks() -> Option<JsValue> {
    let navigator: JsValue = window().navigator().into();
    Reflect::get(&navigator, &"locks".into()).ok().filter(JsValue::is_object)
}

/// Whether the lock of this name was free and now is ours. Where the browser refuses to say, nobody else can have it.
async fn lock(locks: &JsValue, name: &str) -> bool {
    let options = Object::new();
    let _ = Reflect::set(&options, &"ifAvailable".into(), &JsValue::TRUE);
    let asked = Promise::new(&mut |answer, refused| {
        let given = Closure::once_into_js(move |lock: JsValue| -> JsValue {
            let _ = answer.call1(&JsValue::NULL, &lock.is_object().into());
            // The lock is held while this promise waits: until the window is gone.
            if lock.is_object() { Promise::new(&mut |_, _| {}).into() } else { JsValue::UNDEFINED }
        });
        let request = Reflect::get(locks, &"request".into()).and_then(JsCast::dyn_into::<Function>);
        let request = request.and_then(|request| request.call3(locks, &name.into(), &options, &given));
        let watched = request.and_then(|asking| {
            let catch = Reflect::get(&asking, &"catch".into()).and_then(JsCast::dyn_into::<Function>);
            catch.and_then(|catch| catch.call1(&asking, &refused))
        });
        if watched.is_err() {
            let _ = refused.call0(&JsValue::NULL);
        }
    });
    JsFuture::from(asked).await.map_or(true, |given| given.is_truthy())
}

/// What all windows have claimed.
pub async fn claimed() -> Vec<String> {
    let Some(locks) = locks() else { return asked().await };
    let get = |of: &JsValue, name: &str| Reflect::get(of, &name.into());
    let query = get(&locks, "query").and_then(JsCast::dyn_into::<Function>);
    let Ok(answer) = query.and_then(|query| query.call0(&locks)) else { return Vec::new() };
    let Ok(answer) = JsFuture::from(Promise::resolve(&answer)).await else { return Vec::new() };
    let held = get(&answer, "held").map(|held| Array::from(&held)).unwrap_or_default();
    held.iter().filter_map(|lock| get(&lock, "name").ok()?.as_string()).collect()
}

/// The same where there are no locks: every window says what it has.
async fn asked() -> Vec<String> {
    let claimed = Rc::new(RefCell::new(Vec::new()));
    let Ok(channel) = BroadcastChannel::new(CLAIMS) else { return Vec::new() };
    let known = Rc::clone(&claimed);
    let listener = hear(&channel, move |text| {
        known.borrow_mut().push(text);
    });
    let _ = channel.post_message(&WHO_HAS.into());
    TimeoutFuture::new(ANSWERED).await;
    drop(listener);
    channel.close();
    claimed.take()
}

async fn claim_by_asking(names: &[String]) -> Option<String> {
    let claimed = asked().await;
    let free = names.iter().find(|name| !claimed.contains(*name))?.clone();
    if let Ok(channel) = BroadcastChannel::new(CLAIMS) {
        let (answer, name) = (channel.clone(), free.clone());
        let listener = hear(&channel, move |text| {
            if text == WHO_HAS {
                let _ = answer.post_message(&name.as_str().into());
            }
        });
        ANSWERING.with_borrow_mut(|answering| answering.push((channel, listener)));
    }
    Some(free)
}

/// Tells all other windows that something has changed, and what.
pub fn tell(what: &str) {
    // The window's own channel does not hear itself.
    HEARING.with_borrow(|heard| match heard {
        Some((channel, _)) => drop(channel.post_message(&what.into())),
        None => {
            if let Ok(channel) = BroadcastChannel::new(NEWS) {
                let _ = channel.post_message(&what.into());
                channel.close();
            }
        }
    });
}

/// Calls back when another window tells of a change, for as long as this window is there.
pub fn on_told(act: impl Fn(String) + 'static) {
    if let Ok(channel) = BroadcastChannel::new(NEWS) {
        let listener = hear(&channel, act);
        HEARING.replace(Some((channel, listener)));
    }
}

fn hear(channel: &BroadcastChannel, act: impl Fn(String) + 'static) -> EventListener {
    EventListener::new(channel, "message", move |event| {
        let text = event.dyn_ref::<MessageEvent>().and_then(|event| event.data().as_string());
        if let Some(text) = text {
            act(text);
        }
    })
}
