//! Values under keys, in the order of the keys, as one list.
//!
//! The standard library's `BTreeMap` is made for very many values, and is made anew for each type of them: some five
//! kilobytes over the wire. What is kept here comes nearly in order, or there is little of it.

use core::borrow::Borrow;

/// Values under keys, in the order of the keys. Adding behind the last is quick; adding or removing before it moves all
/// that stands behind.
///
/// ```
/// use crookwise_theory::ordered::Ordered;
/// let mut players: Ordered<&str, u8> = [("oboe", 2), ("horn", 4)].into_iter().collect();
/// *players.entry("viola", || 0) += 1;
/// assert!(players.keys().eq(&["horn", "oboe", "viola"]));
/// assert_eq!(players.get("horn"), Some(&4));
/// ```
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Ordered<K, V> {
    pairs: Vec<(K, V)>,
}

impl<K, V> Default for Ordered<K, V> {
    fn default() -> Self {
        Self { pairs: Vec::new() }
    }
}

impl<K: Ord, V> Ordered<K, V> {
    /// Where the key stands, or where it would.
    fn place<Q: Ord + ?Sized>(&self, key: &Q) -> Result<usize, usize>
    where
        K: Borrow<Q>,
    {
        self.pairs.binary_search_by(|(known, _)| known.borrow().cmp(key))
    }

    /// The value under a key.
    pub fn get<Q: Ord + ?Sized>(&self, key: &Q) -> Option<&V>
    where
        K: Borrow<Q>,
    {
        self.place(key).ok().and_then(|place| self.pairs.get(place)).map(|(_, value)| value)
    }

    /// Whether there is a value under a key.
    pub fn contains_key<Q: Ord + ?Sized>(&self, key: &Q) -> bool
    where
        K: Borrow<Q>,
    {
        self.place(key).is_ok()
    }

    /// The value under a key, made where there is none.
    pub fn entry(&mut self, key: K, make: impl FnOnce() -> V) -> &mut V {
        let place = self.place(&key).unwrap_or_else(|place| {
            self.pairs.insert(place, (key, make()));
            place
        });
        &mut self.pairs[place].1
    }

    /// Puts a value under a key, in place of the one that is there.
    pub fn insert(&mut self, key: K, value: V) {
        match self.place(&key) {
            Ok(place) => self.pairs[place].1 = value,
            Err(place) => self.pairs.insert(place, (key, value)),
        }
    }

    /// Takes away the value under a key.
    pub fn remove<Q: Ord + ?Sized>(&mut self, key: &Q) -> Option<V>
    where
        K: Borrow<Q>,
    {
        self.place(key).ok().map(|place| self.pairs.remove(place).1)
    }
}

impl<K, V> Ordered<K, V> {
    /// How many there are.
    #[must_use]
    pub const fn len(&self) -> usize {
        self.pairs.len()
    }

    /// Whether there are none.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.pairs.is_empty()
    }

    /// All with their keys.
    pub fn iter(&self) -> impl DoubleEndedIterator<Item = (&K, &V)> + ExactSizeIterator {
        self.pairs.iter().map(|(key, value)| (key, value))
    }

    /// The one at a place, counted from 0, with its key.
    #[must_use]
    pub fn nth(&self, place: usize) -> Option<(&K, &V)> {
        self.pairs.get(place).map(|(key, value)| (key, value))
    }

    /// The keys.
    pub fn keys(&self) -> impl DoubleEndedIterator<Item = &K> {
        self.pairs.iter().map(|(key, _)| key)
    }

    /// The values, in the order of their keys.
    pub fn values(&self) -> impl DoubleEndedIterator<Item = &V> {
        self.pairs.iter().map(|(_, value)| value)
    }

    /// The values, to be changed.
    pub fn values_mut(&mut self) -> impl Iterator<Item = &mut V> {
        self.pairs.iter_mut().map(|(_, value)| value)
    }

    /// Takes away the first so many.
    pub fn drop_first(&mut self, count: usize) {
        self.pairs.drain(..count.min(self.pairs.len()));
    }

    /// Takes away those for which this does not hold.
    pub fn retain(&mut self, mut holds: impl FnMut(&K, &V) -> bool) {
        self.pairs.retain(|(key, value)| holds(key, value));
    }
}

/// Of two values under one key the later stays.
impl<K: Ord, V> FromIterator<(K, V)> for Ordered<K, V> {
    fn from_iter<I: IntoIterator<Item = (K, V)>>(pairs: I) -> Self {
        let mut all = Self::default();
        for (key, value) in pairs {
            all.insert(key, value);
        }
        all
    }
}

impl<K, V> IntoIterator for Ordered<K, V> {
    type Item = (K, V);
    type IntoIter = std::vec::IntoIter<(K, V)>;

    fn into_iter(self) -> Self::IntoIter {
        self.pairs.into_iter()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::collection::vec;
    use proptest::prelude::*;
    use std::collections::BTreeMap;

    proptest! {
        #[test]
        fn it_holds_what_the_standard_library_s_map_holds(
            steps in vec((0..4_u8, 0..12_i32, 0..100_i32), 0..60)
        ) {
            let (mut ordered, mut expected) = (Ordered::default(), BTreeMap::new());
            for (step, key, value) in steps {
                match step {
                    0 => {
                        ordered.insert(key, value);
                        expected.insert(key, value);
                    }
                    1 => *ordered.entry(key, || 7) += value,
                    2 => prop_assert_eq!(ordered.remove(&key), expected.remove(&key)),
                    _ => ordered.retain(|known, _| known % 5 != key % 5),
                }
                match step {
                    1 => *expected.entry(key).or_insert(7) += value,
                    3 => expected.retain(|known, _| known % 5 != key % 5),
                    _ => {}
                }
                prop_assert_eq!(ordered.get(&key), expected.get(&key));
                prop_assert_eq!(ordered.contains_key(&key), expected.contains_key(&key));
                prop_assert!(ordered.iter().eq(&expected));
                prop_assert!(ordered.keys().eq(expected.keys()) && ordered.values().eq(expected.values()));
                prop_assert_eq!((ordered.len(), ordered.is_empty()), (expected.len(), expected.is_empty()));
            }
        }

        #[test]
        fn the_first_are_dropped(pairs in vec((0..50_i32, 0..9_i32), 0..30), count in 0..40_usize) {
            let mut ordered: Ordered<i32, i32> = pairs.iter().copied().collect();
            let expected: BTreeMap<i32, i32> = pairs.into_iter().collect();
            ordered.drop_first(count);
            prop_assert!(ordered.into_iter().eq(expected.into_iter().skip(count)));
        }
    }
}
