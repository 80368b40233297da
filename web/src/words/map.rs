//! The map of a movement.

use crookwise_opened::PlaceSort;

texts! {
    MAP = "Map of the movement";
    ENTRY_BEFORE = "Entry before";
    NEXT_ENTRY = "Next entry";
    GO_TO_BAR = "Go to bar or letter";
    WHOLE_MAP = "The whole map";
    WHOLE_PAGE = "the whole page";
    HOW_TO_READ_IT = "Dark: it leads, stands alone or is exposed. Tap the map to go there.";
    PLACES = "Places in these bars";
    ENTRIES = "Entries";
    NO_ENTRY_FOLLOWS = "No entry follows";
    NO_ENTRY_BEFORE = "No entry before this";
    IS_DRAWN = "The map is drawn …";
}

/// What is to be seen on the map.
#[must_use]
pub fn seen(bars: u32, entries: usize, rest: u32, changes: usize) -> String {
    let bars = if bars == 1 { "1 bar".to_owned() } else { format!("{bars} bars") };
    let entries = match entries {
        0 => format!("no entry after {rest} bars of rest"),
        1 => format!("1 entry after {rest} bars of rest or more"),
        entries => format!("{entries} entries after {rest} bars of rest or more"),
    };
    let changes = match changes {
        0 => "no change of crook".to_owned(),
        1 => "1 change of crook".to_owned(),
        changes => format!("{changes} changes of crook"),
    };
    format!("{bars}: {entries}, {changes}")
}

/// Who enters in a bar.
#[must_use]
pub fn enter(bar: &str, who: &[String], rest: u32) -> String {
    format!("Bar {bar}: {} after {rest} bars of rest", who.join("; "))
}

/// Who enters there too, and stands out of sight.
#[must_use]
pub fn also_enter(who: &[String]) -> String {
    format!("Also: {}", who.join("; "))
}

/// A bar that was gone to.
#[must_use]
pub fn at_bar(bar: &str) -> String {
    format!("Bar {bar}")
}

/// A place worth hearing, and its bars.
#[must_use]
pub fn place(kind: PlaceSort, first: &str, last: &str) -> String {
    let kind = match kind {
        PlaceSort::Entry => "Entry",
        PlaceSort::Exposed => "Exposed",
        PlaceSort::Solo => "Solo",
        PlaceSort::Leads => "Leads",
        PlaceSort::HornFifths => "Horn fifths",
        PlaceSort::Fanfare => "Fanfare",
        PlaceSort::Pedal => "Pedal",
        PlaceSort::OctaveDoubling => "Octaves of horn and trumpet",
    };
    if first == last { format!("{kind}, {first}") } else { format!("{kind}, {first}–{last}") }
}
