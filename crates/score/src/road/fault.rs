//! What is odd in the signs of a road.

use core::fmt;

/// A sign that cannot be followed as it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RoadFault {
    /// The bar it stands in, counted from 0.
    pub bar: usize,
    /// What it is.
    pub kind: RoadFaultKind,
}

/// What can be odd in the signs of a road.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RoadFaultKind {
    /// A repeat begins, and another begins before it ends.
    NeverEnds,
    /// The number of an ending cannot be read.
    Unreadable,
    /// An ending that others follow has no repeat sign; it is repeated all the same.
    NoRepeat,
    /// A pass between the first and the last has no ending.
    NoEnding,
    /// A repeat says that it is played more often than [`MOST_PASSES`](super::MOST_PASSES) times.
    TooOften,
    /// A jump to a segno that is nowhere before it.
    NoSegno,
    /// A jump to a coda that is nowhere behind it.
    NoCoda,
    /// A second jump back, which is not taken.
    SecondJump,
    /// The road is longer than [`MOST_PLAYED`](super::MOST_PLAYED) bars, or than can be counted, and ends here.
    TooLong,
}

impl fmt::Display for RoadFaultKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NeverEnds => "The repeat that begins here has no end before the next; it is not taken",
            Self::Unreadable => "The number of this ending cannot be read; it is counted in its order",
            Self::NoRepeat => {
                "This ending has no repeat sign, and another follows it; it is taken as repeated"
            }
            Self::NoEnding => {
                "Among these endings one is missing; they are passed over where it should be played"
            }
            Self::TooOften => "This repeat is marked to be played very often; it is played fewer times",
            Self::NoSegno => "Here players jump back to a segno, and there is none before; they go on",
            Self::NoCoda => "Here players jump to the coda, and there is none; they go on",
            Self::SecondJump => "Players have jumped back once already; they go on here",
            Self::TooLong => "With its repeats this music is longer than can be followed; it ends here",
        })
    }
}
