//! Chord symbols, written for whom the part goes out.

use super::super::Rewrite;
use super::super::pieces::{Piece, chord_letter};
use super::Walk;
use crookwise_theory::{Interval, Pitch, Step};

impl Walk<'_> {
    pub(super) fn harmony(&mut self, rewrite: &Rewrite, pieces: &[Piece]) {
        let by = self.state.told_for(None).0 + -rewrite.target.transposition.0;
        if by == Interval::UNISON {
            return;
        }
        for (above, step, alter) in
            [("root", "root/root-step", "root/root-alter"), ("bass", "bass/bass-step", "bass/bass-alter")]
        {
            let whole = pieces.iter().filter(|piece| piece.path == above);
            for whole in whole {
                let within = |piece: &&Piece| {
                    piece.whole.start >= whole.whole.start && piece.whole.end <= whole.whole.end
                };
                let find = |path: &str| pieces.iter().filter(within).find(|piece| piece.path == path);
                let Some(step) = find(step) else { continue };
                let letter = step.text.chars().next().and_then(Step::from_letter);
                let sign = find(alter).map_or(Some(0), |alter| alter.text.parse::<i32>().ok());
                let Some((letter, sign)) = letter.zip(sign.filter(|sign| sign.abs() <= 4)) else { continue };
                let to = (Pitch::new(letter, sign, 4) + by).tonic();
                self.put(step.whole.clone(), chord_letter(above, to));
                if let Some(alter) = find(alter) {
                    self.put(alter.whole.clone(), "");
                }
            }
        }
    }
}
