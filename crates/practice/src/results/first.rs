//! Codes of the first version, which are read for ever. They have room for 27 mistakes, and tell neither whether two of
//! them were made together nor how far off an answer was.

use super::given::{Explained, Given, Missed};
use super::symbols::Reader;
use crate::mistake::Mistake;
use crate::pace::Pace;

/// Mistakes these codes have room for.
const MOST_MISTAKES: u32 = 27;
/// Bits of a question that are read at once: 0–3 right, 4–14 and part of 15 wrong, the rest of 15 left out.
const WRONG_BITS: u32 = 11;
/// The first number of eleven bits that means a wrong answer: right ones take those that begin with 00.
const FIRST_WRONG: u32 = 1 << (WRONG_BITS - 2);
/// The seven bits of a question left out.
const LEFT_OUT: u32 = 0x7F;

/// The outer `None` where the symbols end, the inner for bits that mean nothing.
pub(super) fn take_given(bits: &mut Reader<'_>) -> Option<Option<Given>> {
    let four = bits.take(4)?;
    if four < 4 {
        return Some(Some(Given::Right(pace(four))));
    }
    let seven = four << 3 | bits.take(3)?;
    if seven == LEFT_OUT {
        return Some(Some(Given::LeftOut));
    }
    let number = (seven << (WRONG_BITS - 7) | bits.take(WRONG_BITS - 7)?) - FIRST_WRONG;
    let mistake = |code: u32| u8::try_from(code).ok().and_then(Mistake::from_code);
    let named = match set_of(number / 4) {
        Some((0, 0)) => Some(Explained::Nothing),
        Some((low, 0)) => mistake(low).map(Explained::One),
        Some((low, high)) => {
            mistake(low).zip(mistake(high)).map(|(low, high)| Explained::OneOrBoth(low, high))
        }
        None => None,
    };
    Some(named.map(|named| Given::Wrong(pace(number % 4), Missed { named, off: None })))
}

/// The pace of two bits.
fn pace(code: u32) -> Pace {
    u8::try_from(code).ok().and_then(Pace::from_code).unwrap_or(Pace::VerySlow)
}

/// The set of a number, 0 for an empty place: first none, then the single mistakes, then the pairs `low < high`.
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
    use crate::results::code::tests::{back, every_slip_is_found};
    use crate::results::{Fingerprint, Outcome, VERSION};

    /// Codes that the first version wrote.
    const SHORT: &str = "CWX4428T5AJG87FXAPTR6AC";
    const LONG: &str = include_str!("../../tests/results_1.txt");

    #[test]
    fn a_code_of_the_first_version_opens_for_ever() {
        let named = Explained::OneOrBoth(Mistake::EForEs, Mistake::BForH);
        let given = vec![
            Given::Right(Pace::Fluent),
            Given::wrong(Pace::Slow, &[Mistake::ThirdForSixth]),
            Given::LeftOut,
            Given::Wrong(Pace::VerySlow, Missed { named, off: None }),
        ];
        let outcome = Outcome::new(Fingerprint(0x1_2345), 0x2A5, given, "").unwrap();
        assert_eq!(back(SHORT), Ok(outcome));
    }

    #[test]
    fn every_mistake_and_every_pair_of_the_first_version_is_read() {
        // The samples go through every set of mistakes by rising number, sixty in a code, each of a run with a name.
        let mut number = 0;
        for code in LONG.lines() {
            let outcome = back(code).unwrap();
            assert_eq!((outcome.exercise().number(), outcome.name()), (0xB_EEF5, Some("Żaneta")));
            for given in outcome.given() {
                let (low, high) = set_of(number).unwrap();
                let mistakes: Vec<u32> = match given {
                    Given::Wrong(_, missed) => missed.named.mistakes().map(|one| one.code().into()).collect(),
                    _ => panic!("{given:?}"),
                };
                let wanted: Vec<u32> = [low, high].into_iter().filter(|code| *code > 0).collect();
                assert_eq!(mistakes, wanted);
                assert_eq!(given.pace(), Some(pace(number % 4)));
                number += 1;
            }
        }
        assert_eq!((number, set_of(number)), (1 + 27 + 27 * 26 / 2, None));
    }

    #[test]
    fn a_damaged_code_of_the_first_version_is_never_another() {
        every_slip_is_found(SHORT);
        every_slip_is_found(LONG.lines().next().unwrap());
        assert_ne!(VERSION, 1);
    }
}
