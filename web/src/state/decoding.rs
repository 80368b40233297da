//! Labels that were read are remembered: a tap reads none anew.

use core::cell::RefCell;
use crookwise_theory::label::{DecodeOptions, Decoded, decode};
use std::sync::Arc;

/// Labels that are remembered; more than a page of sixteen staves with its changes has at once.
const MOST: usize = 128;

/// A label with the year of the music, and what it says.
type Known = ((String, Option<i32>), Arc<Decoded>);

thread_local! {
    static KNOWN: RefCell<Vec<Known>> = const { RefCell::new(Vec::new()) };
    #[cfg(test)]
    static READ: core::cell::Cell<usize> = const { core::cell::Cell::new(0) };
}

/// What a label says in music of a year.
#[must_use]
pub fn decoded(label: &str, year: Option<i32>) -> Arc<Decoded> {
    KNOWN.with_borrow_mut(|known| {
        if let Some(at) = known.iter().position(|((text, of), _)| text == label && *of == year) {
            // What was asked for last stays longest.
            let found = known.remove(at);
            let decoded = Arc::clone(&found.1);
            known.push(found);
            return decoded;
        }
        #[cfg(test)]
        READ.set(READ.get() + 1);
        let decoded = Arc::new(decode(label, DecodeOptions { year }));
        if known.len() >= MOST {
            known.remove(0);
        }
        known.push(((label.to_owned(), year), Arc::clone(&decoded)));
        decoded
    })
}

/// How many labels were read, not remembered, since the program began.
#[cfg(test)]
pub(crate) fn labels_read() -> usize {
    READ.get()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_label_is_read_once_for_a_year() {
        let before = labels_read();
        let first = decoded("Corni in Dis", Some(1800));
        assert_eq!(first, decoded("Corni in Dis", Some(1800)));
        assert_eq!(labels_read() - before, 1);
        let _ = decoded("Corni in Dis", None);
        assert_eq!(labels_read() - before, 2);
        for number in 0..2 * MOST {
            let _ = decoded(&format!("Corni {number}"), None);
        }
        assert!(KNOWN.with_borrow(Vec::len) <= MOST);
        assert_eq!(decoded("Corni in Dis", Some(1800)), first);
    }
}
