//! An exercise while it is set, and on paper.

use crookwise_theory::Clef;

texts! {
    ADD_A_STAFF = "Add a staff";
    SET_AN_EXERCISE = "Set an exercise";
    WHAT_IS_ASKED = "What is asked";
    KINDS_OF_QUESTIONS = "Kinds of questions";
    ON_WHICH_STAVES = "On which staves";
    NOTES = "Notes";
    RANGE = "Range";
    MOVEMENT = "Movement";
    STYLES_NONE_FOR_ALL = "Styles; none for all";
    HOW = "How";
    TIME = "Time";
    OTHER_QUESTIONS = "Other questions";
    ANSWERS = "Answers";
    SHOWN_BESIDE_THE_QUESTION = "Shown beside the question";
    WHAT_THE_SCORE_PRINTS = "What the score prints";
    CLEF = "Clef";
    READ_AS = "Read as";
    CHANGES_TO = "Changes to";
    SUCH_AS_MUTA_IN_C = "such as muta in C";
    TWO_PLAYERS = "Two players";
    THE_INSTRUMENT_IN_THE_READERS_HANDS = "The instrument in the reader's hands";
    SUCH_AS_HORN_IN_F = "such as Horn in F";
    QUESTIONS = "Questions";
    THE_FIRST_QUESTIONS = "The first questions";
    WITH_ANSWERS = "With their answers";
    NO_LINK_YET = "It cannot be asked yet, so it has no link:";
    USE_IT = "Use it";
    LINK_AND_CODE = "Link and code";
    DO_IT = "Do it";
    ON_THE_WALL = "On the wall";
    ON_PAPER = "On paper";
    A_LINK_FOR_THE_STUDENTS = "A link for the students";
    SINGLE_NOTES = "single notes";
    PHRASES_AS_PARTS_HAVE_THEM = "phrases as parts have them";
    THE_PAGE_THAT_STANDS_IN_READ = "the page that stands in Read";
    KEYS_USUAL_FOR_THE_STAFF = "keys usual for the staff";
    AS_LONG_AS_IT_TAKES = "as long as it takes";
    AS_PARTS_USE_THEM = "as parts use them";
    PARTIALS_4_TO_8 = "partials 4 to 8";
    PARTIALS_4_TO_12 = "partials 4 to 12";
    PARTIALS_8_TO_16 = "partials 8 to 16";
    PARTIALS_2_TO_16 = "partials 2 to 16";
    USUAL_CLEF = "usual clef";
    ANSWERS_TO_CHOOSE_FROM = "Answers to choose from";
    ANOTHER_SPELLING_IS_RIGHT_TOO = "Another spelling is right too";
    THE_OCTAVE_MUST_BE_RIGHT = "The octave must be right";
    LETTER = "Letter";
    WORKSHEET = "Worksheet";
    TITLE = "Title";
    TAKE_IT_UP = "Go on with it";
    PAPER = "Paper";
    FOR_THE_ANSWERS = "For the answers";
    POINTS = "Points";
    PRINT = "Print";
    WORKSHEET_AS_PRINTED = "Worksheet as printed";
    NAME = "Name";
    DATE = "Date";
    EMPTY_STAVES = "empty staves";
    A_LINE_FOR_NAMES = "a line for names";
    CLEF_OF_THE_PART = "clef of the part";
    TREBLE = "treble";
    BASS = "bass";
    TREBLE_AND_BASS = "treble and bass";
}

/// What stands aside, called so.
pub fn put_aside(title: &str) -> String {
    format!("You were setting “{title}”, and have kept it nowhere.")
}

/// A staff that is asked about, from 1.
#[must_use]
pub fn staff(number: usize) -> String {
    format!("Staff {number}")
}

/// Takes a staff out of what is asked.
#[must_use]
pub fn take_staff_away(number: usize) -> String {
    format!("Take staff {number} away")
}

/// Time for each question.
#[must_use]
pub fn seconds_each(seconds: u16) -> String {
    format!("{seconds} seconds each")
}

/// Time for all questions.
#[must_use]
pub fn minutes_in_all(minutes: u16) -> String {
    format!("{} in all", so_many_minutes(u32::from(minutes)))
}

/// Time on a worksheet.
#[must_use]
pub fn time_in_minutes(minutes: u32) -> String {
    format!("Time: {}", so_many_minutes(minutes))
}

/// The head of the key to a worksheet.
#[must_use]
pub fn key_of(title: &str) -> String {
    format!("{title}: key")
}

fn so_many_minutes(minutes: u32) -> String {
    if minutes == 1 { "1 minute".to_owned() } else { format!("{minutes} minutes") }
}

/// A clef in a list: two of them have one name, so its line is said.
#[must_use]
pub fn clef(clef: Clef) -> String {
    let written = clef.to_string();
    let line = written.get(1..2).unwrap_or_default();
    format!("{}, {} on line {line}", clef.name(), written.get(..1).unwrap_or_default())
}

/// Points of each question on a worksheet.
#[must_use]
pub fn points_each(points: u32) -> String {
    match points {
        0 => "no points".into(),
        1 => "1 point each".into(),
        points => format!("{points} points each"),
    }
}

/// Room for the points of all questions.
#[must_use]
pub fn points_of(most: u32) -> String {
    format!("Points: ____ of {most}")
}
