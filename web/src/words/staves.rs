//! Read: the staves, their labels and notes, and all about them.

texts! {
    ADD_A_NOTE = "Add a note";
    WHAT_THE_SCORE_PRINTS = "What the score prints";
    OTHER_READINGS = "Other readings";
    OR_CHOOSE_FROM = "or choose from";
    A_LIST = "a list";
    NATURAL_SERIES = "Natural series";
    PARTIALS = "Partials";
    NOTES_BY_HAND_OR_LIP = "Notes by hand or lip";
    HOW_FAR_THIS_CROOK_GOES = "How far this crook goes";
    RANGES_ARE_A_GUIDE = "A guide: sources, instruments and players differ. Range and endurance are for the player and a teacher to judge.";
    DUPLICATE_IT = "Duplicate it";
    MOVE_IT_UP = "Move it up";
    MOVE_IT_DOWN = "Move it down";
    TAKE_IT_AWAY = "Take this staff away";
    THIS_STAFF_ON_THE_PAGE = "This staff on the page";
    PLAYERS = "Players";
    NOTHING_SELECTED_YET = "Tap the staff to place a note, or select one to read all about it.";
    CHANGE_THIS_STAFF = "Change this staff";
    ABOUT_THE_SELECTED_NOTE = "About the selected note";
    THIS_NOTE = "This note";
    NO_NOTE_IS_SELECTED = "No note is selected.";
    THREE_WAYS = "Three ways";
    SERIES = "Series";
    CHORD = "Chord";
    LEAVES = "Beside the staves";
    BY_INTERVAL = "By interval";
    BY_CLEF = "By clef";
    IN_YOUR_HANDS = "In your hands";
    THE_INSTRUMENT_IN_YOUR_HANDS = "The instrument in your hands";
    SUCH_AS_HORN_IN_F = "such as Horn in F";
    THIS_SOUNDING_NOTE_ON_EVERY_STAFF = "This sounding note on every staff";
    SOUND = "Sound";
    HEARD = "Heard";
    STOP = "Stop";
    VOLUME = "Volume";
    HEAR_THE_NOTE = "Hear the note";
    HEAR_THE_COLUMN = "Hear the column";
    HEAR_ALL = "Hear all";
    AS_THE_INSTRUMENT_GIVES_IT = "as the instrument gives it";
    AS_THE_TUNING_WANTS_IT = "as the tuning wants it";
    IN_TURN = "first the one, then the other";
    NOTES_ON_THE_STAFF = "Notes on the staff";
    SOUNDING = "Sounding";
    WRITTEN = "Written";
    PARTIAL = "Partial";
    DRIFT_CENTS = "Drift (cents)";
    SOUNDS = "Sounds";
    THE_COLUMN_TOGETHER = "The column together";
    SPELLED_OTHERWISE_IN_THE_CHORD = "Spelled otherwise in the chord";
    BEATS = "Beats, as the instruments give the notes";
    NO_COLUMN_YET = "Select a column, and read here what all staves make of it.";
    FLAT = "Flat";
    NATURAL = "Natural";
    SHARP = "Sharp";
    OCTAVE_UP = "Octave up";
    OCTAVE_DOWN = "Octave down";
    HOLD = "Hold";
    REST = "Rest";
    REMOVE = "Remove";
    ADD_A_STAFF = "Add a staff";
    UNDO = "Undo";
    REDO = "Redo";
    CLEAR_THE_STAFF = "Clear the staff";
    ALL_PLAYERS_PLAY_THIS_NOTE = "All players play this note";
    THE_SELECTED_NOTE = "The selected note";
    STEPS = "Steps";
    KEY_HELP = "Tap the staff to place a note, drag it to move it. With the keyboard: letters A to G enter notes, R a rest, arrows select and move, + and − alter, shift and an arrow moves by octaves, Enter goes down a column of several staves.";
    WRITTEN_STAFF = "Written staff";
    SOUNDING_STAFF = "Sounding staff";
    SOUNDING_STAFF_LOWER = "Sounding staff, lower";
    THE_STAFF = "The staff";
    NOTES = "Notes";
    USUAL_READING = "the usual reading of this label";
    NAMED_BY_THE_SAME_LABEL = "named by the same label";
    AFTER_THE_CHANGE = "after the change";
    START_CAPTION = "To begin with: the answer of the second horn in “Call across the Quarry”, made up for this page. Type another label, tap other notes.";
}

/// A written staff by its label.
#[must_use]
pub fn written_staff(label: &str) -> String {
    format!("Written staff, {label}")
}

/// A rung of the ladder: its partial, the note it enters and how that sounds.
#[must_use]
pub fn rung(partial: u8, written: &str, sounding: &str) -> String {
    format!("Partial {partial}: enter {written}, sounds {sounding}")
}

/// A note by hand or lip on the ladder: how it is made, the note it enters and how that sounds.
#[must_use]
pub fn between(making: &str, written: &str, sounding: &str) -> String {
    format!("{making}: enter {written}, sounds {sounding}")
}

/// A player of a staff.
#[must_use]
pub fn player(label: &str, number: u32) -> String {
    format!("{label}, player {number}")
}

/// What stands behind the edge of a strip.
#[must_use]
pub fn more(columns: usize) -> String {
    format!("{columns} more →")
}

/// What is said of one player among several: "Corni in Es 1: partial 10, open".
#[must_use]
pub fn of_player(name: &str, said: &str) -> String {
    if said.is_empty() { name.to_owned() } else { format!("{name}: {}", super::uncapital(said)) }
}

/// What a label changes to.
#[must_use]
pub fn then(change: &str) -> String {
    format!("; then {change}")
}

/// That a label names more players than a staff has here.
#[must_use]
pub fn crowded(named: usize, told_apart: usize) -> String {
    format!(
        "The label names {named} players, and a staff has {told_apart} at most here: the others are left out. Give them a staff of their own."
    )
}

/// The same of a part of a score, whose notes are all there.
#[must_use]
pub fn crowded_part(named: usize, told_apart: usize) -> String {
    format!("The label names {named} players: {told_apart} at most are told apart on a staff here")
}
