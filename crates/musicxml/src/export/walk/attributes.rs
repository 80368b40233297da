//! What holds from a place on: transposition and key, written for whom the part goes out.

use super::super::Rewrite;
use super::super::pieces::{Piece, key_element, told, transpose};
use super::Walk;
use crookwise_theory::{Signature, Transposition};

impl Walk<'_> {
    pub(super) fn attributes(&mut self, rewrite: &Rewrite, pieces: &[Piece], (open, end): (usize, usize)) {
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
        let before = self.state.printed;
        let mut keys = pieces.iter().filter(|piece| piece.path == "key").peekable();
        if keys.peek().is_none()
            && let Some(signature) = self.state.due(rewrite)
        {
            let last = pieces.iter().rfind(|piece| BEFORE_KEY.contains(&piece.path.as_str()));
            let place = last.map_or(open, |piece| piece.whole.end);
            self.put(place..place, key_element(signature));
            self.state.sign_all(signature);
        }
        for piece in keys {
            self.key(rewrite, pieces, piece, before);
        }
    }

    /// The octave that sounds with a staff, as the file says it beside a transposition.
    pub(super) fn double_of(&self, pieces: &[Piece], piece: &Piece) -> String {
        let within =
            |other: &&Piece| other.whole.start >= piece.whole.start && other.whole.end <= piece.whole.end;
        let double = pieces.iter().filter(within).find(|other| other.path == "transpose/double");
        let double = double.and_then(|double| self.text.get(double.whole.clone()));
        self.plain(double.unwrap_or_default())
    }

    /// What stands in the place of a transposition of the file: that of the target, once, and whether another octave sounds
    /// with it, wherever that changes.
    fn transposition(&mut self, by: Transposition, pieces: &[Piece], piece: &Piece) -> String {
        let double = self.double_of(pieces, piece);
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

    fn key(&mut self, rewrite: &Rewrite, pieces: &[Piece], key: &Piece, before: Option<Signature>) {
        let within =
            |piece: &&Piece| piece.whole.start >= key.whole.start && piece.whole.end <= key.whole.end;
        let find = |path: &str| pieces.iter().filter(within).find(|piece| piece.path == path);
        let fifths = find("key/fifths");
        let Some((piece, fifths)) = fifths.and_then(|piece| Some((piece, piece.text.parse::<i32>().ok()?)))
        else {
            return;
        };
        let own = Signature(fifths.clamp(-7, 7));
        let sounding = own.0 + self.state.told_for(key.number).fifths();
        let of_own = Signature(sounding).transposed(-rewrite.target.transposition.0).practical();
        let movement = self.state.signature(rewrite);
        let new = movement.unwrap_or(if rewrite.target.signatures { of_own } else { Signature::NONE });
        let mut put = |piece: Option<&Piece>, by: &str| {
            if let Some(piece) = piece {
                self.put(piece.whole.clone(), by);
            }
        };
        // One that a crook brought with it says nothing new.
        if movement.is_some() && key.number.is_none() && before == Some(new) {
            put(Some(key), "");
        } else {
            put(Some(piece), &format!("<fifths>{}</fifths>", new.0));
            // Naturals that took back the signature before would take back another one now.
            put(find("key/cancel"), "");
            // Its mode belonged to another key.
            put(find("key/mode").filter(|_| new != of_own), "");
        }
        self.state.sign(key.number, (own, new));
    }
}

/// What stands before a key among the attributes (MusicXML 4.0, `attributes`).
const BEFORE_KEY: [&str; 3] = ["footnote", "level", "divisions"];
/// What stands before a transposition among the attributes (MusicXML 4.0, `attributes`).
pub(super) const BEFORE_TRANSPOSE: [&str; 10] = [
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
