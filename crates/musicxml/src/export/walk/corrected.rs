//! A part that goes out as it is written, under what was corrected of it.

use super::super::corrected::{Correct, CorrectStaff};
use super::super::pieces::{Piece, element_of, own_pitch, transpose};
use super::Walk;
use super::attributes::BEFORE_TRANSPOSE;
use crate::read::whole;
use crookwise_theory::{Sounding, Transposition};

impl Walk<'_> {
    /// What the reader lets change with a bar, at its head.
    pub(super) fn corrected_bar(&mut self, correct: &Correct, place: usize) {
        let bar = self.state.bar_at();
        let (mut attributes, mut directions) = (String::new(), String::new());
        for (number, staff) in (1..).zip(&correct.staves) {
            let Some(change) = staff.changes.iter().find(|change| change.bar == bar) else { continue };
            let number = (correct.staves.len() > 1).then_some(number);
            // What the first bar begins with is said with all else that does.
            if bar > 0 {
                self.state.correct_by(number.unwrap_or(1), change.by);
                attributes.push_str(&transpose(change.by, Some(number), ""));
            }
            if let Some(words) = &change.words {
                directions.push_str(&direction(words, number));
            }
        }
        if !attributes.is_empty() {
            attributes = format!("<attributes>{attributes}</attributes>");
        }
        if !(attributes.is_empty() && directions.is_empty()) {
            self.put(place..place, attributes + &directions);
        }
    }

    pub(super) fn corrected_attributes(&mut self, correct: &Correct, pieces: &[Piece], end: usize) {
        let staves = u8::try_from(correct.staves.len()).unwrap_or(u8::MAX);
        for piece in pieces.iter().filter(|piece| piece.path == "transpose") {
            let double = self.double_of(pieces, piece);
            let concerned: Vec<u8> = match piece.number {
                Some(number) => vec![number.clamp(1, staves.max(1))],
                None => (1..=staves).collect(),
            };
            let mut now: Vec<(u8, Transposition)> = Vec::new();
            for staff in concerned {
                let met = self.state.met_transpositions(staff);
                let own = correct.staves.get(usize::from(staff) - 1);
                let by = own.and_then(|own| own.then.get(met)).copied().unwrap_or_default();
                self.state.correct_by(staff, by);
                now.push((staff, by));
            }
            let same = now.iter().all(|(_, by)| now.first().is_some_and(|(_, first)| first == by));
            let new: String = match (piece.number, now.first()) {
                (Some(number), Some((_, by))) => transpose(*by, Some(Some(number)), &double),
                (None, Some((_, by))) if same => transpose(*by, Some(None), &double),
                _ => now.iter().map(|(staff, by)| transpose(*by, Some(Some(*staff)), &double)).collect(),
            };
            self.put(piece.whole.clone(), new);
            self.state.transposed = true;
        }
        if !self.state.transposed {
            let last = pieces.iter().rfind(|piece| BEFORE_TRANSPOSE.contains(&piece.path.as_str()));
            let close = self.text.get(..end).and_then(|text| text.rfind("</")).unwrap_or(end);
            let place = last.map_or(close, |piece| piece.whole.end);
            let said = self.beginning(correct);
            self.put(place..place, said);
        }
        for clef in pieces.iter().filter(|piece| piece.path == "clef") {
            self.mark(correct, pieces, clef);
        }
    }

    /// What a part is transposed by at its beginning, where its file does not say.
    fn beginning(&mut self, correct: &Correct) -> String {
        self.state.transposed = true;
        let begins = |staff: &CorrectStaff| staff.begins;
        for (number, staff) in (1..).zip(&correct.staves) {
            self.state.correct_by(number, staff.begins);
        }
        let first = correct.staves.first().map(begins).unwrap_or_default();
        if correct.staves.iter().all(|staff| staff.begins == first) {
            return transpose(first, None, "");
        }
        let each = (1..).zip(&correct.staves);
        each.map(|(number, staff)| transpose(staff.begins, Some(Some(number)), "")).collect()
    }

    /// A plain F clef of old notation gets the octave that it means.
    fn mark(&mut self, correct: &Correct, pieces: &[Piece], clef: &Piece) {
        let staff = correct.staves.get(usize::from(clef.number.unwrap_or(1).max(1)) - 1);
        if !staff.is_some_and(|staff| staff.marked) {
            return;
        }
        let within =
            |piece: &&Piece| piece.whole.start >= clef.whole.start && piece.whole.end <= clef.whole.end;
        let find = |path: &str| pieces.iter().filter(within).find(|piece| piece.path == path);
        let octave = find("clef/clef-octave-change");
        let plain = octave.is_none_or(|octave| octave.text == "0" || octave.text.is_empty());
        let Some(sign) = find("clef/sign").filter(|sign| sign.text == "F" && plain) else { return };
        let mark = "<clef-octave-change>1</clef-octave-change>";
        match octave {
            Some(octave) => self.put(octave.whole.clone(), mark),
            None => {
                let place = find("clef/line").unwrap_or(sign).whole.end;
                self.put(place..place, mark);
            }
        }
    }

    pub(super) fn corrected_note(
        &mut self,
        (sounding, pitched): (&[Sounding], &[bool]),
        correct: &Correct,
        pieces: &[Piece],
        place: usize,
    ) {
        if !self.state.transposed {
            let said = self.beginning(correct);
            if !said.is_empty() {
                self.put(place..place, format!("<attributes>{said}</attributes>"));
            }
        }
        let has_pitch = pitched.get(self.state.elements) == Some(&true);
        self.state.elements += 1;
        if !has_pitch {
            return;
        }
        let sounding = sounding.get(self.state.notes);
        self.state.notes += 1;
        let staff = pieces.iter().find(|piece| piece.path == "staff");
        let staff = staff.and_then(|staff| whole(&staff.text)).filter(|staff| *staff > 0).unwrap_or(1);
        let Some(written) = sounding.map(|own| self.state.corrected_by(staff).to_written(*own).0) else {
            return;
        };
        if own_pitch(pieces) == Some(written) {
            return;
        }
        let mut element = Some(element_of(written));
        for pitch in pieces.iter().filter(|piece| piece.path == "pitch") {
            self.put(pitch.whole.clone(), element.take().unwrap_or_default());
        }
    }
}

/// Words over a staff, for one of several where it says which.
fn direction(words: &str, staff: Option<u8>) -> String {
    let words = quick_xml::escape::escape(words);
    let staff = staff.map(|number| format!("<staff>{number}</staff>")).unwrap_or_default();
    format!(
        "<direction placement=\"above\"><direction-type><words>{words}</words></direction-type>{staff}</direction>"
    )
}
