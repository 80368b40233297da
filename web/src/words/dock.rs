//! The dock at the lower edge: what stands under the signs of its tools.

texts! {
    TOOLS = "Tools";
    FLAT = "flat";
    NATURAL = "natural";
    SHARP = "sharp";
    OCTAVE = "octave";
    HOLD = "hold";
    REST = "rest";
    REMOVE = "remove";
    UNDO = "undo";
    REDO = "redo";
    NOTE = "note";
    COLUMN = "column";
    STOP = "stop";
    WAYS = "ways";
    WAYS_OF_HEARING = "Ways of hearing";
    CHANGE = "change";
    STAFF = "staff";
    CLEAR = "clear";
    MORE = "more";
    MORE_TOOLS = "More tools";
    WHOSE_NOTE = "Whose note";
    PLAYER = "player";
    ALL = "all";
}

/// A player of the selected staff, by his number.
#[must_use]
pub fn player(number: u32) -> String {
    format!("Player {number}")
}

/// So many players in one, as scores print it: "a 2".
#[must_use]
pub fn in_one(players: usize) -> String {
    format!("a {players}")
}
