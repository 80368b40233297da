//! Answers counted, each of them once.

use super::outcome::Given;
use crate::mistake::Mistake;
use crate::pace::Pace;
use crookwise_theory::order::in_order;

/// Answers counted.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Right answers.
    pub right: u32,
    /// Wrong answers.
    pub wrong: u32,
    /// Questions left out.
    pub left_out: u32,
    /// The pace in the middle of the answers; what was left out has none.
    pub pace: Option<Pace>,
    /// The wrong answers by what explains them, the commonest first, those that nothing typical explains last.
    pub missed: Vec<Missed>,
}

/// Wrong answers that the same mistakes explain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Missed {
    /// The mistakes, as [`Given::Wrong`] has them; none where nothing typical explains the answers.
    pub mistakes: [Option<Mistake>; 2],
    /// How many answers.
    pub count: u32,
}

impl Tally {
    /// Of what was given.
    pub fn of(given: impl IntoIterator<Item = Given>) -> Self {
        let mut tally = Self::default();
        let mut paces = Vec::new();
        for one in given {
            paces.extend(one.pace());
            match one {
                Given::LeftOut => tally.left_out += 1,
                Given::Right(_) => tally.right += 1,
                Given::Wrong(_, mistakes) => {
                    tally.wrong += 1;
                    tally.miss(mistakes);
                }
            }
        }
        tally.pace = Pace::median(&paces);
        // What is not explained comes last, of equally many the mistake with the lower number first.
        tally.missed = in_order(tally.missed, |missed| {
            (missed.mistakes[0].is_none(), core::cmp::Reverse(missed.count), missed.mistakes)
        });
        tally
    }

    /// All questions.
    #[must_use]
    pub const fn asked(&self) -> u32 {
        self.right + self.wrong + self.left_out
    }

    fn miss(&mut self, mistakes: [Option<Mistake>; 2]) {
        match self.missed.iter_mut().find(|missed| missed.mistakes == mistakes) {
            Some(missed) => missed.count += 1,
            None => self.missed.push(Missed { mistakes, count: 1 }),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_answer_is_counted_once() {
        let third = Given::wrong(Pace::Slow, &[Mistake::ThirdForSixth]);
        let both = Given::wrong(Pace::Slow, &[Mistake::Octave, Mistake::ThirdForSixth]);
        let unknown = Given::wrong(Pace::Slow, &[]);
        let given = [third, both, unknown, Given::LeftOut, both, Given::Right(Pace::Fluent), unknown];
        let tally = Tally::of(given);
        assert_eq!((tally.right, tally.wrong, tally.left_out, tally.asked()), (1, 5, 1, 7));
        assert_eq!(tally.missed.iter().map(|missed| missed.count).sum::<u32>(), tally.wrong);
        let missed: Vec<_> = tally.missed.iter().map(|missed| (missed.mistakes, missed.count)).collect();
        let (octave, sixth) = (Some(Mistake::Octave), Some(Mistake::ThirdForSixth));
        assert_eq!(missed, [([octave, sixth], 2), ([sixth, None], 1), ([None, None], 2)]);
        assert_eq!(tally.pace, Some(Pace::Slow));
        // What was left out takes no time.
        assert_eq!(Tally::of([Given::LeftOut; 3]).pace, None);
    }
}
