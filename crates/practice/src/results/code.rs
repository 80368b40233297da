//! An outcome as a code, and back.

use super::outcome::{Fingerprint, Given, Outcome};
use super::symbols::{Reader, Writer};
use crate::exercise::MOST_QUESTIONS;
use crate::mistake::Mistake;
use crate::pace::Pace;
use core::fmt;
use crc::{CRC_24_OPENPGP, Crc, NoTable};

/// What every code begins with.
pub const MARK: &str = "CWX";

/// The version of codes that are written.
pub const VERSION: u32 = 1;

/// Mistakes a code has room for. With more of them the next version must be made.
const MOST_MISTAKES: u32 = 27;
/// How many sets of up to two mistakes there are.
const SETS: u32 = 1 + MOST_MISTAKES + MOST_MISTAKES * (MOST_MISTAKES - 1) / 2;
/// Bits of a question that are read at once: 0–3 right, 4–14 and part of 15 wrong, the rest of 15 left out.
const WRONG_BITS: u32 = 11;
/// The first number of eleven bits that means a wrong answer: right ones take those that begin with 00.
const FIRST_WRONG: u32 = 1 << (WRONG_BITS - 2);
/// The seven bits of a question left out.
const LEFT_OUT: u32 = 0x7F;

const _: () = assert!(Mistake::ALL.len() <= MOST_MISTAKES as usize);
const _: () = assert!(FIRST_WRONG + SETS * 4 <= LEFT_OUT << (WRONG_BITS - 7));

/// Why something that looks like a code is none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trouble {
    /// It ends too early: its end is missing, or a wrong character makes it seem longer than it is.
    CutShort,
    /// A character is wrong, missing or too many.
    Slip,
    /// It was made by a version that is not known here, or its beginning is damaged.
    Version,
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::CutShort => "The end of the code is missing, or a character is wrong.",
            Self::Slip => "A character of the code is wrong, missing or too many.",
            Self::Version => "The code was made by a newer version, or its beginning is damaged.",
        })
    }
}

impl core::error::Error for Trouble {}

impl Outcome {
    /// The code: [`MARK`] and symbols, without spaces. At most 60 characters for twenty questions without a name.
    ///
    /// ```
    /// use crookwise_practice::Pace;
    /// use crookwise_practice::results::{Fingerprint, Given, Outcome, find_all};
    ///
    /// let exercise = Fingerprint::of(b"the packed exercise");
    /// let outcome = Outcome::new(exercise, 77, vec![Given::Right(Pace::Fluent); 20], "").unwrap();
    /// let code = outcome.code();
    /// assert_eq!(code.len(), 32);
    /// assert_eq!(find_all(&format!("> here: {code}.")).codes[0].outcome, outcome);
    /// ```
    #[must_use]
    pub fn code(&self) -> String {
        let mut bits = Writer::default();
        bits.put(VERSION, 3);
        bits.put(u32::from(self.name.is_some()), 1);
        bits.put(u32::try_from(self.given.len()).unwrap_or_default(), 6);
        bits.put(self.exercise.0, 20);
        bits.put(u32::from(self.tag), 11);
        for given in &self.given {
            put_given(&mut bits, *given);
        }
        if let Some(name) = &self.name {
            bits.put(u32::try_from(name.len()).unwrap_or_default(), 6);
            for byte in name.bytes() {
                bits.put(u32::from(byte), 8);
            }
        }
        bits.put(checksum(&bits.bytes()), 24);
        format!("{MARK}{}", bits.symbols())
    }

    /// The code in groups of four, for reading aloud and copying by hand.
    #[must_use]
    pub fn code_in_groups(&self) -> String {
        let mut out = String::new();
        let code = self.code();
        let (mark, symbols) = code.split_at_checked(MARK.len()).unwrap_or_default();
        out.push_str(mark);
        for (number, symbol) in symbols.chars().enumerate() {
            if number % 4 == 0 {
                out.push(' ');
            }
            out.push(symbol);
        }
        out
    }
}

/// Reads the symbols behind the mark, no more of them than belong to the code.
pub(super) fn read(more: &mut dyn FnMut() -> Option<u8>) -> Result<Outcome, Trouble> {
    let mut bits = Reader::new(more);
    let version = bits.take(3).ok_or(Trouble::CutShort)?;
    if version != VERSION {
        return Err(Trouble::Version);
    }
    contents(&mut bits).unwrap_or(Err(Trouble::CutShort))
}

/// `None` where the symbols end.
fn contents(bits: &mut Reader<'_>) -> Option<Result<Outcome, Trouble>> {
    let has_name = bits.take(1)? == 1;
    let count = bits.take(6)?;
    if count == 0 || count > u32::from(MOST_QUESTIONS) {
        return Some(Err(Trouble::Slip));
    }
    let exercise = Fingerprint(bits.take(20)?);
    let tag = bits.take(11)?;
    let mut given = Vec::new();
    for _ in 0..count {
        match take_given(bits)? {
            Some(one) => given.push(one),
            None => return Some(Err(Trouble::Slip)),
        }
    }
    let mut name = Vec::new();
    if has_name {
        for _ in 0..bits.take(6)? {
            name.push(u8::try_from(bits.take(8)?).ok()?);
        }
    }
    let wanted = checksum(&bits.taken());
    let sound = bits.take(24)? == wanted && bits.ends_in_zeros();
    let outcome =
        String::from_utf8(name).ok().and_then(|name| Outcome::new(exercise, tag, given, &name).ok());
    Some(outcome.filter(|_| sound).ok_or(Trouble::Slip))
}

fn checksum(bytes: &[u8]) -> u32 {
    Crc::<u32, NoTable>::new(&CRC_24_OPENPGP).checksum(bytes)
}

fn put_given(bits: &mut Writer, given: Given) {
    match given {
        Given::Right(pace) => bits.put(u32::from(pace.code()), 4),
        Given::LeftOut => bits.put(LEFT_OUT, 7),
        Given::Wrong(pace, named) => {
            let code = |mistake: Option<Mistake>| mistake.map_or(0, |mistake| u32::from(mistake.code()));
            let [low, high] = named.map(code);
            bits.put(FIRST_WRONG + set_number(low, high) * 4 + u32::from(pace.code()), WRONG_BITS);
        }
    }
}

/// The outer `None` where the symbols end, the inner for bits that mean nothing.
fn take_given(bits: &mut Reader<'_>) -> Option<Option<Given>> {
    let four = bits.take(4)?;
    if four < 4 {
        return Some(Some(Given::Right(pace(four))));
    }
    let seven = four << 3 | bits.take(3)?;
    if seven == LEFT_OUT {
        return Some(Some(Given::LeftOut));
    }
    let number = (seven << (WRONG_BITS - 7) | bits.take(WRONG_BITS - 7)?) - FIRST_WRONG;
    let Some((low, high)) = set_of(number / 4) else { return Some(None) };
    let named = [low, high].map(|code| u8::try_from(code).ok().and_then(Mistake::from_code));
    let named: Vec<Mistake> = named.into_iter().flatten().collect();
    Some(Some(Given::wrong(pace(number % 4), &named)))
}

/// The pace of two bits.
fn pace(code: u32) -> Pace {
    u8::try_from(code).ok().and_then(Pace::from_code).unwrap_or(Pace::VerySlow)
}

/// The number of a set of mistakes: 0 for none, then the single ones, then the pairs `low < high`.
fn set_number(low: u32, high: u32) -> u32 {
    if high == 0 { low } else { 1 + MOST_MISTAKES + (high - 1) * (high - 2) / 2 + (low - 1) }
}

/// The set of a number, 0 for an empty place.
fn set_of(number: u32) -> Option<(u32, u32)> {
    if number > MOST_MISTAKES {
        let pair = number - 1 - MOST_MISTAKES;
        let high = (2..=MOST_MISTAKES).find(|high| pair < high * (high - 1) / 2)?;
        return Some((pair - (high - 1) * (high - 2) / 2 + 1, high));
    }
    Some((number, 0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::results::symbols::{symbol, value};
    use proptest::prelude::*;

    fn back(code: &str) -> Result<Outcome, Trouble> {
        let mut signs = code.strip_prefix(MARK).unwrap().chars();
        let outcome = read(&mut || signs.next().and_then(value));
        if outcome.is_ok() {
            assert_eq!(signs.as_str(), "", "a code says itself where it ends");
        }
        outcome
    }

    fn outcomes() -> impl Strategy<Value = Outcome> {
        let paces = (0..4u32).prop_map(pace);
        let mistake = || proptest::option::of((1..=25u8).prop_map(|code| Mistake::from_code(code).unwrap()));
        let given = (paces, 0..3, mistake(), mistake()).prop_map(|(pace, what, a, b)| match what {
            0 => Given::LeftOut,
            1 => Given::Right(pace),
            _ => Given::wrong(pace, &[a, b].into_iter().flatten().collect::<Vec<_>>()),
        });
        let given = proptest::collection::vec(given, 1..=60);
        (0..1u32 << 20, any::<u32>(), given, "\\PC{0,30}").prop_map(|(exercise, tag, given, name)| {
            Outcome::new(Fingerprint::from_number(exercise).unwrap(), tag, given, &name).unwrap()
        })
    }

    #[test]
    fn every_set_of_mistakes_has_its_number() {
        for number in 0..SETS {
            let (low, high) = set_of(number).unwrap();
            assert_eq!(set_number(low, high), number);
            assert!(low <= MOST_MISTAKES && (high == 0 || low < high));
        }
        assert_eq!(set_of(SETS), None);
    }

    #[test]
    fn lengths_are_as_the_page_says() {
        let two = [Mistake::OtherBass, Mistake::OtherInstrument];
        let wrong = Given::wrong(Pace::VerySlow, &two);
        let length = |wrongs: usize, rights: usize| {
            let mut given = vec![wrong; wrongs];
            given.extend(vec![Given::Right(Pace::VerySlow); rights]);
            Outcome::new(Fingerprint(0xF_FFFF), u32::MAX, given, "").unwrap().code().len()
        };
        assert_eq!([length(20, 0), length(5, 15)], [60, 39]);
        assert_eq!([length(60, 0), length(15, 45)], [148, 85]);
    }

    #[test]
    fn every_wrong_symbol_and_every_swap_is_found() {
        let given: Vec<Given> = (1..=20u8)
            .map(|n| match n % 3 {
                0 => Given::LeftOut,
                1 => Given::Right(Pace::Steady),
                _ => Given::wrong(Pace::Fluent, &[Mistake::from_code(n).unwrap(), Mistake::Octave]),
            })
            .collect();
        let outcome = Outcome::new(Fingerprint::of(b"exercise"), 1234, given, "Mira Tal").unwrap();
        let code = outcome.code();
        assert_eq!(back(&code), Ok(outcome));
        let symbols: Vec<char> = code.chars().collect();
        for at in MARK.len()..symbols.len() {
            for other in (0..32).map(symbol).filter(|other| *other != symbols[at]) {
                let mut slipped = symbols.clone();
                slipped[at] = other;
                assert!(back(&slipped.iter().collect::<String>()).is_err());
            }
            let mut missing = symbols.clone();
            missing.remove(at);
            assert!(back(&missing.iter().collect::<String>()).is_err());
            if at + 1 < symbols.len() && symbols[at] != symbols[at + 1] {
                let mut swapped = symbols.clone();
                swapped.swap(at, at + 1);
                assert!(back(&swapped.iter().collect::<String>()).is_err());
            }
        }
        assert_eq!(back(&code[..code.len() - 1]), Err(Trouble::CutShort));
    }

    #[test]
    fn a_code_of_the_first_version_opens_for_ever() {
        let given = vec![
            Given::Right(Pace::Fluent),
            Given::wrong(Pace::Slow, &[Mistake::ThirdForSixth]),
            Given::LeftOut,
            Given::wrong(Pace::VerySlow, &[Mistake::EForEs, Mistake::BForH]),
        ];
        let outcome = Outcome::new(Fingerprint(0x1_2345), 0x2A5, given, "").unwrap();
        assert_eq!(outcome.code(), "CWX4428T5AJG87FXAPTR6AC");
        assert_eq!(back("CWX4428T5AJG87FXAPTR6AC"), Ok(outcome));
    }

    proptest! {
        #[test]
        fn codes_go_round(outcome in outcomes()) {
            prop_assert_eq!(back(&outcome.code()), Ok(outcome.clone()));
            prop_assert!(outcome.name().is_some() || outcome.given().len() > 20 || outcome.code().len() <= 60);
        }

        #[test]
        fn nothing_panics(text in "[0-9A-Z]{0,200}") {
            let mut signs = text.chars();
            let _ = read(&mut || signs.next().and_then(value));
        }
    }
}
