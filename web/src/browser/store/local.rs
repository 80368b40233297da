//! Texts that are kept and read at once. They may be forbidden or full: then nothing is kept and the app goes on.
//!
//! The crate gloo-storage ends the app where the browser forbids them, so the browser is asked itself.

use leptos::prelude::window;
use web_sys::Storage;

/// Under which the name of this window's desk is kept, in the window itself: it outlives a reload, and a copy of it goes
/// with a copy of the window.
const DESK: &str = "crookwise.desk";

fn shared() -> Option<Storage> {
    window().local_storage().ok()?
}

fn of_window() -> Option<Storage> {
    window().session_storage().ok()?
}

/// Reads what is kept under a name.
#[must_use]
pub fn read(name: &str) -> Option<String> {
    shared()?.get_item(name).ok()?
}

/// Keeps a text under a name; false where the device refuses.
pub fn write(name: &str, text: &str) -> bool {
    shared().is_some_and(|storage| storage.set_item(name, text).is_ok())
}

/// Forgets what is kept under a name.
pub fn remove(name: &str) {
    if let Some(storage) = shared() {
        let _ = storage.remove_item(name);
    }
}

/// All names that begin so.
#[must_use]
pub fn names(start: &str) -> Vec<String> {
    let Some(storage) = shared() else { return Vec::new() };
    let count = storage.length().unwrap_or_default();
    let all = (0..count).filter_map(|at| storage.key(at).ok()?);
    all.filter(|name| name.starts_with(start)).collect()
}

/// The name of the desk that this window had before it was loaded again, or that it was copied from.
#[must_use]
pub fn desk() -> Option<String> {
    of_window()?.get_item(DESK).ok()?
}

/// Keeps the name of this window's desk.
pub fn set_desk(name: &str) {
    if let Some(storage) = of_window() {
        let _ = storage.set_item(DESK, name);
    }
}
