//! Changes to a text, gathered in any order within an element and made in one go.

use core::ops::Range;
use crookwise_theory::order::put_in_order;

/// Changes to a text.
#[derive(Debug, Default)]
pub(super) struct Edits {
    edits: Vec<(Range<usize>, String)>,
}

impl Edits {
    /// Puts something in the place of a stretch; an empty stretch is a place to put it in.
    pub fn replace(&mut self, range: Range<usize>, by: impl Into<String>) {
        self.edits.push((range, by.into()));
    }

    /// The text with all changes made. Of two that overlap the one that begins first holds.
    pub fn applied(mut self, text: &str) -> String {
        put_in_order(&mut self.edits, |(range, _)| (range.start, range.end));
        let mut out = String::with_capacity(text.len());
        let mut at = 0;
        for (range, by) in self.edits {
            if range.start < at {
                continue;
            }
            out.push_str(text.get(at..range.start).unwrap_or_default());
            out.push_str(&by);
            at = range.end.max(at);
        }
        out.push_str(text.get(at..).unwrap_or_default());
        out
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn changes_are_made_where_they_stand() {
        let mut edits = Edits::default();
        edits.replace(4..5, "E");
        edits.replace(0..1, "");
        edits.replace(2..2, "xy");
        edits.replace(2..4, "!");
        assert_eq!(edits.applied("abcdefg"), "bxy!Efg");
    }
}
