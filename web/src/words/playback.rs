//! The movement as it is heard.

texts! {
    PLAYBACK = "Playback";
    PLAY = "Play";
    PAUSE = "Pause";
    LOOP = "Loop";
    START = "start";
    PLAY_FACE = "play";
    PAUSE_FACE = "pause";
    LOOP_FACE = "loop";
    TEMPO = "Tempo in percent of the written one";
    TEMPO_FACE = "Tempo";
    WHO_IS_HEARD = "Parts heard";
    WHO_FACE = "parts";
    HOW_IT_IS_TUNED = "Natural brass and tuning";
    TUNED_FACE = "tuning";
    ALL_PARTS = "All parts";
    PARTS_SHOWN = "Parts shown";
    OTHERS = "Others";
    MUTE = "Mute";
    SOLO = "Solo";
    NATURAL_BRASS = "Natural brass";
    PARTIALS_OF_THE_CROOK = "Partials of the crook, as the tube gives them";
    IN_TUNE = "Tempered, in tune with the others";
    NO_PITCH_NO_SOUND = "Drums without a pitch of their own are not heard.";
    HOW_IT_IS_PLAYED = "Played by the signs of the score and common practice: ritardandos, turns, arpeggios, mutes and plucked strings are not followed.";
    NOTHING_IS_HEARD = "Nobody is heard: all parts are muted.";
}

/// The button that goes back to the start.
#[must_use]
pub fn back_to(bar: &str) -> String {
    format!("Back to the start, bar {bar}")
}

/// The button that plays some bars over and over.
#[must_use]
pub fn loop_of(first: &str, last: &str) -> String {
    if first == last { format!("{LOOP} bar {first}") } else { format!("{LOOP} bars {first} to {last}") }
}

/// Where it stands.
#[must_use]
pub fn at_bar(bar: &str) -> String {
    format!("bar {bar}")
}

/// How fast it is.
#[must_use]
pub fn tempo(hundredths: u8) -> String {
    format!("{hundredths}\u{a0}%")
}

/// The tuning of the others, which Read has.
#[must_use]
pub fn tuning(temperament: &str, a4: &str) -> String {
    format!("The others: {temperament}, A = {a4} Hz, as the page in Read has it.")
}
