//! A note, written for whom the part goes out.

use super::super::pieces::{Piece, element_of, key_element, own_pitch, transpose};
use super::super::{Rewrite, accidentals};
use super::Walk;
use crate::read::whole;

impl Walk<'_> {
    /// What must be said before a note: the key that the movement has now, and of a part that never says its attributes its
    /// transposition.
    pub(super) fn before_note(&mut self, rewrite: &Rewrite, place: usize) {
        let mut said = String::new();
        if let Some(signature) = self.state.due(rewrite) {
            said.push_str(&key_element(signature));
            self.state.sign_all(signature);
        }
        if !self.state.transposed {
            said.push_str(&transpose(rewrite.target.transposition, None, ""));
            self.state.transposed = true;
        }
        if !said.is_empty() {
            self.put(place..place, format!("<attributes>{said}</attributes>"));
        }
        self.state.within_bar = true;
    }

    pub(super) fn note(&mut self, rewrite: &Rewrite, pieces: &[Piece]) {
        let get = |path: &str| pieces.iter().find(|piece| piece.path == path);
        let pitched = rewrite.pitched.get(self.state.elements).copied();
        self.state.elements += 1;
        // A note whose pitch could not be read is none of those, and stays as it is.
        if pitched != Some(true) {
            return;
        }
        let sounding = rewrite.sounding.get(self.state.notes);
        self.state.notes += 1;
        let Some(sounding) = sounding else { return };
        let written = rewrite.target.transposition.to_written(*sounding).0;
        // One pitch is enough, also where a broken file has more.
        let mut element = Some(element_of(written));
        for pitch in pieces.iter().filter(|piece| piece.path == "pitch") {
            self.put(pitch.whole.clone(), element.take().unwrap_or_default());
        }
        let tied = pieces.iter().any(|piece| piece.path == "tie" && piece.is_stop);
        let staff = get("staff").and_then(|staff| whole(&staff.text)).filter(|staff| *staff > 0).unwrap_or(1);
        let memories = self.state.memories(staff);
        let accidental = get("accidental");
        // One that the file need not have printed is a courtesy, and stays one.
        let needed = own_pitch(pieces).is_none_or(|own| memories.source.sign(own, tied).is_some());
        let sign = memories.target.sign(written, tied);
        let sign =
            sign.or_else(|| (accidental.is_some() && !needed).then(|| accidentals::name(written.alter)));
        match (accidental, sign) {
            (None, None) => {}
            (Some(accidental), None) => self.put(accidental.whole.clone(), ""),
            // How it is printed, in brackets or small, stays.
            (Some(accidental), Some(sign)) => {
                let tag = self.plain(self.text.get(accidental.tag.clone()).unwrap_or_default());
                let tag = tag.trim_end_matches('>').trim_end_matches('/');
                self.put(accidental.whole.clone(), format!("{tag}>{sign}</accidental>"));
            }
            // It stands behind value and dots.
            (None, Some(sign)) => {
                if let Some(last) = pieces.iter().rfind(|piece| matches!(piece.path.as_str(), "type" | "dot"))
                {
                    let place = last.whole.end..last.whole.end;
                    self.put(place, format!("<accidental>{sign}</accidental>"));
                }
            }
        }
        // Which way a stem goes depends on where the head stands now.
        if let Some(stem) = get("stem").filter(|stem| matches!(stem.text.as_str(), "up" | "down")) {
            self.put(stem.whole.clone(), "");
        }
    }
}
