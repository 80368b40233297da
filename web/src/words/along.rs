//! Reading along in a movement.

texts! {
    READ_ALONG = "Read along";
    READING_ALONG = "Reading along";
    WHICH_PART = "Which part do you read?";
    HOW_IT_GOES = "You see the written part alone. What it sounds is shown bar by bar behind you, and before each entry you are asked what will sound. With sound or without.";
    NO_PART = "Choose a part first, under Parts.";
    NEXT_BAR = "Next bar";
    NEXT_QUESTION = "Next question";
    WHAT_IS_ASKED = "What is asked of each entry";
    FIRST_NOTE = "Its first note";
    FIRST_BAR = "Its whole first bar";
    NEXT_NOTE = "Next note";
    STOP = "Stop reading along";
    STOP_FACE = "Stop";
    READ_ON = "Read on";
    WHAT_WILL_SOUND = "What will sound?";
    NO_PITCH = "This entry has no pitch to ask for.";
    READ_TO_THE_END = "Read to the end.";
    REVEAL_OR_GO_ON = "Reveal, then the next entry";
}

/// Where the reader is, and which entry comes next, with the bars of rest before it.
#[must_use]
pub fn reading(part: &str, bar: &str, next: Option<(&str, u32)>) -> String {
    let next = match next {
        Some((bar, rest)) => format!("next entry in bar {bar} after {rest} bars of rest"),
        None => "no entry follows".to_owned(),
    };
    format!("{part} · bar {bar} · {next}")
}

/// Where it is asked.
#[must_use]
pub fn asked(part: &str, bar: &str, rest: u32) -> String {
    format!("{part} · entry in bar {bar} after {rest} bars of rest")
}

/// Which of the notes of an entry is asked.
#[must_use]
pub fn which_note(number: usize, count: usize) -> String {
    format!("Note {number} of {count}")
}

/// How many notes a class is asked at once, where it is more than one.
#[must_use]
pub fn notes_asked(count: usize) -> Option<String> {
    (count > 1).then(|| format!("{count} notes"))
}

/// What notes sound, one after the other.
#[must_use]
pub fn sounding(notes: &[String]) -> String {
    notes.join(" · ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_class_is_told_of_every_note_that_it_is_asked() {
        assert_eq!((notes_asked(0), notes_asked(1)), (None, None));
        assert_eq!(notes_asked(3).as_deref(), Some("3 notes"));
        assert_eq!(sounding(&["D5".to_owned(), "E5".to_owned()]), "D5 · E5");
        assert_eq!(sounding(&["A3".to_owned()]), "A3");
    }
}
