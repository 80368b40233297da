//! A passage typed by names of notes, read as the reader names them; in a link it stands in English names with their octaves,
//! so that it means the same to everybody.

use crate::state::tonic_words::tonic;
use crate::words::{Letters, Names};
use crookwise_share::crooks::MOST_TYPED;
use crookwise_theory::{Pitch, Sounding, Step};

/// So many words of a passage are read.
pub const MOST_WORDS: usize = 200;
/// The octave in which the first name stands where it has none: that nearest to G4.
const FIRST: Pitch = Pitch::natural(Step::G, 4);

/// A word of a passage that was typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoteWord {
    /// As it was typed.
    pub text: String,
    /// The note; `None` where the word names none.
    pub sounding: Option<Sounding>,
}

/// The words of a passage: names of notes with blanks, commas or bars between them. A name without an octave is the one nearest
/// to the note before.
#[must_use]
pub fn read(text: &str, letters: Letters) -> Vec<NoteWord> {
    let words = text.split(|letter: char| letter.is_whitespace() || ",;|".contains(letter));
    let mut before = FIRST;
    let note = |word: &str| {
        let pitch = pitch(word, before, letters);
        before = pitch.unwrap_or(before);
        NoteWord { text: word.to_owned(), sounding: pitch.map(Sounding) }
    };
    words.filter(|word| !word.is_empty()).take(MOST_WORDS).map(note).collect()
}

/// What a link says of a passage: English names, each with its octave.
#[must_use]
pub fn in_link(text: &str, letters: Letters) -> String {
    let word = |word: NoteWord| word.sounding.map_or(word.text, |sounding| sounding.0.to_string());
    let all: Vec<String> = read(text, letters).into_iter().map(word).collect();
    all.join(" ").chars().take(MOST_TYPED).collect()
}

/// What stands in a link as the reader would type it.
#[must_use]
pub fn in_field(sent: &str, names: Names) -> String {
    let word = |word: NoteWord| word.sounding.map_or(word.text, |sounding| name(sounding.0, names));
    read(sent, Letters::English).into_iter().map(word).collect::<Vec<_>>().join(" ")
}

/// What stands in the field: what was typed, as long as it means what the link says.
#[must_use]
pub fn standing(typed: &str, sent: &str, names: Names) -> String {
    if in_link(typed, names.letters) == sent { typed.to_owned() } else { in_field(sent, names) }
}

/// A note as it would be typed: no signs that a keyboard has not.
fn name(pitch: Pitch, names: Names) -> String {
    let tonic = names.tonic(pitch.tonic()).replace('♭', "b").replace('♯', "#");
    format!("{tonic}{}", pitch.octave)
}

/// The note of a word.
fn pitch(word: &str, before: Pitch, letters: Letters) -> Option<Pitch> {
    let plain = word.to_lowercase();
    let (name, octave) = parted(&plain)?;
    // "B-flat", but no octave below 0.
    let name = if name.ends_with('-') { return None } else { name.replace('-', "") };
    let tonic = tonic(&name, letters)?;
    Some(match octave {
        Some(octave) => Pitch::new(tonic.step, tonic.alter, octave),
        None => tonic.nearest_to(before),
    })
}

/// A name, and its octave behind it: by number, or by Helmholtz's primes. `None` where that is beyond all octaves.
fn parted(word: &str) -> Option<(&str, Option<i32>)> {
    let name = word.trim_end_matches(|letter: char| letter.is_ascii_digit());
    let digits = word.get(name.len()..)?;
    if !digits.is_empty() {
        let octave = digits.parse().ok().filter(|octave| *octave <= 9)?;
        return Some((name, Some(octave)));
    }
    let name = word.trim_end_matches(['\'', '’', '′', '″', '‴']);
    let primes = word.get(name.len()..)?.chars().map(|sign| match sign {
        '″' => 2,
        '‴' => 3,
        _ => 1,
    });
    match primes.sum::<i32>() {
        0 => Some((name, None)),
        many @ 1..=6 => Some((name, Some(3 + many))),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(letters: Letters) -> Names {
        Names { letters, ..Names::default() }
    }

    #[test]
    fn names_are_read_as_the_reader_has_them_and_english_ones_always() {
        for (text, letters, expected) in [
            ("d4 F# a, D5 | x Bb3", Letters::English, "D4 F#4 A4 D5 x Bb3"),
            ("H4 B4 Es5 Fis", Letters::English, "B4 B4 Eb5 F#5"),
            ("H4 B4 Es5 Fis As", Letters::German, "B4 Bb4 Eb5 F#5 Ab5"),
            ("Bb4 F#4 Eb4", Letters::German, "Bb4 F#4 Eb4"),
            ("re4 fa# la sib4 si mi♭5", Letters::Syllables, "D4 F#4 A4 Bb4 B4 Eb5"),
            ("d′ fis′ a″ B-flat4", Letters::English, "D4 F#4 A5 Bb4"),
            ("Eb", Letters::English, "Eb4"),
            (
                "hello F####4 G99 ♭ C-1 é Ré'''''''''",
                Letters::English,
                "hello F####4 G99 ♭ C-1 é Ré'''''''''",
            ),
        ] {
            assert_eq!(in_link(text, letters), expected, "{text}");
        }
    }

    #[test]
    fn what_a_link_says_is_read_by_everybody_and_stays_what_it_is() {
        let sent = "D4 F#4 Bb3 B4 Ebb5 quark C##2";
        for letters in Letters::ALL {
            let typed = in_field(sent, names(letters));
            assert_eq!(in_link(&typed, letters), sent, "{typed}");
        }
        assert_eq!(in_field("B4 Bb4 F#4", names(Letters::German)), "H4 B4 Fis4");
        assert_eq!(in_field("B4 Bb4 F#4", names(Letters::Syllables)), "Si4 Sib4 Fa#4");
    }

    #[test]
    fn what_is_typed_stays_until_it_means_something_else() {
        let german = names(Letters::German);
        assert_eq!(standing("h4 d", "B4 D5", german), "h4 d");
        // A remedy was taken, or notes are named otherwise now.
        assert_eq!(standing("h4 d", "B4 D4", german), "H4 D4");
        assert_eq!(standing("b4", "B4", german), "H4");
        assert_eq!(standing("", "", german), "");
    }

    #[test]
    fn a_long_text_is_read_as_far_as_a_link_holds_it() {
        assert_eq!(read(&"C ".repeat(500), Letters::English).len(), MOST_WORDS);
        assert!(in_link(&"ü".repeat(9_000), Letters::English).chars().count() <= MOST_TYPED);
    }
}
