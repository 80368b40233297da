//! What crooks give of a key, and what may be written for those at hand.

use super::Names;
use crookwise_planner::may_write::NearbyKind;
use crookwise_theory::{Crook, CrookFamily, Key, Production};

texts! {
    VIEWS = "What is shown";
    PLANS = "Plans";
    TABLE = "What crooks give of a key";
    TABLE_KEY = "Key";
    ADD_A_CROOK = "Other horns and trumpets";
    CHANGE_IT = "Key and crooks";
    CHOOSE = "Choose a crook";
    ADD = "Add";
    SCROLLS_SIDEWAYS = "More crooks than fit beside each other: the table scrolls sideways.";
    HEARD_BY_A_TAP = "Tap a cell to hear it.";
    KEY_BEFORE = "Key before";
    NEXT_KEY = "Next key";
    WHO = "Who";
    NOTHING_OF_IT = "missing";
    MAY_WRITE = "What may I write?";
    AT_HAND = "At hand";
    WHAT_SOUNDS = "what sounds";
    NOBODY_AT_HAND = "Nobody is at hand: choose horns or trumpets, and the notes they have stand here.";
    A_PASSAGE = "A passage, by names of notes as they sound";
    SUCH_NOTES = "D4 F#4 B4 Bb4";
    ALL_NOTES_IN_REACH = "The notes that could be read are in reach.";
    ALL_IN_REACH = "All of it is in reach.";
    A_GUIDE = "A guide, from published tables: players, instruments and sources differ.";
    HEAR_THE_PASSAGE = "Hear it";
}

/// Crooks by the name of their players: "Horns in B-flat alto".
#[must_use]
pub fn players(crook: &Crook, names: Names) -> String {
    let family = match crook.family {
        CrookFamily::Horn => "Horns",
        CrookFamily::Trumpet => "Trumpets",
    };
    format!("{family} in {}", in_key(crook, names))
}

/// The key of a crook, with its octave where it has two: "B-flat alto".
#[must_use]
pub fn in_key(crook: &Crook, names: Names) -> String {
    let octave = crook.octave.map(|octave| format!(" {}", octave.word())).unwrap_or_default();
    format!("{}{octave}", names.key_word(crook.tonic))
}

/// What several crooks give together.
#[must_use]
pub const fn together(many: usize) -> &'static str {
    if many == 2 { "Both together" } else { "All together" }
}

/// What takes a crook out of the table.
#[must_use]
pub fn without(crook: &str) -> String {
    format!("Without {crook}")
}

/// The table of a key.
#[must_use]
pub fn table_of(key: Key, names: Names) -> String {
    format!("Degrees and chords of {}", names.key(key))
}

/// A degree in words: "third degree".
#[must_use]
pub fn degree(number: u8, is_raised: bool) -> String {
    const NAMES: [&str; 7] = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh"];
    let name = NAMES.get(usize::from(number).saturating_sub(1)).copied().unwrap_or_default();
    let raised = if is_raised { ", raised" } else { "" };
    format!("{name} degree{raised}")
}

/// What is asked of the table, where the lists that change it are folded: "G minor: horns in G, horns in B-flat alto".
#[must_use]
pub fn asked(key: Key, crooks: &[&'static Crook], names: Names) -> String {
    let crooks: Vec<String> = crooks.iter().map(|crook| lower(&players(crook, names))).collect();
    format!("{}: {}", super::capital(&names.key(key)), crooks.join(", "))
}

/// A chord at the head of its column: "on 5".
#[must_use]
pub fn chord_on(root: u8) -> String {
    format!("on {root}")
}

/// How many members of a chord are had, and how.
#[must_use]
pub fn members(had: usize, open: usize) -> String {
    match (had, open) {
        (0, _) => "none".to_owned(),
        (3, 3) => "all open".to_owned(),
        (3, 0) => "all, none open".to_owned(),
        (3, open) => format!("all, {open} open"),
        (had, 0) => format!("{had} of 3, none open"),
        (had, open) if had == open => format!("{had} of 3, open"),
        (had, open) => format!("{had} of 3, {open} open"),
    }
}

/// How a note is made, in the word that stands in a cell.
#[must_use]
pub const fn way(production: Production) -> &'static str {
    match production {
        Production::Open => "open",
        Production::HandOut => "hand out",
        Production::Quarter => "¼ stopped",
        Production::Half => "½ stopped",
        Production::ThreeQuarter => "¾ stopped",
        Production::Full => "stopped",
        Production::Lipped => "lip",
        Production::Chromatic => "plain",
        Production::Unavailable => NOTHING_OF_IT,
    }
}

/// A cell as it is read aloud.
#[must_use]
pub fn cell(who: &str, note: &str, written: Option<&str>, way: &str) -> String {
    match written {
        Some(written) => format!("{note}, {who}: written {written}, {way}"),
        None => format!("{note}, {who}: {way}"),
    }
}

/// What stands on the staff of a part.
#[must_use]
pub fn written_part(who: &str) -> String {
    format!("written for {}", lower(who))
}

/// Notes that are made in one way, as they are written: "open: written C4, E4".
#[must_use]
pub fn written_in_a_way(way: &str, notes: &[String]) -> String {
    format!("{way}: written {}", notes.join(", "))
}

/// The same notes as they sound.
#[must_use]
pub fn sounding(notes: &[String]) -> String {
    format!("sounding {}", notes.join(", "))
}

/// How a passage is typed, with some notes as the reader names them.
#[must_use]
pub fn passage_help(such_as: &str) -> String {
    format!(
        "Such as {such_as}; English, German, French and Italian names are read. A name without its octave is the nearest to the note before."
    )
}

/// A word that names no note.
#[must_use]
pub fn no_note(word: &str) -> String {
    format!("“{word}” is no note.")
}

/// How many notes of a passage are out of reach.
#[must_use]
pub fn out_of_reach(many: usize) -> String {
    match many {
        1 => "One note is out of reach.".to_owned(),
        many => format!("{many} notes are out of reach."),
    }
}

/// What stands in a part, and how it is made: "written C5 for horns in D, open".
#[must_use]
pub fn written_for(written: &str, who: &str, way: &str) -> String {
    format!("written {written} for {}, {way}", lower(who))
}

/// So many crooks that have a note are told.
const TOLD: usize = 2;

/// A typed note that is had, by each of these crooks, the best first.
#[must_use]
pub fn note_had(note: &str, on: &[String]) -> String {
    let told: Vec<&str> = on.iter().take(TOLD).map(String::as_str).collect();
    let more = match on.len().saturating_sub(TOLD) {
        0 => String::new(),
        1 => "; one crook more has it".to_owned(),
        many => format!("; {many} crooks more have it"),
    };
    format!("{note}: {}{more}.", told.join("; "))
}

/// What can be done about a note that nobody has; `written` is what stands in the part then.
#[must_use]
pub fn remedy(kind: NearbyKind, note: &str, who: &str, written: &str) -> String {
    match kind {
        NearbyKind::Octave => format!("{note} in its place: {written}"),
        NearbyKind::Neighbour => format!("{note} instead: {written}"),
        NearbyKind::OtherCrook => format!("Take {}: {written}", lower(who)),
    }
}

pub(super) fn lower(who: &str) -> String {
    let mut letters = who.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn chords_say_what_is_had_of_them() {
        assert_eq!(members(3, 3), "all open");
        assert_eq!(members(2, 1), "2 of 3, 1 open");
        assert_eq!(members(2, 2), "2 of 3, open");
        assert_eq!(members(0, 0), "none");
        assert_eq!(lower("Horns in D"), "horns in D");
    }

    #[test]
    fn what_is_asked_is_one_line() {
        let crooks: Vec<&'static Crook> =
            CrookFamily::Horn.crooks().iter().filter(|crook| crook.name == "G").collect();
        let said = asked("G minor".parse().unwrap(), &crooks, Names::default());
        assert_eq!(said, "G minor: horns in G");
    }
}
