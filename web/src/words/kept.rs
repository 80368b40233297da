//! Sentences about what is kept: refused, set aside, left.

texts! {
    IN_PLACE = "This browser refuses its database, so pages and record are kept where there is less room: save everything as a file now and then.";
    ASIDE = "Set aside as it was found: it is damaged, or a newer version of Crookwise wrote it. That version takes it in again.";
    LEFT_IN_OTHER_WINDOWS = "Left in other windows";
    SET_ASIDE = "Set aside";
    SAVE_AS_A_FILE = "Save as a file";
    REMOVE_FOR_GOOD = "Remove for good";
}

/// What a button does, and to what.
#[must_use]
pub fn of(deed: &str, what: &str) -> String {
    format!("{deed}: {what}")
}

/// Where the browser refuses to keep something in its drawers; `full` where it says that there is no room.
#[must_use]
pub const fn refusal(full: bool) -> &'static str {
    if full {
        "There is no more room on this device, so this was not kept: save everything as a file, and make room."
    } else {
        super::NOT_KEPT
    }
}

/// What could not be read: how many things are damaged, how many a newer version wrote; nothing where all could.
#[must_use]
pub fn set_aside(damaged: usize, newer: usize) -> Option<String> {
    if damaged + newer == 0 {
        return None;
    }
    let things = |count: usize, one: &str, more: &str| match count {
        1 => one.to_owned(),
        count => format!("{count} {more}"),
    };
    let damaged_ones =
        things(damaged, "Something that was kept is damaged", "things that were kept are damaged");
    let newer_ones = things(
        newer,
        "Something was kept by a newer version of Crookwise",
        "things were kept by a newer version of Crookwise",
    );
    let what = match (damaged, newer) {
        (0, _) => newer_ones,
        (_, 0) => damaged_ones,
        _ => format!("{damaged_ones}. {newer_ones}"),
    };
    Some(format!(
        "{what}. Nothing was thrown away: it is set aside as it was, and “Pages” offers it as a file."
    ))
}

/// A link asks for a page that is not here.
#[must_use]
pub fn no_such_page(name: &str) -> String {
    format!("No page is kept on this device under the name “{name}”")
}

/// What something is that was set aside.
#[must_use]
pub fn aside(word: &str) -> &'static str {
    match word {
        "desk" => "A page on a desk",
        "page" => "A page",
        "record" => "A record of practice",
        "exercise" => "An exercise under way",
        "answers" => "Answers",
        "preferences" => "Settings",
        "named" => "An exercise of your list",
        "weeks" => "A course of weeks",
        "done" => "That an exercise was done",
        _ => "Pages",
    }
}

/// What stands on a desk that no window has: the label of its first staff.
#[must_use]
pub fn left(label: &str, staves: usize) -> String {
    let label = if label.is_empty() { "A staff without a label" } else { label };
    match staves.saturating_sub(1) {
        0 => label.to_owned(),
        1 => format!("{label} and one more staff"),
        more => format!("{label} and {more} more staves"),
    }
}

/// The same of a single thing; `newer` where a newer version wrote it.
#[must_use]
pub fn set_aside_one(newer: bool) -> Option<String> {
    set_aside(usize::from(!newer), usize::from(newer))
}
