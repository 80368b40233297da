//! What can be wrong with a call: a code from a closed list, the field it is about, and a sentence.

use core::fmt;

/// The closed list of codes. Most are the name of the field whose value is not understood.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Code {
    /// A field that must be there is not.
    Missing,
    /// A value is of another JavaScript type than its field takes; `null` is one.
    Type,
    /// The label names no staff.
    Label,
    /// The label of the instrument in hand names no staff.
    As,
    /// `printed` or `sounding` is no pitch in scientific notation.
    Pitch,
    /// No such clef.
    Clef,
    /// The octave mark is no whole number from −2 to 2.
    ClefOctave,
    /// Neither "old" nor "new".
    BassNotation,
    /// No such system of notation, or not one of this instrument.
    Scheme,
    /// Neither "natural" nor "valves".
    Mechanism,
    /// No key.
    MovementKey,
    /// The reference pitch is out of range.
    A4,
    /// No such temperament.
    Temperament,
    /// No keynote.
    TemperamentKey,
    /// Neither "C" nor "G".
    TunedOn,
    /// No whole number from 1 to 9999.
    Year,
    /// No such kind of question, or none at all.
    Kinds,
    /// The exercise cannot be asked: the sentence says why.
    Exercise,
    /// There is no question of that number.
    Question,
    /// The answer is none that a question takes.
    Answer,
    /// The file cannot be read: the sentence says why and where.
    File,
    /// There is no part of that number.
    Part,
    /// None of the parts asked for, or one that is not there.
    Parts,
    /// Neither "horn" nor "trumpet".
    Family,
    /// No key.
    Key,
    /// There is no such crook.
    Crook,
}

impl Code {
    /// Every code.
    pub const ALL: [Self; 26] = [
        Self::Missing,
        Self::Type,
        Self::Label,
        Self::As,
        Self::Pitch,
        Self::Clef,
        Self::ClefOctave,
        Self::BassNotation,
        Self::Scheme,
        Self::Mechanism,
        Self::MovementKey,
        Self::A4,
        Self::Temperament,
        Self::TemperamentKey,
        Self::TunedOn,
        Self::Year,
        Self::Kinds,
        Self::Exercise,
        Self::Question,
        Self::Answer,
        Self::File,
        Self::Part,
        Self::Parts,
        Self::Family,
        Self::Key,
        Self::Crook,
    ];

    /// The code as JavaScript has it.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Missing => "missing",
            Self::Type => "type",
            Self::Label => "label",
            Self::As => "as",
            Self::Pitch => "pitch",
            Self::Clef => "clef",
            Self::ClefOctave => "clefOctave",
            Self::BassNotation => "bassNotation",
            Self::Scheme => "scheme",
            Self::Mechanism => "mechanism",
            Self::MovementKey => "movementKey",
            Self::A4 => "a4",
            Self::Temperament => "temperament",
            Self::TemperamentKey => "temperamentKey",
            Self::TunedOn => "tunedOn",
            Self::Year => "year",
            Self::Kinds => "kinds",
            Self::Exercise => "exercise",
            Self::Question => "question",
            Self::Answer => "answer",
            Self::File => "file",
            Self::Part => "part",
            Self::Parts => "parts",
            Self::Family => "family",
            Self::Key => "key",
            Self::Crook => "crook",
        }
    }
}

/// What is wrong with a call; thrown as an `Error` with `code` and `field`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// What kind of trouble.
    pub code: Code,
    /// The field it is about; "text", "options" or "request" for what is no field.
    pub field: &'static str,
    /// A sentence for the person who reads it.
    pub sentence: String,
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence)
    }
}

impl core::error::Error for Problem {}

/// A text as a sentence quotes it: the beginning of a long one, control characters left out.
#[must_use]
pub fn quoted(text: &str) -> String {
    const LONGEST: usize = 40;
    let shown: String = text.chars().filter(|letter| !letter.is_control()).take(LONGEST).collect();
    let more = if text.chars().count() > LONGEST { "…" } else { "" };
    format!("“{shown}{more}”")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_and_strange_texts_are_quoted_short() {
        assert_eq!(quoted("G7"), "“G7”");
        assert_eq!(quoted("a\u{0}b\n"), "“ab”");
        assert_eq!(quoted(&"é".repeat(1000)).chars().count(), 43);
    }
}
