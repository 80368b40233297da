//! Words that tell the player to change the crook: at sounding pitch, or for one crook, nothing changes there, and they go.

use super::super::Rewrite;
use super::super::pieces::Piece;
use super::Walk;
use crate::changes::changes_crook;
use core::ops::Range;

impl Walk<'_> {
    pub(super) fn words(&mut self, rewrite: &Rewrite, pieces: &[Piece], direction: Range<usize>) {
        let is_change = |piece: &Piece| {
            piece.path == "direction-type/words" && changes_crook(&rewrite.label, &piece.text)
        };
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
