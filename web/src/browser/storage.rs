//! Storage on the device. It may be forbidden or full: then nothing is kept and the app goes on.

use leptos::prelude::window;

/// Where the record of practice is kept.
pub const RECORD: &str = "crookwise.record";
/// Where one is laid that came in a file, until it is joined to the other.
pub const RECORD_TAKEN_IN: &str = "crookwise.record.taken-in";

/// Where pages of the reader's are kept that made way for a link and have no name yet.
pub const SET_ASIDE: &str = "crookwise.before";

/// Reads what is kept under a name.
#[must_use]
pub fn read(name: &str) -> Option<String> {
    window().local_storage().ok()??.get_item(name).ok()?
}

/// Keeps a text under a name; false where the device refuses.
pub fn write(name: &str, text: &str) -> bool {
    match window().local_storage() {
        Ok(Some(storage)) => storage.set_item(name, text).is_ok(),
        _ => false,
    }
}

/// Forgets what is kept under a name.
pub fn remove(name: &str) {
    if let Ok(Some(storage)) = window().local_storage() {
        let _ = storage.remove_item(name);
    }
}
