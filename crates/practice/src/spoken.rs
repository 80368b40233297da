//! Answers as short texts and back: "note Eb4", "partial 7", "made handOut".

use crate::answer::{Answer, ChordName, Which};
use core::fmt;
use core::str::FromStr;
use crookwise_score::{Choice, Quality, Role};
use crookwise_theory::{Clef, Degree, Instrument, Pitch, Production, Transposition};

/// Chords that are asked for, by their words.
const QUALITIES: [(Quality, &str); 11] = [
    (Quality::Major, "major"),
    (Quality::Minor, "minor"),
    (Quality::Diminished, "diminished"),
    (Quality::DominantSeventh, "dominantSeventh"),
    (Quality::MajorSeventh, "majorSeventh"),
    (Quality::MinorSeventh, "minorSeventh"),
    (Quality::HalfDiminishedSeventh, "halfDiminishedSeventh"),
    (Quality::DiminishedSeventh, "diminishedSeventh"),
    (Quality::MinorMajorSeventh, "minorMajorSeventh"),
    (Quality::AugmentedMajorSeventh, "augmentedMajorSeventh"),
    (Quality::AugmentedSeventh, "augmentedSeventh"),
];

/// What may lie lowest, by its word.
const BASSES: [(Role, &str); 4] =
    [(Role::Root, "root"), (Role::Third, "third"), (Role::Fifth, "fifth"), (Role::Seventh, "seventh")];

fn word<T: PartialEq>(all: &[(T, &'static str)], one: &T) -> &'static str {
    all.iter().find(|(known, _)| known == one).map_or("other", |(_, word)| word)
}

fn by_word<T: Copy>(all: &[(T, &str)], word: &str) -> Option<T> {
    all.iter().find(|(_, known)| *known == word).map(|(one, _)| *one)
}

/// "note Eb4", "name Eb", "key 63", "notes C4 G4", "label horn -5 -9", "partial 7", "partial none", "made handOut",
/// "degree #4", "clef C4 1 -2", "chord Eb major third", "column 3", "staff 0", "which first".
impl fmt::Display for Answer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Note(note) => write!(f, "note {note}"),
            Self::Name(name) => write!(f, "name {name}"),
            Self::Key(key) => write!(f, "key {key}"),
            Self::Notes(notes) => {
                f.write_str("notes")?;
                notes.iter().try_for_each(|note| write!(f, " {note}"))
            }
            Self::Label(choice) => {
                let by = choice.transposition.0;
                write!(f, "label {} {} {}", choice.instrument.id, by.steps, by.semitones)
            }
            Self::Partial(Some(number)) => write!(f, "partial {number}"),
            Self::Partial(None) => f.write_str("partial none"),
            Self::Made(production) => write!(f, "made {}", production.id()),
            Self::Degree(degree) => write!(f, "degree {degree}"),
            Self::Clef { clef, octaves, fifths } => write!(f, "clef {clef} {octaves} {fifths}"),
            Self::Chord(chord) => {
                let (quality, bass) = (word(&QUALITIES, &chord.quality), word(&BASSES, &chord.bass));
                write!(f, "chord {} {quality} {bass}", chord.root)
            }
            Self::Column(column) => write!(f, "column {column}"),
            Self::Staff(staff) => write!(f, "staff {staff}"),
            Self::Which(which) => f.write_str(match which {
                Which::First => "which first",
                Which::Second => "which second",
            }),
        }
    }
}

/// A text that is no answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct UnknownAnswer;

impl fmt::Display for UnknownAnswer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(
            "an answer is a word and what it says, such as \"note Eb4\", \"partial 7\" or \"degree #4\"",
        )
    }
}

impl core::error::Error for UnknownAnswer {}

impl FromStr for Answer {
    type Err = UnknownAnswer;

    fn from_str(text: &str) -> Result<Self, UnknownAnswer> {
        read(text).ok_or(UnknownAnswer)
    }
}

fn read(text: &str) -> Option<Answer> {
    let mut words = text.split(' ');
    let answer = match words.next()? {
        "note" => Answer::Note(pitch(words.next()?)?),
        "name" => Answer::Name(words.next()?.parse().ok()?),
        "key" => Answer::Key(words.next()?.parse().ok().filter(|key| *key < 128)?),
        "notes" => {
            let notes: Vec<Pitch> = words.by_ref().map(pitch).collect::<Option<_>>()?;
            Answer::Notes(Some(notes).filter(|notes| (1..=4).contains(&notes.len()))?)
        }
        "label" => {
            let instrument = Instrument::by_id(words.next()?)?;
            let (steps, semitones) = (small(words.next()?)?, small(words.next()?)?);
            Answer::Label(Choice { instrument, transposition: Transposition::new(steps, semitones) })
        }
        "partial" => Answer::Partial(match words.next()? {
            "none" => None,
            number => Some(number.parse().ok().filter(|number| (1..=32).contains(number))?),
        }),
        "made" => {
            let id = words.next()?;
            Answer::Made(Production::ALL.into_iter().find(|made| made.id() == id)?)
        }
        "degree" => Answer::Degree(degree(words.next()?)?),
        "clef" => Answer::Clef {
            clef: words.next()?.parse::<Clef>().ok()?,
            octaves: small(words.next()?)?,
            fifths: small(words.next()?)?,
        },
        "chord" => Answer::Chord(ChordName {
            root: words.next()?.parse().ok()?,
            quality: by_word(&QUALITIES, words.next()?)?,
            bass: by_word(&BASSES, words.next()?)?,
        }),
        "column" => Answer::Column(words.next()?.parse().ok()?),
        "staff" => Answer::Staff(words.next()?.parse().ok()?),
        "which" => Answer::Which(match words.next()? {
            "first" => Which::First,
            "second" => Which::Second,
            _ => return None,
        }),
        _ => return None,
    };
    words.next().is_none().then_some(answer)
}

fn pitch(name: &str) -> Option<Pitch> {
    name.parse().ok()
}

/// A number within what intervals, octaves and signatures need.
fn small(text: &str) -> Option<i32> {
    text.parse().ok().filter(|number: &i32| number.abs() <= 99)
}

fn degree(text: &str) -> Option<Degree> {
    let number = text.trim_start_matches(['#', 'b']);
    let signs = text.get(..text.len() - number.len())?;
    let sharps = signs.bytes().filter(|sign| *sign == b'#').count();
    let flats = signs.len() - sharps;
    if signs.len() > 9 || (sharps > 0 && flats > 0) {
        return None;
    }
    let number = number.parse().ok().filter(|number| (1..=7).contains(number))?;
    Some(Degree { number, alter: sharps as i32 - flats as i32 })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn answers_go_back_and_forth() {
        let texts = [
            "note Eb4",
            "name F#",
            "key 63",
            "notes C4 G4",
            "label horn -5 -9",
            "partial 7",
            "partial none",
            "made handOut",
            "degree #4",
            "degree bb7",
            "clef C4 1 -2",
            "chord Eb dominantSeventh third",
            "column 3",
            "staff 0",
            "which second",
        ];
        for text in texts {
            assert_eq!(text.parse::<Answer>().map(|answer| answer.to_string()).as_deref(), Ok(text));
        }
        for text in [
            "",
            "note",
            "note H4",
            "note C4 C4",
            "key 128",
            "partial 0",
            "degree 8",
            "degree #b2",
            "which",
            "x",
        ] {
            assert_eq!(text.parse::<Answer>(), Err(UnknownAnswer), "{text}");
        }
    }
}
