//! Chance from a seed: whole numbers only, so that every machine draws the same.

use rand_pcg::Pcg32;
use rand_pcg::rand_core::Rng;

/// A source of chance.
#[derive(Clone, Debug)]
pub(crate) struct Chance(Pcg32);

impl Chance {
    /// The generator PCG-XSH-RR 64/32 on a stream of its own.
    pub(crate) fn new(seed: u32) -> Self {
        Self(Pcg32::new(u64::from(seed), 0x6372_6f6f_6b77_6973))
    }

    /// Chance of its own for something that takes many draws: however many it takes, what comes after stays the same.
    pub(crate) fn apart(&mut self) -> Self {
        Self::new(self.0.next_u32())
    }

    /// A number from 0 up to below `bound`; 0 for a bound of 0. Numbers that would favour some are drawn again.
    pub(crate) fn below(&mut self, bound: u32) -> u32 {
        if bound < 2 {
            return 0;
        }
        let unfair = u32::MAX - u32::MAX % bound;
        loop {
            let drawn = self.0.next_u32();
            if drawn < unfair {
                return drawn % bound;
            }
        }
    }

    /// A place in a list of that length; 0 for an empty one.
    pub(crate) fn place(&mut self, length: usize) -> usize {
        self.below(u32::try_from(length).unwrap_or(u32::MAX)) as usize
    }

    /// One of a list.
    pub(crate) fn one<'a, T>(&mut self, list: &'a [T]) -> Option<&'a T> {
        list.get(self.place(list.len()))
    }

    /// A place by weight; the first for weights that are all 0.
    pub(crate) fn by_weight(&mut self, weights: &[u32]) -> usize {
        let mut left = self.below(weights.iter().fold(0, |sum, weight| sum.saturating_add(*weight)));
        for (place, weight) in weights.iter().enumerate() {
            match left.checked_sub(*weight) {
                Some(rest) => left = rest,
                None => return place,
            }
        }
        0
    }

    /// Puts a list into another order.
    pub(crate) fn shuffle<T>(&mut self, list: &mut [T]) {
        for last in (1..list.len()).rev() {
            let other = self.place(last + 1);
            list.swap(last, other);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_numbers_of_a_seed_are_known() {
        let mut chance = Chance::new(1);
        let drawn: Vec<u32> = (0..6).map(|_| chance.below(1000)).collect();
        assert_eq!(drawn, [952, 793, 212, 591, 571, 188]);
    }

    #[test]
    fn weights_are_kept() {
        let mut chance = Chance::new(7);
        let mut counts = [0; 3];
        for _ in 0..6000 {
            counts[chance.by_weight(&[1, 0, 2])] += 1;
        }
        assert_eq!(counts[1], 0);
        assert!((1800..2200).contains(&counts[0]), "{counts:?}");
        assert_eq!((chance.by_weight(&[]), chance.by_weight(&[0, 0])), (0, 0));
    }
}
