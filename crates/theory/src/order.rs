//! Putting a handful of things in order.
//!
//! The standard library's sort is made for long lists, and is made anew for each type of thing: the seven uses of a first
//! visit weigh some seven kilobytes over the wire. None of them has more than some hundred things.

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

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn it_orders_as_the_standard_library_does(things in prop::collection::vec((0..9_i32, 0..100_i32), 0..30)) {
            let mut expected = things.clone();
            expected.sort_by_key(|thing| thing.0);
            prop_assert_eq!(in_order(things, |thing| thing.0), expected);
        }
    }
}
