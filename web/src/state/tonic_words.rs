//! The name of a note without its octave, as readers type it in English, German, French, Italian or Spanish. Only a bare B
//! means two things. How notes are called is common practice.

use crate::words::Letters;
use crookwise_theory::{Step, Tonic};

const SYLLABLES: [(&str, Step); 9] = [
    ("do", Step::C),
    ("ut", Step::C),
    ("re", Step::D),
    ("ré", Step::D),
    ("mi", Step::E),
    ("fa", Step::F),
    ("sol", Step::G),
    ("la", Step::A),
    ("si", Step::B),
];

/// Signs and endings that may stand twice or three times.
const SIGNS: [(&str, i32); 6] = [("b", -1), ("♭", -1), ("es", -1), ("#", 1), ("♯", 1), ("is", 1)];
/// Most of them behind a letter.
const MOST_SIGNS: usize = 3;

/// The note of a name without blanks, in small letters.
#[must_use]
pub fn tonic(name: &str, letters: Letters) -> Option<Tonic> {
    if name == "b" && letters == Letters::German {
        return Some(Tonic::new(Step::B, -1));
    }
    for (syllable, step) in SYLLABLES {
        if let Some(alter) = name.strip_prefix(syllable).and_then(alteration) {
            return Some(Tonic::new(step, alter));
        }
    }
    let letter = name.chars().next()?;
    let signs = &name[letter.len_utf8()..];
    let step = if letter == 'h' { Step::B } else { Step::from_letter(letter.to_ascii_uppercase())? };
    let alter = match (step, signs) {
        // Es and As have lost a letter.
        (Step::E | Step::A, "s") => -1,
        (Step::E | Step::A, "ses") => -2,
        _ => alteration(signs)?,
    };
    Some(Tonic::new(step, alter))
}

fn alteration(text: &str) -> Option<i32> {
    match text {
        "" => return Some(0),
        "flat" | "bemol" | "bémol" | "bemolle" => return Some(-1),
        "sharp" | "s" | "diese" | "dièse" | "diesis" | "sostenido" => return Some(1),
        "x" => return Some(2),
        _ => {}
    }
    let (sign, alter) = SIGNS.into_iter().find(|(sign, _)| text.starts_with(sign))?;
    let many = text.len() / sign.len();
    let is_whole = many <= MOST_SIGNS && text == sign.repeat(many);
    is_whole.then_some(alter * i32::try_from(many).unwrap_or_default())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_of_five_languages_are_read_and_only_a_bare_b_means_two_things() {
        for (text, expected) in [
            ("c", "C"),
            ("h", "B"),
            ("bb", "Bb"),
            ("b♭", "Bb"),
            ("es", "Eb"),
            ("as", "Ab"),
            ("ases", "Abb"),
            ("fis", "F#"),
            ("fisis", "F##"),
            ("heses", "Bbb"),
            ("his", "B#"),
            ("eis", "E#"),
            ("solb", "Gb"),
            ("mi♭", "Eb"),
            ("ladiesis", "A#"),
            ("sibémol", "Bb"),
            ("si", "B"),
            ("dx", "D##"),
            ("c####", "-"),
            ("cb#", "-"),
            ("fs", "F#"),
            ("quark", "-"),
            ("♭", "-"),
            ("é", "-"),
            ("", "-"),
        ] {
            for letters in Letters::ALL {
                let read = tonic(text, letters).map_or_else(|| "-".to_owned(), |tonic| tonic.to_string());
                assert_eq!(read, expected, "{text}");
            }
        }
        let b = |letters| tonic("b", letters).unwrap().to_string();
        assert_eq!(Letters::ALL.map(b), ["B", "Bb", "B"]);
    }
}
