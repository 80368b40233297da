//! A reading as steps from paper to sound to hand, and slips that change one of the steps.

use crate::mistake::Mistake;
use crookwise_theory::{Direction, Interval, Pitch};

/// The steps of a reading. From paper to sound, and on to the instrument in hand; backwards where it is asked what must
/// be written.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Steps {
    /// The note read: printed, or the sound to write.
    pub(crate) from: Pitch,
    /// From printed to written.
    pub(crate) bass: Interval,
    /// From written to sounding.
    pub(crate) transposition: Interval,
    /// From written to sounding on the instrument in hand.
    pub(crate) hand: Interval,
    /// From sound to paper.
    pub(crate) backwards: bool,
    reversed: bool,
    hand_reversed: bool,
    alter: Option<i32>,
    octaves: i32,
    letters: i32,
}

/// A change of one step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Change {
    /// Another note is read.
    From(Pitch),
    /// Another habit of bass notation.
    Bass(Interval),
    /// Another transposition.
    Transposition(Interval),
    /// The transposition the wrong way.
    Reverse,
    /// Another transposition in hand.
    Hand(Interval),
    /// The transposition in hand the wrong way.
    ReverseHand,
    /// Another accidental on the right letter.
    Alter(i32),
    /// Another octave.
    Octaves(i32),
    /// Another letter for the same sound.
    Letters(i32),
}

/// A mistake and the change it makes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Slip {
    pub(crate) mistake: Mistake,
    pub(crate) change: Change,
}

impl Steps {
    pub(crate) fn new(from: Pitch, bass: Interval, transposition: Interval) -> Self {
        Self {
            from,
            bass,
            transposition,
            hand: Interval::UNISON,
            backwards: false,
            reversed: false,
            hand_reversed: false,
            alter: None,
            octaves: 0,
            letters: 0,
        }
    }

    /// The same with one step changed.
    pub(crate) fn with(self, change: Change) -> Self {
        match change {
            Change::From(from) => Self { from, ..self },
            Change::Bass(bass) => Self { bass, ..self },
            Change::Transposition(transposition) => Self { transposition, ..self },
            Change::Reverse => Self { reversed: true, ..self },
            Change::Hand(hand) => Self { hand, ..self },
            Change::ReverseHand => Self { hand_reversed: true, ..self },
            Change::Alter(alter) => Self { alter: Some(alter), ..self },
            Change::Octaves(octaves) => Self { octaves, ..self },
            Change::Letters(letters) => Self { letters, ..self },
        }
    }

    /// From paper to sound.
    fn moved(self) -> Interval {
        self.bass + if self.reversed { -self.transposition } else { self.transposition }
    }

    /// Whether they lead to the other side of the note that is read than the right ones, by the same interval or to the
    /// same letter. Old bass-clef notation may have done so already.
    pub(crate) fn is_turned(self, right: Self) -> bool {
        turned(right.moved()).contains(&self.moved())
    }

    /// Whether they lead to the other side at all.
    pub(crate) fn is_across(self, right: Self) -> bool {
        -self.moved().semitones.signum() == right.moved().semitones.signum() && self.moved().semitones != 0
    }

    /// The transposition that leads as far to the other side; `None` where nothing moves.
    pub(crate) fn turned(self) -> Option<Interval> {
        let own = self.moved();
        (own.direction() != Direction::None).then(|| -own - self.bass)
    }

    /// Where the steps lead.
    pub(crate) fn lead(self) -> Pitch {
        let by = |interval: Interval, reversed: bool| if reversed { -interval } else { interval };
        let sounding = by(self.transposition, self.reversed);
        let there = if self.backwards {
            self.from + -sounding + -self.bass
        } else {
            self.from + self.bass + sounding + -by(self.hand, self.hand_reversed)
        };
        let there = Pitch { alter: self.alter.unwrap_or(there.alter), ..there };
        (there + Interval::octaves(self.octaves)).respelled(self.letters)
    }
}

/// An interval the other way, and to the same letter on the other side.
fn turned(own: Interval) -> Vec<Interval> {
    let octave = match own.direction() {
        Direction::None => return Vec::new(),
        Direction::Up => -Interval::OCTAVE,
        Direction::Down => Interval::OCTAVE,
    };
    let other = own + octave;
    let crosses = other.direction() != own.direction() && other.direction() != Direction::None;
    core::iter::once(-own).chain(crosses.then_some(other)).collect()
}

impl Change {
    /// Whether two changes can be made together: not where one would undo or hide the other.
    pub(crate) fn goes_with(self, other: Self) -> bool {
        let accidental = |change| matches!(change, Self::Alter(_));
        let mild = |change| matches!(change, Self::Octaves(_) | Self::Letters(_));
        let both = (accidental(self) && !mild(other)) || (accidental(other) && !mild(self));
        core::mem::discriminant(&self) != core::mem::discriminant(&other) && !both
    }

    /// How far-fetched it is as one of two mistakes made together.
    pub(crate) const fn cost(self) -> u8 {
        match self {
            Self::Octaves(1 | -1) | Self::Letters(1 | -1) | Self::Reverse | Self::Bass(_) => 1,
            Self::Alter(_) | Self::Transposition(_) | Self::ReverseHand => 2,
            Self::From(_) | Self::Hand(_) | Self::Octaves(_) | Self::Letters(_) => 3,
        }
    }
}
