//! The reader's pages, ready margins, links and files.

texts! {
    PAGES = "Pages";
    DONE = "Done";
    A_NAME_FOR_THIS_PAGE = "A name for this page";
    KEEP_THIS_PAGE = "Keep this page";
    REMOVE = "Remove";
    YOUR_PAGES_ON_THIS_DEVICE = "Your pages on this device";
    NONE_YET = "None yet.";
    READY_MARGINS = "Ready margins";
    ONE_UNDO_AWAY = "What stood on the screen is one Undo away.";
    A_COPY_TO_KEEP_ELSEWHERE = "A copy to keep elsewhere";
    SAVE_EVERYTHING_AS_A_FILE = "Save everything as a file";
    TAKE_IN_A_FILE_OF_PAGES = "Take in a file of pages";
    SHARE = "Share";
    A_LINK_TO_EXACTLY_THIS_PAGE = "A link to exactly this page";
    EXERCISE_FROM_THIS_PAGE = "An exercise or a worksheet from this page";
    NOTHING_IS_SENT = "Everything is in the link itself; nothing is sent anywhere until you send it.";
    COPY_THE_LINK = "Copy the link";
    HAND_IT_ON = "Hand it on";
    SHARE_ALL_COLUMNS = "Share all columns";
    CODE_FOR_A_CAMERA = "The link as a code for a camera";
    UNTITLED = "Untitled";
    FOREIGN_FILE = "This is not a file of pages written by Crookwise";
    TWO_HORNS_WITH_STRINGS = "Two horns in E-flat with strings: a cadence";
    FOUR_HORNS_IN_TWO_CROOKS = "Four horns in two crooks: from G minor to B-flat";
    CLASSICAL_BRASS_WITH_DRUMS = "Classical brass with drums: a fanfare";
    WINDS_OF_A_SYMPHONY = "Winds of a symphony: a cadence";
    A_WHOLE_SYMPHONY = "A whole symphony about 1800: a cadence in C";
    ONE_STAFF_EMPTY = "One staff, empty";
}

/// Shares so many columns, since not all fit.
#[must_use]
pub fn share_first(columns: usize) -> String {
    match columns {
        1 => "Share the first column alone".to_owned(),
        _ => format!("Share the first {columns} columns alone"),
    }
}

/// Removes a page from the list.
#[must_use]
pub fn remove(name: &str) -> String {
    format!("Remove {name}")
}
