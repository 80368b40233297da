//! Sentences about the app itself: what it kept, what the device refused.

/// When something has gone wrong beyond mending.
pub const BROKEN: &str =
    "Something went wrong in Crookwise. Reload the page: what you made is kept in its address.";

/// Where the device refuses to keep anything.
pub const NOT_KEPT: &str =
    "This device refuses to keep it: the page is still in its address, and in a file if you save one.";
/// Where no file can be saved.
pub const NO_FILES: &str = "This browser does not let the page save a file.";
/// Where a file cannot be read.
pub const FILE_UNREADABLE: &str = "This file cannot be read, or it is larger than any file of pages.";
/// The name of the page on the screen in a file.
pub const PAGE_ON_SCREEN: &str = "The page on the screen";
/// The name of a page of the reader's that made way for a link or another page.
pub const PAGE_BEFORE: &str = "The page before";
/// Where no more pages can be kept.
pub const NO_ROOM_FOR_PAGES: &str =
    "There is room for 200 pages. Save everything as a file, remove some, and keep this one then.";
/// When a newer version of the app is on the device. The page is in its address and in storage, so it stays.
pub const NEW_VERSION: &str = "A new version of Crookwise is ready. Your page stays as it is.";
/// Beside the volume.
pub const SOUND_IS_SOFT: &str =
    "Soft at first, and limited. With headphones, turn it down before you listen.";
/// Where the browser refuses to make sound.
pub const NO_SOUND: &str = "This browser makes no sound here.";
/// What became of a wish to copy.
#[must_use]
pub const fn copied(outcome: Option<bool>) -> &'static str {
    match outcome {
        None => "",
        Some(true) => "Copied.",
        Some(false) => "This browser does not let the page copy: select the text and copy it yourself.",
    }
}
/// On the button that takes it.
pub const USE_NEW_VERSION: &str = "Reload to use it";
/// Where the code of a part of the page could not be fetched.
pub const PART_MISSING: &str = "This part could not be fetched: the connection may be down.";
