//! What holds from a place on: transposition and key, written for whom the part goes out.

use super::super::Rewrite;
use super::super::pieces::{Piece, told, transpose};
use super::Walk;
use crookwise_theory::{Signature, Transposition};

impl Walk<'_> {
    pub(super) fn attributes(&mut self, rewrite: &Rewrite, pieces: &[Piece], end: usize) {
        // The transposition first: the key that stands beside it is written for it.
        for piece in pieces.iter().filter(|piece| piece.path == "transpose") {
            let told = told(pieces, &piece.whole);
            self.state.told.retain(|(staff, _)| piece.number.is_some() && *staff != piece.number);
            self.state.told.push((piece.number, told));
            let new = self.transposition(rewrite.target.transposition, pieces, piece);
            self.put(piece.whole.clone(), new);
        }
        if !self.state.transposed {
            let last = pieces.iter().rfind(|piece| BEFORE_TRANSPOSE.contains(&piece.path.as_str()));
            let close = self.text.get(..end).and_then(|text| text.rfind("</")).unwrap_or(end);
            let place = last.map_or(close, |piece| piece.whole.end);
            self.put(place..place, transpose(rewrite.target.transposition, None, ""));
        }
        self.state.transposed = true;
        for piece in pieces.iter().filter(|piece| piece.path == "key") {
            self.key(rewrite, pieces, piece);
        }
    }

    /// What stands in the place of a transposition of the file: that of the target, once, and whether another octave sounds
    /// with it, wherever that changes.
    fn transposition(&mut self, by: Transposition, pieces: &[Piece], piece: &Piece) -> String {
        let within =
            |other: &&Piece| other.whole.start >= piece.whole.start && other.whole.end <= piece.whole.end;
        let double = pieces.iter().filter(within).find(|other| other.path == "transpose/double");
        let double = double.and_then(|double| self.text.get(double.whole.clone()));
        let double = self.plain(double.unwrap_or_default());
        let mut new = String::new();
        if !self.state.transposed {
            new.push_str(&transpose(by, None, ""));
            self.state.transposed = true;
        }
        let number = piece.number;
        if self.state.doubles(number, &double) {
            if number.is_none() {
                new.clear();
            }
            new.push_str(&transpose(by, Some(number), &double));
        }
        new
    }

    fn key(&mut self, rewrite: &Rewrite, pieces: &[Piece], key: &Piece) {
        let within =
            |piece: &&Piece| piece.whole.start >= key.whole.start && piece.whole.end <= key.whole.end;
        let fifths = pieces.iter().filter(within).find(|piece| piece.path == "key/fifths");
        let Some((piece, fifths)) = fifths.and_then(|piece| Some((piece, piece.text.parse::<i32>().ok()?)))
        else {
            return;
        };
        let told = self.state.told_for(key.number);
        let new = if rewrite.target.signatures {
            let sounding = fifths.clamp(-7, 7) + told.fifths();
            Signature(sounding).transposed(-rewrite.target.transposition.0).practical()
        } else {
            Signature::NONE
        };
        self.put(piece.whole.clone(), format!("<fifths>{}</fifths>", new.0));
        // Naturals that took back the signature before would take back another one now.
        if let Some(cancel) = pieces.iter().filter(within).find(|piece| piece.path == "key/cancel") {
            self.put(cancel.whole.clone(), "");
        }
        self.state.sign(key.number, (Signature(fifths.clamp(-7, 7)), new));
    }
}

/// What stands before a transposition among the attributes (MusicXML 4.0, `attributes`).
const BEFORE_TRANSPOSE: [&str; 10] = [
    "footnote",
    "level",
    "divisions",
    "key",
    "time",
    "staves",
    "part-symbol",
    "instruments",
    "clef",
    "staff-details",
];
