//! Answers counted, each of them once.

use super::given::{Explained, Given, Missed};
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
    /// The wrong answers by what explains them, the commonest first; those that nothing typical explains come last, by
    /// how far they were off.
    pub missed: Vec<Cause>,
}

/// Wrong answers that the same mistakes explain, or that nothing does and that are equally far off.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cause {
    /// The mistakes; how far off where there are none.
    pub missed: Missed,
    /// How many answers.
    pub count: u32,
}

impl Tally {
    /// Of what was given.
    pub fn of<'a>(given: impl IntoIterator<Item = &'a Given>) -> Self {
        let mut tally = Self::default();
        let mut paces = Vec::new();
        for one in given {
            paces.extend(one.pace());
            match one {
                Given::LeftOut => tally.left_out += 1,
                Given::Right(_) => tally.right += 1,
                Given::Wrong(_, missed) => {
                    tally.wrong += 1;
                    tally.miss(missed);
                }
            }
        }
        tally.pace = Pace::median(&paces);
        // What is not explained comes last, of equally many the mistake with the lower number first.
        tally.missed = in_order(tally.missed, |cause| {
            let named = cause.missed.named;
            (named == Explained::Nothing, core::cmp::Reverse(cause.count), named)
        });
        tally
    }

    /// All questions.
    #[must_use]
    pub const fn asked(&self) -> u32 {
        self.right + self.wrong + self.left_out
    }

    /// How many answers are of the commonest cause, wherever it stands.
    #[must_use]
    pub fn most_missed(&self) -> u32 {
        self.missed.iter().map(|cause| cause.count).max().unwrap_or_default()
    }

    /// How many of a thousand were right.
    #[must_use]
    pub fn per_mille(&self) -> u32 {
        let share = u64::from(self.right) * 1000 / u64::from(self.asked().max(1));
        u32::try_from(share).unwrap_or_default()
    }

    fn miss(&mut self, missed: &Missed) {
        let off = missed.off.clone().filter(|_| missed.named == Explained::Nothing);
        let missed = Missed { named: missed.named, off };
        match self.missed.iter_mut().find(|cause| cause.missed == missed) {
            Some(cause) => cause.count += 1,
            None => self.missed.push(Cause { missed, count: 1 }),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mistake::Mistake;
    use crate::off::Off;
    use crookwise_theory::Interval;

    #[test]
    fn each_answer_is_counted_once() {
        let third = Given::wrong(Pace::Slow, &[Mistake::ThirdForSixth]);
        let either = Given::wrong(Pace::Slow, &[Mistake::Octave, Mistake::ThirdForSixth]);
        let off = |steps, semitones| {
            let off = Some(Off::Note(Interval::new(steps, semitones)));
            Given::Wrong(Pace::Slow, Missed { named: Explained::Nothing, off })
        };
        let (low, high) = (off(-3, -5), off(1, 2));
        let given =
            [&third, &either, &low, &Given::LeftOut, &either, &Given::Right(Pace::Fluent), &high, &low];
        let tally = Tally::of(given);
        assert_eq!((tally.right, tally.wrong, tally.left_out, tally.asked()), (1, 6, 1, 8));
        assert_eq!(tally.missed.iter().map(|cause| cause.count).sum::<u32>(), tally.wrong);
        let causes: Vec<_> = tally.missed.iter().map(|cause| (cause.missed.clone(), cause.count)).collect();
        let missed = |given: &Given| match given {
            Given::Wrong(_, missed) => missed.clone(),
            _ => Missed::default(),
        };
        assert_eq!(
            causes,
            [(missed(&either), 2), (missed(&third), 1), (missed(&low), 2), (missed(&high), 1)]
        );
        // The commonest may be one that nothing explains.
        assert_eq!((tally.most_missed(), Tally::of([&third, &low, &low, &high]).most_missed()), (2, 2));
        assert_eq!(Tally::default().most_missed(), 0);
        assert_eq!(tally.pace, Some(Pace::Slow));
        assert_eq!((tally.per_mille(), Tally::default().per_mille()), (125, 0));
        // What was left out takes no time.
        assert_eq!(Tally::of(&[Given::LeftOut, Given::LeftOut]).pace, None);
        // How far off it was parts no answers that have a name.
        let named = |off| Given::Wrong(Pace::Slow, Missed { named: Explained::One(Mistake::Octave), off });
        let octaves = [named(Some(Off::Note(Interval::OCTAVE))), named(Some(Off::Keys(-12))), named(None)];
        assert_eq!(Tally::of(&octaves).missed.len(), 1);
    }
}
