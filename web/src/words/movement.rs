//! Score: opening a file, its parts, bars, audit.

use super::Names;
use super::names::signed_cents;
use crookwise_opened::{MadeHow, OutPitch};

texts! {
    OPEN_A_SCORE = "Open a score";
    WHAT_IS_OPENED = "MusicXML as notation programs export it: .musicxml, .xml or .mxl. Choose a file, drop it here, or paste it. It stays on this device.";
    OPEN_THE_DEMO = "Open the demo movement";
    ABOUT_THE_DEMO = "A short movement of our own for four horns in two crooks, two trumpets, timpani, woodwinds and strings, with changes of crook, stopped notes and old bass-clef notation.";
    OPENED_SCORES = "Scores on this device";
    OPEN = "Open";
    TAKE_OFF_THE_DEVICE = "Take off this device";
    PUT_BACK = "Put it back";
    CORRECTIONS = "Corrections";
    UNDO = "Undo";
    REDO = "Redo";
    ANOTHER_SCORE = "Another score";
    STOP = "Stop";
    STOPPED = "Stopped: nothing was opened.";
    PARTS = "Parts";
    MUSIC = "Score";
    NOTES_BY_KEYS = "Notes: the arrow keys lead from one to the next, Enter says what it is";
    NO_STAFF = "No part is chosen: tick those you want to see.";
    HOW_ROWS_ARE_SHOWN = "How the parts are shown";
    ROWS_WRITTEN = "As written";
    ROWS_SOUNDING = "As they sound";
    ROWS_BOTH = "Both";
    TOGETHER = "Together";
    WHAT_SOUNDS = "What sounds";
    THIS_MOMENT = "This moment";
    WHO_HOLDS_WHAT = "Who holds what";
    CHORD_BEFORE = "Chord before";
    CHORD_AFTER = "Chord after";
    CHORDS_ARE_FOUND = "The chords are being found …";
    LEAVE_THIS_MOMENT = "Leave this moment";
    PART_AND_CROOK = "Part and crook";
    OTHER_PARTS = "Other parts";
    GO_TO = "Go to";
    LETTERS = "Rehearsal letters: tap one to begin there";
    FILES_ARE_WHOLE = "Files hold the ticked parts from the first bar to the last, whichever bars are chosen above.";
    LABEL_MISSING = "Type the label to write for, such as Corni in F";
    ONE_SCORE_AT_A_TIME = "One score is open at a time: of the files that came together, the first was opened.";
    ALL = "All";
    NONE = "None";
    AS_PRINTED = "Label as the score prints it";
    READ_AS = "Read as";
    CORRECT = "Correct";
    AUDIT = "Audit";
    BARS = "Bars";
    FIRST_BAR = "From bar or letter";
    LAST_BAR = "To bar or letter";
    OPEN_IN_READ = "Open in Read";
    MAKE_AN_EXERCISE = "Make an exercise";
    MAKE_A_HANDOUT = "Handout";
    SHARE_A_LINK = "Share";
    PLAN_ITS_CROOKS = "Plan its crooks";
    PLAN_CROOKS_OF_BARS = "Plan the crooks of these bars";
    CHOSEN_BARS = "Chosen bars";
    LEAVE_THESE_BARS = "Leave these bars";
    WRITE_FILES = "Write files";
    AT_SOUNDING_PITCH = "At sounding pitch";
    AS_IT_IS_WRITTEN = "As it is written";
    WRITTEN_FOR = "Written for";
    SUCH_AS = "such as Corni in F";
    SAVE_MUSICXML = "Save as MusicXML";
    SAVE_MIDI = "Save as MIDI";
    SAVE_CSV = "Save as a table (CSV)";
    VALVES_TOO = "Hold brass with valves against the series too";
    NO_NATURAL_BRASS = "No natural horn or trumpet plays in what was read of this score.";
    ON_THE_SERIES = "On the series";
    LOWEST = "Lowest";
    HIGHEST = "Highest";
    ABOVE_THE_TWELFTH = "Longest above partial 12";
    KINDS_OF_NOTES = "Kinds of notes: tap one for its bars";
    CHANGES_OF_CROOK = "Changes of crook";
    AUDIT_IS_A_GUIDE = "A guide: players, instruments and sources differ. Ties and grace notes are not counted.";
    BARS_RUN_BACK = "The last bar stands before the first";
    CHOOSE_PARTS = "Choose at least one part";
    IS_BEING_AUDITED = "Every note is held against its crook …";
    NO_WORKER = "The code that reads scores could not be fetched, or it broke on this file. Try again; if that does not help, the file is beyond it.";
    FILE_TOO_LARGE = "This file cannot be read, or it is larger than any score.";
    PASTE_WHAT_WAS_COPIED = "Paste what was copied";
    MAY_NOT_PASTE = "The browser does not let the page have what was copied. Choose a file, or press the keys for paste.";
    NOTHING_TO_PASTE = "What was pasted is no score in MusicXML.";
    LINK_TO_THIS_PLACE = "Copy a link to this place";
    PLACE_IS_WHERE_THE_SCORE_IS = "It opens these parts and bars in Score, reading along too, wherever this score was opened before.";
    UNKNOWN_LINK = "This link to Score is damaged, or a newer version of Crookwise made it.";
    NO_ROOM_FOR_SCORE = "There is too little room on this device to keep this score beside your pages and your record: it stays open until this window is closed.";
    NOT_KEPT_HERE = "This browser keeps no files: the score stays open until this window is closed.";
    AS_THE_FILE = "as the file has it";
    NAMES_NOTHING = "names no instrument that is known; it sounds as the file has it";
}

/// The file that is on its way.
#[must_use]
pub fn on_its_way(name: &str) -> String {
    if name.is_empty() { "Opening the score …".to_owned() } else { format!("Opening {name} …") }
}

/// A printed bar or letter that is not there.
#[must_use]
pub fn no_such_bar(printed: &str) -> String {
    format!("There is no bar or letter “{}” in this movement", printed.trim())
}

/// A score that was taken off.
#[must_use]
pub fn taken_off(name: &str) -> String {
    format!("“{name}” is no longer on this device.")
}

/// The name of a file: that of the movement, and at which pitch it stands.
#[must_use]
pub fn file_name(title: &str, pitch: &OutPitch) -> String {
    match pitch {
        OutPitch::Sounding => format!("{title} (sounding)"),
        OutPitch::AsWritten => format!("{title} (as written)"),
        OutPitch::WrittenFor(label) => format!("{title} (for {})", label.trim()),
    }
}

/// Why a link to a score cannot be followed: its score, of this title where that is known, is not on the device.
#[must_use]
pub fn not_here(title: &str) -> String {
    match title {
        "" => "The score of this link is not on this device: open its file.".to_owned(),
        title => format!(
            "This link leads into “{title}”, which is not on this device: open its file here, then the link again."
        ),
    }
}

/// A rehearsal letter, and the bar it stands over.
#[must_use]
pub fn letter(letter: &str, bar: &str) -> String {
    format!("{letter} (bar {bar})")
}

/// Who wrote a movement, and how large it is.
#[must_use]
pub fn about(composer: &str, bars: usize, parts: usize) -> String {
    let large = so_large(bars, parts);
    if composer.is_empty() { large } else { format!("{composer} · {large}") }
}

/// How large a movement is.
#[must_use]
pub fn so_large(bars: usize, parts: usize) -> String {
    format!("{} · {}", of_bars(bars), count(parts, "part", "parts"))
}

/// So many bars.
#[must_use]
pub fn of_bars(bars: usize) -> String {
    count(bars, "bar", "bars")
}

/// A movement without a title.
#[must_use]
pub fn title<'a>(title: &'a str, file: &'a str) -> &'a str {
    match (title, file) {
        ("", "") => "A score",
        ("", file) => file,
        (title, _) => title,
    }
}

/// The size of a file.
#[must_use]
pub fn size(bytes: u64) -> String {
    match bytes {
        0..=999_999 => format!("{} kB", (bytes / 1000).max(1)),
        _ => format!("{}.{} MB", bytes / 1_000_000, bytes % 1_000_000 / 100_000),
    }
}

/// The reading that the file gives.
#[must_use]
pub fn as_file_has_it(reading: &str) -> String {
    format!("{reading} (as the file has it)")
}

/// A staff of a part that has several.
#[must_use]
pub fn staff_of(part: &str, staff: usize) -> String {
    format!("{part}, staff {staff}")
}

/// The parts that are folded, and how many of them are ticked.
#[must_use]
pub fn other_parts(parts: usize, ticked: usize) -> String {
    match ticked {
        0 => format!("{OTHER_PARTS} ({parts})"),
        ticked => format!("{OTHER_PARTS} ({parts}, {ticked} ticked)"),
    }
}

/// The way back to the label of the file.
#[must_use]
pub fn back_to_file(label: &str) -> String {
    format!("Back to “{label}”, as the file has it")
}

/// A label that was typed and is not known.
#[must_use]
pub fn label_names_nothing(label: &str) -> String {
    format!("“{label}” {NAMES_NOTHING}")
}

/// The labels that a part changes to.
#[must_use]
pub fn changes_to(label: &str, bar: &str) -> String {
    format!("from bar {bar}: {label}")
}

/// Notes of a part.
#[must_use]
pub fn notes(notes: u32) -> String {
    match notes {
        0 => "no notes".to_owned(),
        1 => "1 note".to_owned(),
        notes => format!("{} notes", thousands(notes)),
    }
}

/// Old bass-clef notation that was found.
#[must_use]
pub fn old_bass(notes: u32, bars: &str) -> String {
    format!(
        "{} under the bass clef lie an octave too low for a horn ({bars}): old notation that the file has as new",
        self::notes(notes)
    )
}

/// Such notes among the bars that are to be taken elsewhere.
#[must_use]
pub fn doubtful_bass(label: &str, bars: &str) -> String {
    format!(
        "{label}: under the bass clef in bars {bars} notes lie an octave too low for a horn. They look like old notation that the file has as new; as they are read now, an exercise would ask for the low ones."
    )
}

/// The box that reads them as old.
pub const READ_AS_OLD: &str = "Read them as old notation, an octave higher";

/// Bars as a list of stretches of printed numbers: "9, 66–80".
#[must_use]
pub fn bar_list(bars: &[u32], printed: &dyn Fn(u32) -> String) -> String {
    let mut stretches: Vec<(u32, u32)> = Vec::new();
    for bar in bars {
        match stretches.last_mut() {
            Some((_, last)) if *last + 1 == *bar => *last = *bar,
            _ => stretches.push((*bar, *bar)),
        }
    }
    let said = stretches.into_iter().map(|(first, last)| {
        if first == last { printed(first) } else { format!("{}–{}", printed(first), printed(last)) }
    });
    let word = if bars.len() == 1 { "bar" } else { "bars" };
    format!("{word} {}", said.collect::<Vec<_>>().join(", "))
}

/// What a choice of parts and bars takes of a page of Read.
#[must_use]
pub fn fits(staves: usize, bars: &str, columns: u32) -> String {
    format!(
        "{}, {bars}: notes at {}; Read has room for {}",
        count(staves, "staff", "staves"),
        count(usize::try_from(columns).unwrap_or(usize::MAX), "moment", "moments"),
        crookwise_score::MOST_COLUMNS
    )
}

/// So many of so many notes.
#[must_use]
pub fn so_many_of(some: usize, all: u32) -> String {
    let per_cent = if all == 0 { 0 } else { some * 100 / usize::try_from(all).unwrap_or(1) };
    format!(
        "{} of {} ({per_cent}\u{a0}%)",
        thousands(u32::try_from(some).unwrap_or(u32::MAX)),
        thousands(all)
    )
}

/// A kind of notes.
#[must_use]
pub fn kind(how: &MadeHow, names: Names) -> String {
    match how {
        MadeHow::Open(partial) => format!("partial {partial}"),
        MadeHow::Corrected(partial) => format!("partial {partial}, corrected"),
        MadeHow::Made(pitch, production) => format!("{}, {production}", written(pitch, names)),
        MadeHow::OutOfReach(pitch) => format!("{}, out of reach", written(pitch, names)),
    }
}

/// A written note.
#[must_use]
pub fn written(pitch: &str, names: Names) -> String {
    pitch.parse().map_or_else(|_| pitch.to_owned(), |pitch| names.note(pitch))
}

/// A bar that a row leads to.
#[must_use]
pub fn bar_of_notes(bar: &str, notes: usize) -> String {
    if notes == 1 { format!("bar {bar}") } else { format!("bar {bar} ({notes})") }
}

/// Bars that are not listed.
#[must_use]
pub fn and_more(bars: usize) -> String {
    format!("and {bars} more bars")
}

/// A stretch of high notes.
#[must_use]
pub fn high(attacks: u32, quarters: &str, bar: &str) -> String {
    format!("{} in {}, from bar {bar}", notes(attacks), of_quarters(quarters))
}

/// A change of crook.
#[must_use]
pub fn change(bar: &str, from: &str, to: &str, quarters: &str) -> String {
    format!("bar {bar}: {from} to {to}, after {} of rest", of_quarters(quarters))
}

fn of_quarters(quarters: &str) -> String {
    if quarters == "1" { "1 quarter note".to_owned() } else { format!("{quarters} quarter notes") }
}

fn count(count: usize, one: &str, more: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {more}") }
}

fn thousands(number: u32) -> String {
    if number < 1000 { number.to_string() } else { format!("{},{:03}", number / 1000, number % 1000) }
}

/// A part in a bar.
#[must_use]
pub fn in_bar(label: &str, bar: &str) -> String {
    format!("{label}, bar {bar}")
}

/// A note of a part in a bar.
#[must_use]
pub fn note_in_bar(label: &str, bar: &str, number: usize) -> String {
    format!("{label}, bar {bar}, note {number}")
}

/// "Bars 5–6, in E♭ major".
#[must_use]
pub fn in_bars_and_key(first: &str, last: &str, key: Option<String>) -> String {
    let bars = if first == last { format!("Bar {first}") } else { format!("Bars {first}–{last}") };
    key.map_or_else(|| bars.clone(), |key| format!("{bars}, in {key}"))
}

/// On natural brass the partial, and how far it drifts in cents: "5, −14".
#[must_use]
pub fn made((partial, drift): (Option<u8>, Option<i32>)) -> String {
    let drift = drift.filter(|cents| *cents != 0).map(|cents| signed_cents(f64::from(cents)));
    [partial.map(|partial| partial.to_string()), drift].into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// Who is not named: "and 3 others".
#[must_use]
pub fn and_others(count: usize) -> String {
    format!("and {count} others")
}

/// What drums add to a chord: they name no bass.
#[must_use]
pub fn drums_beside(notes: &[String]) -> String {
    if notes.is_empty() { String::new() } else { format!("Drums beside it: {}", notes.join(", ")) }
}

/// The bars of a system.
#[must_use]
pub fn bars_of_system(first: &str, last: &str) -> String {
    if first == last { format!("Bar {first}") } else { format!("Bars {first} to {last}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_told_as_one_says_them() {
        assert_eq!(size(12), "1 kB");
        assert_eq!(size(1_250_000), "1.2 MB");
        assert_eq!(so_many_of(1244, 1245), "1,244 of 1,245 (99\u{a0}%)");
        assert_eq!(bar_list(&[9, 66, 67, 68], &|bar| bar.to_string()), "bars 9, 66–68");
        assert_eq!(bar_list(&[9], &|bar| bar.to_string()), "bar 9");
    }

    #[test]
    fn files_of_a_movement_are_called_by_their_pitch() {
        let of = |pitch: OutPitch| file_name("Rondo", &pitch);
        let written_for = of(OutPitch::WrittenFor(" Corni in F ".into()));
        assert_eq!(written_for, "Rondo (for Corni in F)");
        assert_eq!(of(OutPitch::Sounding), "Rondo (sounding)");
        assert_eq!(of(OutPitch::AsWritten), "Rondo (as written)");
    }
}
