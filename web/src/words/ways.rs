//! The three ways of reading, in sentences.

use super::names::{Names, alteration_sign};
use super::reading::NO_PITCH;
use crookwise_theory::{Direction, InHand, Interval, Reading, Signature};

/// "a major sixth lower", "at the same pitch".
#[must_use]
pub fn interval_with_direction(interval: Interval) -> String {
    let name = interval.to_string();
    let article =
        if name.starts_with(['a', 'e', 'i', 'o', 'u']) && !name.starts_with("uni") { "an" } else { "a" };
    let article = if name.starts_with("two ") || name.starts_with("three ") {
        String::new()
    } else {
        format!("{article} ")
    };
    match interval.direction() {
        Direction::Up => format!("{article}{name} higher"),
        Direction::Down => format!("{article}{name} lower"),
        Direction::None => "at the same pitch".into(),
    }
}

/// "Sounds a major second lower".
#[must_use]
pub fn sounds(interval: Interval) -> String {
    match interval {
        Interval::UNISON => "Sounds as printed".into(),
        _ => format!("Sounds {}", interval_with_direction(interval)),
    }
}

/// The same as short as a margin is narrow: "a major second lower"; `None` where nothing has a pitch.
#[must_use]
pub fn sounds_shortly(interval: Option<Interval>) -> String {
    match interval {
        None => NO_PITCH.into(),
        Some(Interval::UNISON) => "as printed".into(),
        Some(interval) => interval_with_direction(interval),
    }
}

/// The way by interval.
#[must_use]
pub fn by_interval(reading: &Reading) -> String {
    let interval = reading.interval;
    if interval == Interval::UNISON {
        return "Every note sounds as it is printed.".into();
    }
    let letters = interval.steps.unsigned_abs();
    let semitones = interval.semitones.unsigned_abs();
    format!(
        "Every note sounds {}: {letters} letters and {semitones} semitones.",
        interval_with_direction(interval)
    )
}

/// A note as one staff writes it: "Corni in Es: E5 (Partial 10, open)".
#[must_use]
pub fn on_staff(label: &str, note: &str, making: Option<&str>) -> String {
    match making {
        Some(making) => format!("{label}: {note} ({making})"),
        None => format!("{label}: {note}"),
    }
}

/// Where none of the drums a label names has a note.
pub const NO_DRUM: &str = "no drum has it";

/// ", an octave higher": what is added to a clef; nothing for none.
#[must_use]
pub fn octaves_further(octaves: i32) -> String {
    match octaves {
        0 => String::new(),
        1 => ", an octave higher".into(),
        -1 => ", an octave lower".into(),
        2.. => format!(", {octaves} octaves higher"),
        _ => format!(", {} octaves lower", octaves.unsigned_abs()),
    }
}

/// The way by an imagined clef.
#[must_use]
pub fn by_clef(reading: &Reading) -> String {
    let way = reading.by_clef;
    let octaves = octaves_further(way.octaves);
    let signature = match way.fifths {
        0 => String::new(),
        _ => format!(" and add {} to the signature", Signature(way.fifths).words()),
    };
    let sign = match (reading.sign.alter, reading.sign.changed) {
        (Some(alter), true) => format!(" Its accidental is read as {} there.", read_sign(alter)),
        _ => String::new(),
    };
    format!("Imagine the {} clef ({}){octaves}{signature}.{sign}", way.clef.name(), way.clef)
}

/// The same, with what is then read.
#[must_use]
pub fn read_at_clef(reading: &Reading, names: Names) -> String {
    format!(
        "{} So {} is read {}.",
        by_clef(reading),
        names.note(reading.printed.0),
        names.note(reading.sounding.0)
    )
}

fn read_sign(alter: i32) -> String {
    if alter == 0 { "♮".into() } else { alteration_sign(alter) }
}

/// The way on the instrument in the reader's hands.
#[must_use]
pub fn in_hand(there: InHand, instrument: &str, names: Names) -> String {
    let how = interval_with_direction(there.interval);
    format!("On {} read {}: every note {how}.", with_article(instrument), names.note(there.written.0))
}

fn with_article(instrument: &str) -> String {
    let vowel = instrument.starts_with(['A', 'E', 'I', 'O', 'U', 'a', 'e', 'i', 'o', 'u']);
    let article = if vowel { "an" } else { "a" };
    let mut letters = instrument.chars();
    let small: String =
        letters.next().map(|first| first.to_ascii_lowercase()).into_iter().chain(letters).collect();
    format!("{article} {small}")
}

/// Where the reader has named no instrument.
pub const HAND_UNKNOWN: &str = "Name the instrument you play, and the part is read on it.";

/// Where the instrument in hand is not understood.
#[must_use]
pub fn hand_not_understood(label: &str) -> String {
    format!("“{label}” names no instrument known here.")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_theory::label::{DecodeOptions, decode};
    use crookwise_theory::{Clef, Habits, Printed, Situation, read};

    #[test]
    fn the_three_ways_of_a_horn_in_e_flat() {
        let horn = decode("Corni in Es", DecodeOptions::default());
        let hand = decode("Horn in F", DecodeOptions::default());
        let situation = Situation {
            in_hand: Some(&hand.staves[0]),
            ..Situation::of(&horn.staves[0], Habits::of(Clef::TREBLE))
        };
        let reading = read(&situation, Printed("F#5".parse().unwrap()));
        assert_eq!(
            by_interval(&reading),
            "Every note sounds a major sixth lower: 5 letters and 9 semitones."
        );
        assert_eq!(
            by_clef(&reading),
            "Imagine the bass clef (F4), an octave higher and add 3 flats to the signature. Its accidental is read as ♮ there."
        );
        assert_eq!(
            in_hand(reading.in_hand.unwrap(), "Horn in F", Names::default()),
            "On a horn in F read E5: every note a major second lower."
        );
    }
}
