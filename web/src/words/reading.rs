//! Sentences about one note: how it is made, how far it drifts, where it stands in the key.

use super::names::{Names, alteration_sign, decimal, signed_cents, tenths};
use crookwise_theory::crook_range::CrookRange;
use crookwise_theory::{
    Degree, Grade, Intonation, Key, Making, Printed, Production, Reading, Temperament, TunedOn, Warmth,
    Written,
};

/// What is printed for an instrument without pitch.
pub const STROKE: &str = "a stroke";
/// What it sounds.
pub const NO_PITCH: &str = "no pitch";
/// The same in a sentence.
pub const STANDS_FOR_A_STROKE: &str =
    "What is printed stands for a stroke: it has no pitch that could be named.";
/// In place of the ways to read a note.
pub const NOTHING_TO_TRANSPOSE: &str = "Nothing to transpose.";

/// Cents too small to speak of.
const IN_TUNE: f64 = 0.5;

/// "14 cents flat", "2 cents sharp", "in tune".
pub(super) fn drift(cents: f64) -> String {
    if cents.abs() < IN_TUNE {
        return "in tune".into();
    }
    let side = if cents < 0.0 { "flat" } else { "sharp" };
    let whole = cents.abs().round() as u64;
    let plural = if whole == 1 { "cent" } else { "cents" };
    format!("{whole} {plural} {side}")
}

/// What a column is called: "written E5, sounds G4, partial 10, 14 cents flat".
#[must_use]
pub fn column_name(reading: &Reading, held: bool, names: Names) -> String {
    let mut name = String::new();
    if held {
        name.push_str("held: ");
    }
    name.push_str(&format!(
        "written {}, sounds {}",
        names.note_spoken(reading.printed.0),
        names.note_spoken(reading.sounding.0)
    ));
    if let Some(made) = &reading.making {
        if let Some(partial) = made.partial {
            name.push_str(&format!(", partial {}", partial.number()));
        }
        if made.partial.is_none() || made.production.is_corrected() {
            name.push_str(&format!(", {}", made.production.words()));
        }
        if let Some(cents) = made.drift {
            name.push_str(&format!(", {}", drift(cents)));
        }
    }
    name
}

/// What a column is called of which nothing can be said but what is printed; `None` where that stands for a stroke of an
/// instrument without pitch.
#[must_use]
pub fn column_unread(printed: Option<Printed>, held: bool, names: Names) -> String {
    let held = if held { "held: " } else { "" };
    match printed {
        Some(printed) => format!("{held}written {}", names.note_spoken(printed.0)),
        None => format!("{held}{STROKE}"),
    }
}

/// How the note is made, in short: "Partial 10, open", "Half stopped, from partial 7".
#[must_use]
pub fn making(made: &Making) -> String {
    match (made.partial, made.from, made.production) {
        (_, _, Production::Unavailable) if made.factitious => {
            "Below the series: a low player may find it with the lip, given time".into()
        }
        (_, _, Production::Lipped) if made.factitious => "Below the series, by lip alone".into(),
        (_, _, Production::Unavailable) => "Not to be had on the plain series".into(),
        (Some(partial), _, production) => format!("Partial {}, {}", partial.number(), production.words()),
        (None, Some(from), production) => {
            format!("{}, made from partial {}", capital(production.words()), from.number())
        }
        (None, None, production) => capital(production.words()),
    }
}

/// The shortest of it: "Partial 10, open, 14 cents flat".
#[must_use]
pub fn headline(made: &Making) -> String {
    match made.drift {
        Some(cents) => format!("{}, {}", making(made), drift(cents)),
        None => making(made),
    }
}

/// The same with a capital in front.
#[must_use]
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        core::iter::once(first.to_ascii_uppercase()).chain(letters).collect()
    })
}

/// The same with a small letter in front: a name in the middle of a line.
#[must_use]
pub fn uncapital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        core::iter::once(first.to_ascii_lowercase()).chain(letters).collect()
    })
}

/// How good the note is, what it needs, and that others do it otherwise.
#[must_use]
pub fn production_sentence(made: &Making) -> String {
    let mut parts = Vec::new();
    if let Some(grade) = made.grade {
        parts.push(format!("Grade {}: {}.", letter(grade), grade.words()));
    }
    if let Some(bend) = made.bend.filter(|bend| bend.abs() >= IN_TUNE && made.production != Production::Open)
    {
        let way = if bend < 0.0 { "down" } else { "up" };
        parts.push(format!("It must come {way} by {} cents.", bend.abs().round() as u64));
    }
    if !made.note.is_empty() {
        parts.push(format!("{}.", capital(made.note)));
    }
    if let Some(other) = made.other {
        parts.push(format!("Another way: {}.", other.words()));
    }
    parts.join(" ")
}

const fn letter(grade: Grade) -> &'static str {
    match grade {
        Grade::A => "A",
        Grade::B => "B",
        Grade::C => "C",
        Grade::D => "D",
        Grade::E => "E",
    }
}

/// How far the partial stands from the tuning, with both frequencies.
#[must_use]
pub fn tuning_sentence(reading: &Reading, intonation: &Intonation) -> String {
    let tuning = &intonation.tuning;
    let wanted = format!(
        "{} Hz at A = {} in {}",
        tenths(reading.target_hz),
        decimal(tuning.a4),
        temperament(tuning.temperament)
    );
    match reading.making.as_ref().and_then(|made| made.drift.zip(made.natural_hz)) {
        Some((cents, hz)) => {
            let tuned = match intonation.tuned_on {
                TunedOn::C => "",
                TunedOn::G => ", the crook tuned on its G",
            };
            let warmed = match intonation.warmth.map(Warmth::cents) {
                Some(cents) if cents.abs() >= IN_TUNE => {
                    format!(", the air having moved it by {} cents", signed_cents(cents))
                }
                _ => String::new(),
            };
            let stands = match drift(cents) {
                in_tune if cents.abs() < IN_TUNE => capital(&in_tune),
                off => format!("Uncorrected {off}"),
            };
            format!("{stands}: {} Hz against {wanted}{tuned}{warmed}.", tenths(hz))
        }
        None => format!("{wanted}."),
    }
}

/// A temperament within a sentence: names that begin with a person's keep their capital.
#[must_use]
pub fn temperament(temperament: &Temperament) -> String {
    let name = temperament.name();
    if name.starts_with("Equal") || name.starts_with("Just") || name.contains("comma") {
        name.to_ascii_lowercase()
    } else {
        name.to_owned()
    }
}

/// "Third degree of E♭ major (3); third above the crook's own C (3)."
#[must_use]
pub fn degrees(degree: Degree, movement: Key, above_crook: Option<Degree>, names: Names) -> String {
    let mut sentence = format!(
        "{} degree of {} ({})",
        capital(&degree_ordinal(degree)),
        names.key(movement),
        degree_sign(degree)
    );
    if let Some(above) = above_crook {
        sentence.push_str(&format!(
            "; {} degree above the crook's own C ({})",
            degree_ordinal(above),
            degree_sign(above)
        ));
    }
    sentence.push('.');
    sentence
}

pub(super) fn degree_ordinal(degree: Degree) -> String {
    let ordinals = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh"];
    let name = ordinals.get(usize::from(degree.number).saturating_sub(1)).copied().unwrap_or("first");
    match degree.alter {
        0 => name.to_owned(),
        1.. => format!("raised {name}"),
        _ => format!("lowered {name}"),
    }
}

/// A degree with its sign: ♯4, ♭7, 3.
fn degree_sign(degree: Degree) -> String {
    format!("{}{}", alteration_sign(degree.alter), degree.number)
}

/// Where old notation or a page at sounding pitch hides what the player reads.
#[must_use]
pub fn written_otherwise(printed: Printed, written: Written, names: Names) -> String {
    format!("Printed {}, but to be read as a written {}.", names.note(printed.0), names.note(written.0))
}

/// What all advice on the hand and the lip stands under.
pub const GUIDE: &str =
    "This is a guide: players, horns and sources differ, and a player or teacher knows better.";

/// How far a crook goes by one source.
#[must_use]
pub fn range(range: CrookRange) -> String {
    let CrookRange { low, high, source } = range;
    match low {
        Some(low) => format!("Partials {low} to {high}: {source}"),
        None => format!("Up to partial {high}: {source}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_theory::label::{DecodeOptions, decode};
    use crookwise_theory::{Clef, Habits, Printed, Situation, read};

    fn reading(label: &str, note: &str) -> Reading {
        let decoded = decode(label, DecodeOptions::default());
        let situation = Situation::of(&decoded.staves[0], Habits::of(Clef::TREBLE));
        read(&situation, Printed(note.parse().unwrap()))
    }

    #[test]
    fn a_note_is_named_by_all_that_matters() {
        let cases = [
            ("Corni in Es", "E5", "written E5, sounds G4, partial 10, 14 cents flat"),
            ("Corni in Es", "C5", "written C5, sounds E-flat 4, partial 8, in tune"),
            ("Corni in Es", "A4", "written A4, sounds C4, half stopped"),
            (
                "Corni in Es",
                "Bb4",
                "written B-flat 4, sounds D-flat 4, partial 7, open, hand out, 31 cents flat",
            ),
            ("Trombe in D", "F5", "written F5, sounds G5, partial 11, lipped, 51 cents sharp"),
            ("Clarinetti in A", "C5", "written C5, sounds A4"),
        ];
        for (label, note, name) in cases {
            assert_eq!(column_name(&reading(label, note), false, Names::default()), name);
        }
    }

    #[test]
    fn sentences_of_a_stopped_note() {
        let made = reading("Corni in Es", "A4").making.unwrap();
        assert_eq!(making(&made), "Half stopped, made from partial 7");
        assert_eq!(
            production_sentence(&made),
            "Grade B: good with a little help. It must come down by 69 cents."
        );
    }

    #[test]
    fn frequencies_of_a_drifting_note() {
        let mut intonation = Intonation::default();
        intonation.tuning.a4 = 430.0;
        let decoded = decode("Corni in Es", DecodeOptions::default());
        let situation =
            Situation { intonation, ..Situation::of(&decoded.staves[0], Habits::of(Clef::TREBLE)) };
        let reading = read(&situation, Printed("E5".parse().unwrap()));
        assert_eq!(
            tuning_sentence(&reading, &intonation),
            "Uncorrected 14 cents flat: 380.1 Hz against 383.1 Hz at A = 430 in equal temperament."
        );
    }

    #[test]
    fn what_is_in_tune_is_not_said_to_be_uncorrected() {
        let sentence = tuning_sentence(&reading("Corni in Es", "C5"), &Intonation::default());
        assert_eq!(sentence, "In tune: 311.1 Hz against 311.1 Hz at A = 440 in equal temperament.");
    }

    #[test]
    fn the_second_partial_of_the_trumpet_is_not_played_as_a_rule() {
        let made = reading("Trombe in D", "C3").making.unwrap();
        assert_eq!(headline(&made), "Partial 2, open, in tune");
        assert_eq!(
            production_sentence(&made),
            "Grade E: hardly to be had. Not played as a rule: the usual range begins with partial 3."
        );
    }
}
