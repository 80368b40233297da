//! Putting a handful of things in order.
//!
//! The standard library's sort is made for long lists and weighs some eight kilobytes over the wire for the three
//! short ones of a column of notes.

/// Puts a few things in order; what is equal keeps its place. Slow for long lists.
pub(crate) fn put_in_order<T>(items: &mut [T], before: impl Fn(&T, &T) -> bool) {
    for end in 1..items.len() {
        let mut at = end;
        while at > 0 && before(&items[at], &items[at - 1]) {
            items.swap(at, at - 1);
            at -= 1;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn it_orders_as_the_standard_library_does(mut items in prop::collection::vec((0..9_i32, 0..100_i32), 0..30)) {
            let mut expected = items.clone();
            expected.sort_by_key(|item| item.0);
            put_in_order(&mut items, |one, two| one.0 < two.0);
            prop_assert_eq!(items, expected);
        }
    }
}
