//! How quick is fluent: reading is fluent when it is right and quick.

use crate::kind::Kind;

/// How quickly an answer came, against the time that counts as fluent for its kind of question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Pace {
    /// Within the fluent time.
    Fluent,
    /// Within twice that time.
    Steady,
    /// Within four times that time.
    Slow,
    /// Longer.
    VerySlow,
}

/// Milliseconds within which an answer counts as fluent.
///
/// A bar of four crotchets at 60 to the minute lasts four seconds: who reads a note a bar keeps up with the harmony of
/// a moderate movement, and that is the slowest pace that lets one follow a score. Questions with more to weigh or to
/// enter have more; chords, copies and heard pages have several notes. This is our own estimate, from memory of
/// teaching practice: no study is known.
#[must_use]
pub const fn fluent_ms(kind: Kind) -> u32 {
    match kind {
        Kind::Sounds | Kind::Partial | Kind::Made | Kind::Degree => 4_000,
        Kind::Writes | Kind::InHand | Kind::Label => 5_000,
        Kind::Clef | Kind::Players => 6_000,
        Kind::Natural => 8_000,
        Kind::Chord => 12_000,
        Kind::WrongNote | Kind::WrongStaff => 20_000,
    }
}

impl Pace {
    /// Every pace, in the order of their numbers from 0.
    pub const ALL: [Self; 4] = [Self::Fluent, Self::Steady, Self::Slow, Self::VerySlow];

    /// The pace of an answer that took so many milliseconds.
    #[must_use]
    pub const fn of(kind: Kind, ms: u32) -> Self {
        let fluent = fluent_ms(kind);
        if ms <= fluent {
            Self::Fluent
        } else if ms <= 2 * fluent {
            Self::Steady
        } else if ms <= 4 * fluent {
            Self::Slow
        } else {
            Self::VerySlow
        }
    }

    /// Its number in results, from 0. It never changes.
    #[must_use]
    pub const fn code(self) -> u8 {
        self as u8
    }

    /// The pace of that number.
    #[must_use]
    pub fn from_code(code: u8) -> Option<Self> {
        Self::ALL.get(usize::from(code)).copied()
    }

    /// The one in the middle; of two in the middle the quicker. `None` where there is none.
    #[must_use]
    pub fn median(paces: &[Self]) -> Option<Self> {
        let middle = paces.len().checked_sub(1)? / 2;
        Self::ALL.into_iter().find(|pace| paces.iter().filter(|other| *other <= pace).count() > middle)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pace_ends_where_it_says() {
        let paces = [0, 4_000, 4_001, 8_000, 16_000, 16_001, u32::MAX].map(|ms| Pace::of(Kind::Sounds, ms));
        use Pace::{Fluent, Slow, Steady, VerySlow};
        assert_eq!(paces, [Fluent, Fluent, Steady, Steady, Slow, VerySlow, VerySlow]);
        assert!(Pace::ALL.iter().all(|pace| Pace::from_code(pace.code()) == Some(*pace)));
    }

    #[test]
    fn the_middle_one() {
        use Pace::{Fluent, Steady, VerySlow};
        assert_eq!(Pace::median(&[]), None);
        assert_eq!(Pace::median(&[VerySlow]), Some(VerySlow));
        assert_eq!(Pace::median(&[VerySlow, Fluent]), Some(Fluent));
        assert_eq!(Pace::median(&[VerySlow, Steady, Fluent]), Some(Steady));
    }
}
