//! What was given to one question: right or wrong, how quickly, and what explains a wrong answer.

use crate::answer::Answer;
use crate::mistake::{Explanation, Mark, Mistake};
use crate::off::Off;
use crate::pace::Pace;
use crate::question::Question;
use crookwise_theory::{Interval, Pitch};

/// What was given to one question.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Given {
    /// Nothing.
    LeftOut,
    /// A right answer.
    Right(Pace),
    /// A wrong answer.
    Wrong(Pace, Missed),
}

/// What a wrong answer was.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Missed {
    /// The mistakes that explain it.
    pub named: Explained,
    /// How far it was off; `None` where that cannot be told, or a code of the first version did not.
    pub off: Option<Off>,
}

/// The mistakes that explain a wrong answer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Explained {
    /// One.
    One(Mistake),
    /// Two made together.
    Both(Mistake, Mistake),
    /// One or the other: each leads to the answer.
    Either(Mistake, Mistake),
    /// Both, or one of them: codes of the first version do not tell.
    OneOrBoth(Mistake, Mistake),
    /// None that is typical.
    #[default]
    Nothing,
}

impl Explained {
    /// The mistakes that a mark names.
    #[must_use]
    pub fn of(explained: &[Explanation]) -> Self {
        match explained {
            [] => Self::Nothing,
            [only] => match only.with {
                Some(with) => Self::Both(only.mistake, with),
                None => Self::One(only.mistake),
            },
            [one, other, ..] => Self::Either(one.mistake, other.mistake),
        }
        .in_order()
    }

    /// The mistakes, none, one or two.
    pub fn mistakes(self) -> impl Iterator<Item = Mistake> + use<> {
        let (one, other) = match self {
            Self::Nothing => (None, None),
            Self::One(one) => (Some(one), None),
            Self::Both(one, other) | Self::Either(one, other) | Self::OneOrBoth(one, other) => {
                (Some(one), Some(other))
            }
        };
        [one, other].into_iter().flatten()
    }

    /// Of two the one with the lower number first; the same twice is one.
    pub(super) fn in_order(self) -> Self {
        match self {
            Self::Both(a, b) | Self::Either(a, b) | Self::OneOrBoth(a, b) if a == b => Self::One(a),
            Self::Both(a, b) => Self::Both(a.min(b), a.max(b)),
            Self::Either(a, b) => Self::Either(a.min(b), a.max(b)),
            Self::OneOrBoth(a, b) => Self::OneOrBoth(a.min(b), a.max(b)),
            other => other,
        }
    }
}

impl Missed {
    /// The note that was given and the right one, where the answer to the question is a note.
    #[must_use]
    pub fn given_beside(&self, question: &Question) -> Option<(Pitch, Pitch)> {
        match (&question.right, self.off.as_ref()?) {
            (Answer::Note(right), Off::Note(by) | Off::Name(by)) => Some((*right + *by, *right)),
            (Answer::Notes(right), Off::Notes(each)) => {
                let (right, by) = right.iter().zip(each).find(|(_, by)| **by != Interval::UNISON)?;
                Some((*right + *by, *right))
            }
            _ => None,
        }
    }
}

impl Given {
    /// An answer that was marked.
    #[must_use]
    pub fn of(pace: Pace, mark: &Mark, off: Option<Off>) -> Self {
        if mark.right {
            return Self::Right(pace);
        }
        Self::Wrong(pace, Missed { named: Explained::of(&mark.explained), off })
    }

    /// A wrong answer that one or the other of two mistakes explains.
    ///
    /// ```
    /// use crookwise_practice::results::{Given, Missed, Explained};
    /// use crookwise_practice::{Mistake, Pace};
    ///
    /// let given = Given::wrong(Pace::Fluent, &[Mistake::Octave, Mistake::Direction]);
    /// let named = Explained::Either(Mistake::Direction, Mistake::Octave);
    /// assert_eq!(given, Given::Wrong(Pace::Fluent, Missed { named, off: None }));
    /// ```
    #[must_use]
    pub fn wrong(pace: Pace, mistakes: &[Mistake]) -> Self {
        let first = mistakes.first().copied();
        let named = match (first, mistakes.iter().copied().find(|other| Some(*other) != first)) {
            (Some(one), Some(other)) => Explained::Either(one, other),
            (Some(one), None) => Explained::One(one),
            (None, _) => Explained::Nothing,
        };
        Self::Wrong(pace, Missed { named: named.in_order(), off: None })
    }

    /// Its pace; `None` for what was left out.
    #[must_use]
    pub const fn pace(&self) -> Option<Pace> {
        match self {
            Self::LeftOut => None,
            Self::Right(pace) | Self::Wrong(pace, _) => Some(*pace),
        }
    }

    /// Mistakes in order, and no distance that a code does not tell, whoever made the value.
    pub(super) fn into_told(self) -> Self {
        match self {
            Self::Wrong(pace, Missed { named, off }) => {
                Self::Wrong(pace, Missed { named: named.in_order(), off: off.filter(Off::is_near) })
            }
            other => other,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_note_that_was_given_is_found_again() {
        let staves = vec![crate::AskedStaff::of("Corni in Es")];
        let exercise = crate::Exercise { staves, ..crate::Exercise::default() };
        for question in exercise.questions().unwrap() {
            let Answer::Note(right) = question.right else { panic!("{question:?}") };
            for by in [Interval::OCTAVE, Interval::new(-2, -4), Interval::new(0, 1)] {
                let answer = Answer::Note(right + by);
                let missed = Missed { named: Explained::Nothing, off: question.off(&answer) };
                assert_eq!(missed.given_beside(&question), question.beside(&answer));
            }
            assert_eq!(Missed::default().given_beside(&question), None);
        }
    }

    #[test]
    fn a_mark_says_whether_two_mistakes_were_made_or_one_of_them() {
        let (octave, third) = (Mistake::Octave, Mistake::ThirdForSixth);
        let single = |mistake| Explanation { mistake, with: None };
        let both = Explanation { mistake: third, with: Some(octave) };
        assert_eq!(Explained::of(&[]), Explained::Nothing);
        assert_eq!(Explained::of(&[single(third)]), Explained::One(third));
        assert_eq!(Explained::of(&[both]), Explained::Both(octave, third));
        assert_eq!(Explained::of(&[single(third), single(octave)]), Explained::Either(octave, third));
        assert_eq!(Explained::Either(octave, third).mistakes().collect::<Vec<_>>(), [octave, third]);
    }
}
