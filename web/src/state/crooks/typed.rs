//! A plan of keys as it is typed: "G minor 1-32, B-flat major 33-58", in English, German, French, Italian or Spanish. How keys
//! are called is common practice.

use crate::state::tonic_words::tonic;
use crate::words::Letters;
use crate::words::crooks as words;
use crookwise_planner::key_plan::KeyStretch;
use crookwise_theory::{Key, Mode};

/// So many stretches are planned at most.
pub const MOST_STRETCHES: usize = 64;
/// So many bars are planned at most.
pub const MOST_BARS: u32 = 10_000;
/// Bars of a key that is typed without any.
const USUAL_BARS: u32 = 16;

/// What of a plan of keys is not understood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TypedProblem {
    /// Nothing stands there.
    Nothing,
    /// This is no key.
    NoKey(String),
    /// These bars are none, or begin before those of the key before end.
    Bars(String),
    /// More stretches than are planned.
    TooManyKeys(usize),
    /// More bars than are planned.
    TooManyBars(u32),
}

impl TypedProblem {
    /// As a sentence.
    #[must_use]
    pub fn sentence(&self) -> String {
        match self {
            Self::Nothing => words::NO_KEY_YET.to_owned(),
            Self::NoKey(piece) => words::no_key(piece),
            Self::Bars(piece) => words::no_bars(piece),
            Self::TooManyKeys(many) => words::too_many_keys(*many, MOST_STRETCHES),
            Self::TooManyBars(bars) => words::too_many_bars(*bars, MOST_BARS),
        }
    }

    /// Whether it is in the last piece of a text, which may be half typed.
    #[must_use]
    pub fn is_at_the_end_of(&self, text: &str) -> bool {
        match self {
            Self::Nothing => true,
            Self::NoKey(piece) | Self::Bars(piece) => pieces(text).last() == Some(&piece.as_str()),
            Self::TooManyKeys(_) | Self::TooManyBars(_) => false,
        }
    }
}

/// Bars without a key of their own, the first and the last from 1, and the key they are planned in.
pub type FilledBars = ((u32, u32), Key);

/// The pieces of a text, each a key with its bars.
fn pieces(text: &str) -> Vec<&str> {
    text.split([',', ';', '\n', '|']).map(str::trim).filter(|piece| !piece.is_empty()).collect()
}

/// The bars of a text that have no key of their own; none where it is not understood.
#[must_use]
pub fn filled(text: &str, letters: Letters) -> Vec<FilledBars> {
    read_all(text, letters).map(|(_, filled)| filled).unwrap_or_default()
}

/// The keys of a text, one after the other from the first bar, as the reader names notes. A key lasts to its last bar, or until
/// the next begins.
///
/// # Errors
/// The first that is not understood.
pub fn read(text: &str, letters: Letters) -> Result<Vec<KeyStretch>, TypedProblem> {
    read_all(text, letters).map(|(stretches, _)| stretches)
}

/// Whether a text has a bare B, which is another note to who names notes otherwise.
#[must_use]
pub fn has_a_bare_b(text: &str) -> bool {
    let names = pieces(text).into_iter().map(|piece| parted(piece).0);
    names.into_iter().any(|name| key(name, Letters::English) != key(name, Letters::German))
}

/// What stands in the field: what was typed, as long as it means these keys, or nothing yet.
#[must_use]
pub fn standing(typed: &str, keys: &[KeyStretch], letters: Letters) -> String {
    match read(typed, letters) {
        Ok(read) if read != keys => write(keys),
        _ => typed.to_owned(),
    }
}

fn read_all(text: &str, letters: Letters) -> Result<(Vec<KeyStretch>, Vec<FilledBars>), TypedProblem> {
    let pieces = pieces(text);
    if pieces.is_empty() {
        return Err(TypedProblem::Nothing);
    }
    if pieces.len() > MOST_STRETCHES {
        return Err(TypedProblem::TooManyKeys(pieces.len()));
    }
    let mut typed = Vec::new();
    for piece in &pieces {
        let (name, bars) = parted(piece);
        let key = key(name, letters).ok_or_else(|| TypedProblem::NoKey((*piece).to_owned()))?;
        let bars = TypedBars::of(bars).ok_or_else(|| TypedProblem::Bars((*piece).to_owned()))?;
        typed.push((key, bars, *piece));
    }
    let mut stretches: Vec<KeyStretch> = Vec::new();
    let mut filled = Vec::new();
    // The first bar that has no key yet.
    let mut next = 1_u32;
    for (key, bars, piece) in typed {
        let wrong = || TypedProblem::Bars(piece.to_owned());
        let from = bars.from.unwrap_or(next);
        match stretches.last_mut() {
            _ if from < next => return Err(wrong()),
            _ if from == next => {}
            // The key before goes on until this one begins.
            Some(before) => {
                before.bars = before.bars.saturating_add(from - next);
                filled.push(((next, from - 1), before.key));
            }
            None => filled.push(((next, from - 1), key)),
        }
        let first = if stretches.is_empty() { 1 } else { from };
        let last = match (bars.last, bars.many) {
            (Some(last), _) => last,
            (None, many) => from.saturating_add(many.unwrap_or(USUAL_BARS)).saturating_sub(1),
        };
        let bars = last.checked_add(1).and_then(|end| end.checked_sub(first)).filter(|bars| *bars > 0);
        stretches.push(KeyStretch { key, bars: bars.ok_or_else(wrong)? });
        next = last.saturating_add(1);
    }
    let bars = next - 1;
    if bars > MOST_BARS { Err(TypedProblem::TooManyBars(bars)) } else { Ok((stretches, filled)) }
}

/// The keys as they would be typed.
#[must_use]
pub fn write(stretches: &[KeyStretch]) -> String {
    let mut first = 1;
    let mut all = Vec::new();
    for stretch in stretches {
        let last = first + stretch.bars.saturating_sub(1);
        let Key { tonic, mode } = stretch.key;
        let alter = match tonic.alter {
            0 => "",
            ..0 => "-flat",
            _ => "-sharp",
        };
        let mode = if mode == Mode::Major { "major" } else { "minor" };
        all.push(format!("{}{alter} {mode} {first}-{last}", tonic.step.letter()));
        first = last + 1;
    }
    all.join(", ")
}

/// Which bars are typed.
#[derive(Debug, Default)]
struct TypedBars {
    from: Option<u32>,
    last: Option<u32>,
    many: Option<u32>,
}

impl TypedBars {
    /// "1-32", "32" for so many, or nothing.
    fn of(text: &str) -> Option<Self> {
        let numbers: Vec<&str> =
            text.split(|letter: char| !letter.is_ascii_digit()).filter(|one| !one.is_empty()).collect();
        let number = |text: &str| text.parse::<u32>().ok().filter(|number| *number > 0);
        match numbers.as_slice() {
            [] => Some(Self::default()),
            [many] => {
                Some(Self { many: Some(number(many).filter(|many| *many <= MOST_BARS)?), ..Self::default() })
            }
            [from, last] => {
                let (from, last) = (number(from)?, number(last)?);
                (from <= last).then_some(Self { from: Some(from), last: Some(last), many: None })
            }
            _ => None,
        }
    }
}

/// The words of a piece, and its numbers behind them.
fn parted(piece: &str) -> (&str, &str) {
    let at = piece.find(|letter: char| letter.is_ascii_digit()).unwrap_or(piece.len());
    piece.split_at(at)
}

/// Words beside a key that say nothing of it.
const BESIDE: [&str; 12] = ["in", "en", "bars", "bar", "b", "mm", "m", "takt", "takte", "mes", "batt", "key"];

/// A key by its name. Where no word beside it says whose language it is, a bare B is what it is to the reader.
#[must_use]
pub fn key(text: &str, own: Letters) -> Option<Key> {
    let plain = text.to_lowercase();
    let words: Vec<&str> = plain
        .split(|letter: char| letter.is_whitespace() || matches!(letter, '-' | '–' | '.' | ':' | '(' | ')'))
        .filter(|word| !word.is_empty())
        .collect();
    let (mut name, mut mode, mut letters) = (Vec::new(), None, own);
    for (at, word) in words.iter().enumerate() {
        match mode_of(word) {
            Some((found, language)) if at > 0 && mode.is_none() => {
                mode = Some(found);
                letters = language;
            }
            // What stands before the bars.
            _ if at > 0 && BESIDE.contains(word) => {}
            _ => name.push(*word),
        }
    }
    let whole: String = name.concat();
    // Gm, Bbm, Em.
    let (whole, mode) = match (mode, whole.strip_suffix('m').or_else(|| whole.strip_suffix("min"))) {
        (None, Some(short)) if tonic(short, own).is_some() => (short.to_owned(), Some(Mode::Minor)),
        _ => (whole, mode),
    };
    // A small letter alone is a minor key, a capital a major one.
    let is_small = text.trim().chars().next().is_some_and(char::is_lowercase);
    let usual = if is_small && whole.chars().count() <= 3 { Mode::Minor } else { Mode::Major };
    let key = Key { tonic: tonic(&whole, letters)?, mode: mode.unwrap_or(usual) };
    (key.signature().0.abs() <= 7).then_some(key)
}

/// Major or minor, and whose word it is, where that changes what a letter means.
fn mode_of(word: &str) -> Option<(Mode, Letters)> {
    Some(match word {
        "major" | "maj" | "majeur" | "maggiore" | "mayor" => (Mode::Major, Letters::English),
        "minor" | "min" | "mineur" | "minore" | "menor" => (Mode::Minor, Letters::English),
        "dur" => (Mode::Major, Letters::German),
        "moll" => (Mode::Minor, Letters::German),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn name(text: &str) -> String {
        key(text, Letters::English).map_or_else(|| "-".into(), |key| format!("{} {:?}", key.tonic, key.mode))
    }

    #[test]
    fn keys_are_read_in_five_languages() {
        for (text, expected) in [
            ("G minor", "G Minor"),
            ("Gm", "G Minor"),
            ("g", "G Minor"),
            ("G", "G Major"),
            ("g-Moll", "G Minor"),
            ("Sol mineur", "G Minor"),
            ("sol minore", "G Minor"),
            ("B-flat major", "Bb Major"),
            ("B flat", "Bb Major"),
            ("Bb", "Bb Major"),
            ("B♭ major", "Bb Major"),
            ("Bbm", "Bb Minor"),
            ("B-Dur", "Bb Major"),
            ("B major", "B Major"),
            ("h-Moll", "B Minor"),
            ("Es-Dur", "Eb Major"),
            ("es", "Eb Minor"),
            ("As", "Ab Major"),
            ("Fis-Dur", "F# Major"),
            ("fis", "F# Minor"),
            ("mi bémol majeur", "Eb Major"),
            ("fa# minore", "F# Minor"),
            ("Do mayor", "C Major"),
            ("Em", "E Minor"),
            ("in D minor bars", "-"),
            ("D minor, ", "-"),
            ("minor", "-"),
            ("X", "-"),
            ("", "-"),
            ("G# major", "-"),
        ] {
            assert_eq!(name(text), expected, "{text}");
        }
    }

    fn bars(text: &str) -> Result<Vec<u32>, TypedProblem> {
        read(text, Letters::English).map(|all| all.iter().map(|one| one.bars).collect())
    }

    #[test]
    fn bars_are_counted_from_the_first_and_leave_no_hole() {
        assert_eq!(bars("G minor 1-32, B-flat major 33-58"), Ok(vec![32, 26]));
        assert_eq!(bars("Gm 32; Bb 26 bars"), Ok(vec![32, 26]));
        assert_eq!(bars("Gm, Bb"), Ok(vec![16, 16]));
        assert_eq!(bars("Gm bars 1–32, Bb 41–58"), Ok(vec![40, 18]));
        assert_eq!(bars("Gm 5-8"), Ok(vec![8]));
    }

    #[test]
    fn a_bare_b_is_what_it_is_to_the_reader() {
        let named = |text: &str, letters| key(text, letters).unwrap().to_string();
        for (text, english, german) in [
            ("B", "B major", "Bb major"),
            ("b", "B minor", "Bb minor"),
            ("Bm", "B minor", "Bb minor"),
            ("B-Dur", "Bb major", "Bb major"),
            ("B major", "B major", "B major"),
            ("Bb", "Bb major", "Bb major"),
            ("H", "B major", "B major"),
        ] {
            assert_eq!(
                (named(text, Letters::English), named(text, Letters::German)),
                (english.into(), german.into())
            );
            assert_eq!(has_a_bare_b(&format!("G minor 1-8, {text} 9-12")), english != german, "{text}");
        }
        let german = read("B 8", Letters::German).unwrap();
        assert_eq!(standing("B 8", &german, Letters::German), "B 8");
        assert_eq!(standing("B 8", &german, Letters::English), "B-flat major 1-8");
        assert_eq!(standing("B 8, qu", &german, Letters::English), "B 8, qu");
    }

    #[test]
    fn what_is_typed_goes_round() {
        let text = "G minor 1-32, B-flat major 33-58, F-sharp minor 59-59";
        assert_eq!(write(&read(text, Letters::English).unwrap()), text);
    }

    #[test]
    fn what_is_not_understood_is_told() {
        assert_eq!(read(" , ", Letters::English), Err(TypedProblem::Nothing));
        assert_eq!(
            read("G minor 1-8, quark 9-12", Letters::English),
            Err(TypedProblem::NoKey("quark 9-12".into()))
        );
        for wrong in [
            "Gm 8-1",
            "Gm 0-4",
            "Gm 1-8, Bb 7-9",
            "Gm 1-2-3",
            "Gm 99999999999",
            "Gm 4294967295-4294967295, Bb",
        ] {
            let read = read(wrong, Letters::English);
            assert!(matches!(read, Err(TypedProblem::Bars(_))), "{wrong}: {read:?}");
        }
        assert_eq!(read("Gm 1-10000", Letters::English).map(|all| all.len()), Ok(1));
        assert_eq!(read("Gm 1-10001", Letters::English), Err(TypedProblem::TooManyBars(10_001)));
        assert_eq!(read(&"Gm,".repeat(65), Letters::English), Err(TypedProblem::TooManyKeys(65)));
    }
}
