//! Putting things in order.
//!
//! The standard library's sort is made for long lists, and is made anew for each type of thing: the seven uses of a first
//! visit weigh some seven kilobytes over the wire, the fourteen of the worker with a whole score some twenty-five. A first
//! visit has never more than some hundred things to order; for long lists the library's sort is made once, for numbers.

use core::cmp::Ordering;

/// The things in the order of their keys; what is equal keeps its place. Slow for long lists.
///
/// ```
/// use crookwise_theory::order::in_order;
/// assert_eq!(in_order(["horn", "oboe", "viola", "cor"], |name| name.len()), ["cor", "horn", "oboe", "viola"]);
/// ```
pub fn in_order<T, K: PartialOrd>(things: impl IntoIterator<Item = T>, key: impl Fn(&T) -> K) -> Vec<T> {
    let mut ordered: Vec<T> = Vec::new();
    for thing in things {
        let place = ordered.partition_point(|other| key(other) <= key(&thing));
        ordered.insert(place, thing);
    }
    ordered
}

/// Puts a list of any length in the order of its keys; what is equal keeps its place.
///
/// ```
/// use crookwise_theory::order::put_in_order;
/// let mut names = vec!["horn", "oboe", "viola", "cor"];
/// put_in_order(&mut names, |name| name.len());
/// assert_eq!(names, ["cor", "horn", "oboe", "viola"]);
/// ```
pub fn put_in_order<T, K: Ord>(things: &mut Vec<T>, key: impl Fn(&T) -> K) {
    if things.is_sorted_by_key(&key) {
        return;
    }
    let keys: Vec<K> = things.iter().map(key).collect();
    let mut there: Vec<Option<T>> = core::mem::take(things).into_iter().map(Some).collect();
    let order = places_in_order(keys.len(), &|one, other| keys.get(one).cmp(&keys.get(other)));
    things.extend(order.into_iter().filter_map(|place| there.get_mut(place).and_then(Option::take)));
}

/// The places of so many things, in the order of the things.
fn places_in_order(count: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    let mut places: Vec<usize> = (0..count).collect();
    places.sort_by(|one, other| compare(*one, *other));
    places
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn it_orders_as_the_standard_library_does(things in prop::collection::vec((0..9_i32, 0..100_i32), 0..30)) {
            let mut expected = things.clone();
            expected.sort_by_key(|thing| thing.0);
            prop_assert_eq!(in_order(things.clone(), |thing| thing.0), expected.clone());
            let mut long = things;
            put_in_order(&mut long, |thing| thing.0);
            prop_assert_eq!(long, expected);
        }
    }
}
