//! How far an answer was off as a few whole numbers, for codes and for what a device keeps of an exercise under way.

use super::symbols::{Reader, Writer};
use crate::off::Off;
use crookwise_theory::{Interval, Production};

/// Semitones of the letters above C: those of major and perfect intervals.
const MAJOR: [i32; 7] = [0, 2, 4, 5, 7, 9, 11];
/// Players whose notes are told.
const MOST_PLAYERS: usize = 4;
/// Numbers that are told lie this near to 0; who is further off is told to be wrong and no more.
const FURTHEST: i32 = 120;
/// Bits in front of the sort of a distance that is none from note to note.
const SORT_BITS: u32 = 4;

/// The ways of making a note by their numbers, which never change.
const MADE: [Production; 9] = [
    Production::Open,
    Production::HandOut,
    Production::Quarter,
    Production::Half,
    Production::ThreeQuarter,
    Production::Full,
    Production::Lipped,
    Production::Chromatic,
    Production::Unavailable,
];

impl Off {
    /// The number of its sort, which never changes, and what it holds.
    #[must_use]
    pub fn numbers(&self) -> (u8, Vec<i32>) {
        let flag = |is: bool| i32::from(is);
        match self {
            Self::Note(by) => (0, from_interval(*by).to_vec()),
            Self::Name(by) => (1, from_interval(*by).to_vec()),
            Self::Keys(keys) => (2, vec![*keys]),
            Self::Notes(each) => (3, each.iter().copied().flat_map(from_interval).collect()),
            Self::Count { given, right } => (
                4,
                [given, right].into_iter().map(|count| i32::try_from(*count).unwrap_or(FURTHEST)).collect(),
            ),
            Self::Degrees(by, sign) => (5, vec![*by, *sign]),
            Self::DegreeSign(by) => (6, vec![*by]),
            Self::Partials(by) => (7, vec![*by]),
            Self::Series { on } => (8, vec![flag(*on)]),
            Self::Hand(by) => (9, vec![*by]),
            Self::Made { right, given } => (10, vec![from_made(*right), from_made(*given)]),
            Self::Clef(letters, fifths) => (11, vec![*letters, *fifths]),
            Self::Chord { root, quality, bass } => (12, vec![flag(*root), flag(*quality), flag(*bass)]),
            Self::Label(same, by) => {
                let [steps, beyond] = from_interval(*by);
                (13, vec![flag(*same), steps, beyond])
            }
            Self::Sound => (14, Vec::new()),
        }
    }

    /// What such numbers say; `None` where they say nothing.
    #[must_use]
    pub fn of_numbers(sort: u8, numbers: &[i32]) -> Option<Self> {
        let flag = |number: i32| matches!(number, 0 | 1).then_some(number == 1);
        Some(match (sort, numbers) {
            (0, [steps, beyond]) => Self::Note(to_interval(*steps, *beyond)),
            (1, [steps, beyond]) => Self::Name(to_interval(*steps, *beyond)),
            (2, [keys]) => Self::Keys(*keys),
            (3, each) if !each.is_empty() && each.len().is_multiple_of(2) => {
                let note = |pair: &[i32]| match pair {
                    [steps, beyond] => to_interval(*steps, *beyond),
                    _ => Interval::UNISON,
                };
                Self::Notes(each.chunks(2).map(note).collect())
            }
            (4, [given, right]) => {
                Self::Count { given: usize::try_from(*given).ok()?, right: usize::try_from(*right).ok()? }
            }
            (5, [by, sign]) => Self::Degrees(*by, *sign),
            (6, [by]) => Self::DegreeSign(*by),
            (7, [by]) => Self::Partials(*by),
            (8, [on]) => Self::Series { on: flag(*on)? },
            (9, [by]) => Self::Hand(*by),
            (10, [right, given]) => Self::Made { right: to_made(*right)?, given: to_made(*given)? },
            (11, [letters, fifths]) => Self::Clef(*letters, *fifths),
            (12, [root, quality, bass]) => {
                Self::Chord { root: flag(*root)?, quality: flag(*quality)?, bass: flag(*bass)? }
            }
            (13, [same, steps, beyond]) => Self::Label(flag(*same)?, to_interval(*steps, *beyond)),
            (14, []) => Self::Sound,
            _ => return None,
        })
    }

    /// Whether its numbers are such as are told.
    pub(super) fn is_near(&self) -> bool {
        let (_, numbers) = self.numbers();
        numbers.len() <= 2 * MOST_PLAYERS && numbers.iter().all(|one| (-FURTHEST..=FURTHEST).contains(one))
    }
}

/// Letters, and the semitones beyond the major or perfect interval: mostly 0.
fn from_interval(by: Interval) -> [i32; 2] {
    [by.steps, by.semitones.saturating_sub(plain(by.steps))]
}

fn to_interval(steps: i32, beyond: i32) -> Interval {
    Interval::new(steps, plain(steps).saturating_add(beyond))
}

fn plain(steps: i32) -> i32 {
    let letters = steps.unsigned_abs();
    let within = MAJOR.get((letters % 7) as usize).copied().unwrap_or_default();
    let octaves = i32::try_from(letters / 7).unwrap_or(i32::MAX);
    octaves.saturating_mul(12).saturating_add(within).saturating_mul(steps.signum())
}

fn from_made(production: Production) -> i32 {
    MADE.iter().position(|one| *one == production).and_then(|at| i32::try_from(at).ok()).unwrap_or_default()
}

fn to_made(number: i32) -> Option<Production> {
    MADE.get(usize::try_from(number).ok()?).copied()
}

/// How many numbers belong to a sort; `None` for notes of several players, whose number is told.
const fn how_many(sort: u8) -> Option<usize> {
    Some(match sort {
        3 => return None,
        14 => 0,
        2 | 6..=9 => 1,
        0 | 1 | 4 | 5 | 10 | 11 => 2,
        _ => 3,
    })
}

/// Puts a distance: 1 and a distance from note to note; 01 and any other behind its sort; 00 for none. What is too far
/// off is none.
pub(super) fn put(bits: &mut Writer, off: Option<&Off>) {
    let Some(off) = off.filter(|off| off.is_near()) else { return bits.put(0b00, 2) };
    let (sort, numbers) = off.numbers();
    if sort == 0 {
        bits.put(1, 1);
    } else {
        bits.put(0b01, 2);
        bits.put(sort.into(), SORT_BITS);
    }
    if how_many(sort).is_none() {
        bits.put(u32::try_from(numbers.len() / 2).unwrap_or_default().saturating_sub(1), 2);
    }
    for (at, number) in numbers.iter().enumerate() {
        put_number(bits, *number, low_bits(sort, at));
    }
}

/// Takes a distance. The outer `None` where the symbols end, the inner for bits that mean nothing.
pub(super) fn take(bits: &mut Reader<'_>) -> Option<Option<Option<Off>>> {
    let sort = if bits.take(1)? == 1 {
        0
    } else if bits.take(1)? == 1 {
        u8::try_from(bits.take(SORT_BITS)?).unwrap_or_default()
    } else {
        return Some(Some(None));
    };
    let count = match how_many(sort) {
        Some(count) => count,
        None => 2 * (bits.take(2)? as usize + 1),
    };
    let mut numbers = Vec::new();
    for at in 0..count {
        match take_number(bits, low_bits(sort, at))? {
            Some(number) if (-FURTHEST..=FURTHEST).contains(&number) => numbers.push(number),
            _ => return Some(None),
        }
    }
    Some(Off::of_numbers(sort, &numbers).map(Some))
}

/// Bits that every number of its place has: letters are many, what goes beyond a major or perfect interval hardly
/// anything.
const fn low_bits(sort: u8, at: usize) -> u32 {
    match (sort, at % 2) {
        (0 | 1 | 3, 0) => 2,
        (0 | 1 | 3, _) => 0,
        _ => 1,
    }
}

/// Puts a number in few bits where it is near to 0: 0, -1, 1, -2, … are counted, and of what they are counted all but the
/// lowest bits say by ones how long they are (an exponential Golomb code).
fn put_number(bits: &mut Writer, number: i32, low: u32) {
    let counted = number.unsigned_abs() * 2 - u32::from(number < 0);
    let shifted = counted + (1 << low);
    let length = 32 - shifted.leading_zeros();
    for _ in low + 1..length {
        bits.put(1, 1);
    }
    bits.put(0, 1);
    bits.put(shifted, length - 1);
}

fn take_number(bits: &mut Reader<'_>, low: u32) -> Option<Option<i32>> {
    let mut length = low;
    while bits.take(1)? == 1 {
        length += 1;
        if length > 12 {
            return Some(None);
        }
    }
    let counted = (1 << length | bits.take(length)?) - (1 << low);
    let number = i32::try_from(counted.div_ceil(2)).ok();
    Some(number.map(|number| if counted % 2 == 1 { -number } else { number }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::results::symbols::value;
    use proptest::prelude::*;

    fn back(off: Option<&Off>) -> Option<Option<Option<Off>>> {
        let mut bits = Writer::default();
        put(&mut bits, off);
        let text = bits.symbols();
        let mut signs = text.chars();
        take(&mut Reader::new(&mut || signs.next().and_then(value)))
    }

    fn any_off() -> impl Strategy<Value = Off> {
        (0..15u8, proptest::collection::vec(-30..=30i32, 2..=8), any::<[bool; 3]>()).prop_filter_map(
            "nothing such",
            |(sort, mut numbers, flags)| {
                let count = how_many(sort).unwrap_or(numbers.len() / 2 * 2);
                numbers.truncate(count);
                for (number, flag) in numbers.iter_mut().zip(flags) {
                    match sort {
                        4 | 10 => *number = number.rem_euclid(9),
                        8 | 12 => *number = i32::from(flag),
                        _ => {}
                    }
                }
                if let (13, Some(same)) = (sort, numbers.first_mut()) {
                    *same = i32::from(flags[0]);
                }
                Off::of_numbers(sort, &numbers)
            },
        )
    }

    #[test]
    fn what_is_near_takes_few_bits_and_what_is_far_is_not_told() {
        let length = |off: Off| {
            let mut bits = Writer::default();
            put(&mut bits, Some(&off));
            bits.symbols().len()
        };
        // A third too low: one symbol; an octave too high: two.
        assert_eq!(length(Off::Note(Interval::new(-2, -4))), 1);
        assert_eq!(length(Off::Note(Interval::OCTAVE)), 2);
        let far = Off::Note(Interval::new(400, 700));
        assert_eq!(back(Some(&far)), Some(Some(None)));
        assert_eq!(back(None), Some(Some(None)));
    }

    #[test]
    fn the_numbers_of_sorts_never_change() {
        let sixth = Interval::new(5, 9);
        for (off, sort, numbers) in [
            (Off::Note(sixth), 0, vec![5, 0]),
            (Off::Note(Interval::new(-5, -8)), 0, vec![-5, 1]),
            (Off::Name(sixth), 1, vec![5, 0]),
            (Off::Keys(-3), 2, vec![-3]),
            (Off::Notes(vec![sixth, Interval::UNISON]), 3, vec![5, 0, 0, 0]),
            (Off::Count { given: 1, right: 2 }, 4, vec![1, 2]),
            (Off::Degrees(2, -1), 5, vec![2, -1]),
            (Off::DegreeSign(-1), 6, vec![-1]),
            (Off::Partials(3), 7, vec![3]),
            (Off::Series { on: true }, 8, vec![1]),
            (Off::Hand(2), 9, vec![2]),
            (Off::Made { right: Production::Lipped, given: Production::Open }, 10, vec![6, 0]),
            (Off::Clef(-1, 3), 11, vec![-1, 3]),
            (Off::Chord { root: true, quality: false, bass: true }, 12, vec![1, 0, 1]),
            (Off::Label(false, sixth), 13, vec![0, 5, 0]),
            (Off::Sound, 14, vec![]),
        ] {
            assert_eq!(off.numbers(), (sort, numbers.clone()));
            assert_eq!(Off::of_numbers(sort, &numbers), Some(off));
        }
        assert_eq!(Production::ALL.map(|one| to_made(from_made(one))), Production::ALL.map(Some));
        for (sort, numbers) in [(0, vec![1]), (8, vec![2]), (10, vec![0, 9]), (15, vec![]), (3, vec![])] {
            assert_eq!(Off::of_numbers(sort, &numbers), None, "{sort} {numbers:?}");
        }
    }

    proptest! {
        #[test]
        fn distances_go_round(off in any_off()) {
            let (sort, numbers) = off.numbers();
            prop_assert_eq!(Off::of_numbers(sort, &numbers), Some(off.clone()));
            prop_assert_eq!(back(Some(&off)), Some(Some(Some(off))));
        }
    }
}
