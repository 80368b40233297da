//! An exercise while it is done, and how it went.

texts! {
    YOUR_ANSWER = "Your answer";
    ANSWER = "Answer";
    LOWERED = "Lowered";
    RAISED = "Raised";
    EXERCISE = "Exercise";
    AN_EXERCISE = "An exercise";
    BEGIN = "Begin";
    LEAVE_IT_OUT = "Leave it out";
    QUESTION = "Question";
    STOP_HERE = "Stop here";
    LISTEN = "Listen";
    NEXT_EXERCISE = "Next exercise of this step";
    GO_ON_WITH_IT = "Go on with it";
    BACK_TO_MY_RECORD = "Back to my record";
    OTHER_QUESTIONS_OF_THIS_KIND = "Other questions of this kind";
    THE_SAME_ONCE_MORE = "The same once more";
    HOW_IT_WENT = "How it went";
    COPY_CODE_AND_LINK = "Copy code and link";
    FOR_A_TEACHER = "For a teacher";
    TO_THE_CODE = "To the code for a teacher";
    YOUR_NAME_IF_YOU_WISH = "Your name, if you wish";
    LEFT_OUT = "left out";
    SEE_HOW_IT_WENT = "See how it went";
    NEXT_QUESTION = "Next question";
    FROM_THE_FIRST = "From the first again";
    ANSWER_BY_KEYS = "Your answer: letters enter a note, arrows move it, plus and minus alter it, Enter answers";
    DEGREE_BY_KEYS = "Your answer: a number from 1 to 7 enters a degree, plus and minus alter it, Enter answers";
    STAFF_FOR_THE_ANSWER = "Staff for the answer";
    LETTERS = "Letters";
    SIGNS_AND_OCTAVES = "Signs and octaves";
    FLAT = "Flat";
    NATURAL = "Natural";
    SHARP = "Sharp";
    OCTAVE_UP = "Octave up";
    OCTAVE_DOWN = "Octave down";
    HIGHER = "Octave ↑";
    LOWER = "Octave ↓";
    PLAY_IT_ON_A_MIDI_KEYBOARD = "Play it on a MIDI keyboard";
    YOURS = "yours";
    IT_IS_RIGHT = "right";
    HEAR_YOURS = "Hear yours";
    HEAR_IT_RIGHT = "Hear it right";
    REVEAL = "Reveal";
    ON_THE_WALL = "On the wall";
    STEP_BACK = "Step back";
    WHAT_BECAME_OF_IT = "What became of your answer";
    CODE_FOR_THE_CLASS = "A code for the class";
    WHAT_WAS_MISSED = "What was missed";
    IN_BASS_CLEF = "In bass clef";
    IN_TREBLE_CLEF = "In treble clef";
    MIDI = "MIDI";
    HOLD_THE_CLOCK = "Hold the clock";
    LEAVE_THE_WALL = "Leave the wall";
    CHOOSE_FIRST = "Nothing is chosen yet.";
    NOTE_FIRST = "No note is entered yet.";
    SECOND_NOTE_FIRST = "The note of II. is missing.";
    NUMBER_FIRST = "First a number from 1 to 7, then its sign.";
}

/// Which question it is, from 1.
#[must_use]
pub fn one_of(number: usize, all: usize) -> String {
    format!("{number} of {all}")
}

/// The number that a question on the wall has on the worksheet, where that is another.
#[must_use]
pub fn on_paper(number: usize) -> String {
    format!(" ({number} on paper)")
}

/// Before the note of each of two players, for who cannot see it.
pub const PLAYERS: [&str; 2] = ["First player's note: ", "Second player's note: "];

/// A player and his note in short.
#[must_use]
pub fn players_note(at: usize, note: Option<String>) -> String {
    format!("{} {}", if at == 0 { "I." } else { "II." }, note.unwrap_or_else(|| "–".into()))
}

/// Of the time for a question.
#[must_use]
pub fn seconds_left(seconds: u32) -> String {
    format!("{seconds} s left")
}

/// A right answer.
#[must_use]
pub fn right(right: &str) -> String {
    format!("Right: {right}")
}

/// A wrong answer and the right one.
#[must_use]
pub fn you_said(given: &str, right: &str) -> String {
    format!("You said {given}. It is {right}.")
}

/// Two notes beside each other on a staff.
#[must_use]
pub fn beside(given: &str, right: &str) -> String {
    format!("Yours {given}, right {right}")
}

/// The right answer where none was given.
#[must_use]
pub fn left_out(right: &str) -> String {
    format!("Left out. It is {right}.")
}

/// The head of a question that was missed: "3. What sounds: octave or alto for basso".
#[must_use]
pub fn missed_head(number: usize, kind: &str, why: &str) -> String {
    format!("{number}. {kind}: {why}")
}
