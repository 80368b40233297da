//! Words that tell the player to change the crook: at sounding pitch, or for one crook, nothing changes there, and they go; so
//! do those in whose place the reader put others.

use super::super::Rewrite;
use super::super::corrected::Correct;
use super::super::pieces::Piece;
use super::Walk;
use crate::changes::changes_crook;
use core::ops::Range;

impl Walk<'_> {
    pub(super) fn words(&mut self, rewrite: &Rewrite, pieces: &[Piece], direction: Range<usize>) {
        self.leave_out(pieces, direction, &|words| changes_crook(&rewrite.label, words));
    }

    /// Words under a correction.
    pub(super) fn corrected_words(&mut self, correct: &Correct, pieces: &[Piece], direction: Range<usize>) {
        let bar = self.state.bar_at();
        let replaced = || correct.staves.iter().flat_map(|staff| &staff.replaced);
        let is_replaced = |words: &str| replaced().any(|(at, old)| *at == bar && old.trim() == words.trim());
        self.leave_out(pieces, direction, &is_replaced);
    }

    /// Leaves words out of a direction, and all of it where nothing else stands in it.
    fn leave_out(&mut self, pieces: &[Piece], direction: Range<usize>, goes: &dyn Fn(&str) -> bool) {
        let is_change = |piece: &Piece| piece.path == "direction-type/words" && goes(&piece.text);
        if !pieces.iter().any(is_change) {
            return;
        }
        let is_content = |piece: &&Piece| {
            piece.path.strip_prefix("direction-type/").is_some_and(|name| !name.contains('/'))
        };
        if pieces.iter().filter(is_content).all(is_change) {
            self.put(direction, "");
            return;
        }
        let types = pieces.iter().filter(|piece| piece.path == "direction-type");
        for kind in types {
            let within =
                |piece: &&Piece| piece.whole.start >= kind.whole.start && piece.whole.end <= kind.whole.end;
            let content: Vec<&Piece> = pieces.iter().filter(is_content).filter(within).collect();
            if !content.is_empty() && content.iter().all(|piece| is_change(piece)) {
                self.put(kind.whole.clone(), "");
            } else {
                let words = content.into_iter().filter(|piece| is_change(piece));
                words.for_each(|piece| self.put(piece.whole.clone(), ""));
            }
        }
    }
}
