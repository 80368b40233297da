//! An outcome as a code, and back.

use super::given::{Explained, Given, Missed};
use super::outcome::{Fingerprint, Outcome};
use super::symbols::{Reader, Writer};
use super::{far, first};
use crate::exercise::MOST_QUESTIONS;
use crate::mistake::Mistake;
use crate::pace::Pace;
use core::fmt;
use crc::{CRC_24_OPENPGP, Crc, NoTable};

/// What every code begins with.
pub const MARK: &str = "CWX";

/// The version of codes that are written.
pub const VERSION: u32 = 2;
/// The version whose answers [`first`] reads.
const FIRST: u32 = 1;

/// Bits of a mistake's number. With more than 63 of them the next version must be made.
const MISTAKE_BITS: u32 = 6;

const _: () = assert!(Mistake::ALL.len() < 1 << MISTAKE_BITS);

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
    /// The code: [`MARK`] and symbols, without spaces.
    ///
    /// ```
    /// use crookwise_practice::Pace;
    /// use crookwise_practice::results::{Fingerprint, Given, Outcome, find_all};
    ///
    /// let exercise = Fingerprint::of(b"the packed exercise");
    /// let outcome = Outcome::new(exercise, 77, vec![Given::Right(Pace::Fluent); 20], "").unwrap();
    /// let code = outcome.code();
    /// assert_eq!(code.len(), 28);
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
            put_given(&mut bits, given);
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
    let take = match version {
        VERSION => take_given,
        FIRST => first::take_given,
        _ => return Err(Trouble::Version),
    };
    contents(&mut bits, take).unwrap_or(Err(Trouble::CutShort))
}

/// What was given to a question: the outer `None` where the symbols end, the inner for bits that mean nothing.
type Take = fn(&mut Reader<'_>) -> Option<Option<Given>>;

/// `None` where the symbols end. The versions differ in what was given to a question.
fn contents(bits: &mut Reader<'_>, take: Take) -> Option<Result<Outcome, Trouble>> {
    let has_name = bits.take(1)? == 1;
    let count = bits.take(6)?;
    if count == 0 || count > u32::from(MOST_QUESTIONS) {
        return Some(Err(Trouble::Slip));
    }
    let exercise = Fingerprint(bits.take(20)?);
    let tag = bits.take(11)?;
    let mut given = Vec::new();
    for _ in 0..count {
        match take(bits)? {
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

/// 0 right, 10 left out, 11 wrong; the pace of what was answered; of a wrong answer what explains it, and how far it was
/// off.
fn put_given(bits: &mut Writer, given: &Given) {
    match given {
        Given::Right(pace) => {
            bits.put(0, 1);
            bits.put(pace.code().into(), 2);
        }
        Given::LeftOut => bits.put(0b10, 2),
        Given::Wrong(pace, missed) => {
            bits.put(0b11, 2);
            bits.put(pace.code().into(), 2);
            put_named(bits, missed.named);
            far::put(bits, missed.off.as_ref());
        }
    }
}

/// 0 nothing, 10 one mistake, 110 both, 1110 either, 1111 one or both.
fn put_named(bits: &mut Writer, named: Explained) {
    match named {
        Explained::Nothing => bits.put(0, 1),
        Explained::One(_) => bits.put(0b10, 2),
        Explained::Both(..) => bits.put(0b110, 3),
        Explained::Either(..) => bits.put(0b1110, 4),
        Explained::OneOrBoth(..) => bits.put(0b1111, 4),
    }
    for mistake in named.mistakes() {
        bits.put(mistake.code().into(), MISTAKE_BITS);
    }
}

fn take_given(bits: &mut Reader<'_>) -> Option<Option<Given>> {
    if bits.take(1)? == 0 {
        return Some(pace(bits.take(2)?).map(Given::Right));
    }
    if bits.take(1)? == 0 {
        return Some(Some(Given::LeftOut));
    }
    let pace = pace(bits.take(2)?);
    let named = take_named(bits)?;
    let off = far::take(bits)?;
    let all = pace.zip(named).zip(off);
    Some(all.map(|((pace, named), off)| Given::Wrong(pace, Missed { named, off })))
}

fn take_named(bits: &mut Reader<'_>) -> Option<Option<Explained>> {
    let mut ones = 0;
    while ones < 4 && bits.take(1)? == 1 {
        ones += 1;
    }
    let mut mistake = || {
        let code = bits.take(MISTAKE_BITS)?;
        Some(u8::try_from(code).ok().and_then(Mistake::from_code))
    };
    if ones == 0 {
        return Some(Some(Explained::Nothing));
    }
    let one = mistake()?;
    if ones == 1 {
        return Some(one.map(Explained::One));
    }
    let pair = match ones {
        2 => Explained::Both,
        3 => Explained::Either,
        _ => Explained::OneOrBoth,
    };
    Some(one.zip(mistake()?).map(|(one, other)| pair(one, other)))
}

/// The pace of two bits.
fn pace(code: u32) -> Option<Pace> {
    u8::try_from(code).ok().and_then(Pace::from_code)
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use crate::off::Off;
    use crate::results::symbols::{symbol, value};
    use crookwise_theory::Interval;
    use proptest::prelude::*;

    pub(in crate::results) fn back(code: &str) -> Result<Outcome, Trouble> {
        let mut signs = code.strip_prefix(MARK).unwrap().chars();
        let outcome = read(&mut || signs.next().and_then(value));
        if outcome.is_ok() {
            assert_eq!(signs.as_str(), "", "a code says itself where it ends");
        }
        outcome
    }

    /// Every wrong, missing and swapped symbol is told, the version's among them.
    pub(in crate::results) fn every_slip_is_found(code: &str) {
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

    fn named(how: u32, one: u8, other: u8) -> Explained {
        let mistake = |code| Mistake::from_code(code).unwrap();
        match how {
            0 => Explained::Nothing,
            1 => Explained::One(mistake(one)),
            2 => Explained::Both(mistake(one), mistake(other)),
            3 => Explained::Either(mistake(one), mistake(other)),
            _ => Explained::OneOrBoth(mistake(one), mistake(other)),
        }
    }

    fn outcomes() -> impl Strategy<Value = Outcome> {
        let paces = (0..4u32).prop_map(|code| pace(code).unwrap());
        let last = u8::try_from(Mistake::ALL.len()).unwrap();
        let named = (0..5u32, 1..=last, 1..=last).prop_map(|(how, one, other)| named(how, one, other));
        let by = (-40..=40i32, -60..=60i32).prop_map(|(steps, semitones)| Interval::new(steps, semitones));
        let off = proptest::option::of((0..3, by).prop_map(|(sort, by)| match sort {
            0 => Off::Note(by),
            1 => Off::Notes(vec![by, Interval::UNISON]),
            _ => Off::Partials(by.steps),
        }));
        let given = (paces, 0..3, named, off).prop_map(|(pace, what, named, off)| match what {
            0 => Given::LeftOut,
            1 => Given::Right(pace),
            _ => Given::Wrong(pace, Missed { named, off }),
        });
        let given = proptest::collection::vec(given, 1..=60);
        (0..1u32 << 20, any::<u32>(), given, "\\PC{0,30}").prop_map(|(exercise, tag, given, name)| {
            Outcome::new(Fingerprint::from_number(exercise).unwrap(), tag, given, &name).unwrap()
        })
    }

    #[test]
    fn lengths_are_as_the_page_says() {
        let third = Some(Off::Note(Interval::new(-2, -4)));
        let one = Missed { named: Explained::One(Mistake::OtherBass), off: third.clone() };
        let two =
            Missed { named: Explained::Either(Mistake::OtherBass, Mistake::OtherInstrument), off: third };
        let length = |missed: &Missed, wrongs: usize, rights: usize| {
            let mut given = vec![Given::Wrong(Pace::VerySlow, missed.clone()); wrongs];
            given.extend(vec![Given::Right(Pace::VerySlow); rights]);
            Outcome::new(Fingerprint(0xF_FFFF), u32::MAX, given, "").unwrap().code().len()
        };
        assert_eq!([length(&one, 5, 15), length(&one, 20, 0), length(&two, 20, 0)], [42, 84, 116]);
        assert_eq!([length(&one, 15, 45), length(&two, 60, 0)], [94, 316]);
    }

    #[test]
    fn every_wrong_symbol_and_every_swap_is_found() {
        let given: Vec<Given> = (1..=20u8)
            .map(|n| match n % 3 {
                0 => Given::LeftOut,
                1 => Given::Right(Pace::Steady),
                _ => {
                    let off = Some(Off::Note(Interval::new(i32::from(n) - 9, i32::from(n) - 12)));
                    Given::Wrong(Pace::Fluent, Missed { named: named(u32::from(n) % 5, n, 2), off })
                }
            })
            .collect();
        let outcome = Outcome::new(Fingerprint::of(b"exercise"), 1234, given, "Mira Tal").unwrap();
        let code = outcome.code();
        assert_eq!(back(&code), Ok(outcome));
        every_slip_is_found(&code);
    }

    #[test]
    fn a_code_of_the_second_version_opens_for_ever() {
        let wrong = |pace, named, off| Given::Wrong(pace, Missed { named, off });
        let given = vec![
            Given::Right(Pace::Fluent),
            wrong(Pace::Slow, Explained::One(Mistake::EForEs), Some(Off::Note(Interval::new(0, 1)))),
            Given::LeftOut,
            wrong(Pace::VerySlow, Explained::Both(Mistake::Octave, Mistake::BForH), None),
            wrong(
                Pace::Steady,
                Explained::Either(Mistake::Octave, Mistake::AltoForBasso),
                Some(Off::Hand(-2)),
            ),
            wrong(Pace::Fluent, Explained::OneOrBoth(Mistake::Octave, Mistake::Quality), Some(Off::Keys(7))),
            wrong(
                Pace::Fluent,
                Explained::Nothing,
                Some(Off::Notes(vec![Interval::OCTAVE, Interval::UNISON])),
            ),
        ];
        let outcome = Outcome::new(Fingerprint(0x1_2345), 0x2A5, given, "Żaneta").unwrap();
        let code = "CWXA728T5AJHT2RPZG8CDW2APCWY224Q0R9Q203WBEV1DSJQ8R9D2P70";
        assert_eq!(outcome.code(), code);
        assert_eq!(back(code), Ok(outcome));
    }

    proptest! {
        #[test]
        fn codes_go_round(outcome in outcomes()) {
            prop_assert_eq!(back(&outcome.code()), Ok(outcome));
        }

        #[test]
        fn nothing_panics(text in "[0-9A-Z]{0,200}") {
            let mut signs = text.chars();
            let _ = read(&mut || signs.next().and_then(value));
        }
    }
}
