//! The selected sounding note as every staff of the page would have it written.

use crate::state::view::{PageView, View};
use crate::words;
use crookwise_share::ReadPage;
use crookwise_theory::{Pitch, Tonic};

/// One line a staff: its label and its written note; empty where there is one staff only or no note selected.
#[must_use]
pub fn lines(whole: &PageView, page: &ReadPage) -> Vec<String> {
    let current = whole.current();
    let Some(sounding) = current.selected_column().and_then(|column| Some(column.reading?.sounding)) else {
        return Vec::new();
    };
    if whole.staves.len() < 2 {
        return Vec::new();
    }
    let column = current.selected.unwrap_or(0);
    let line = |(at, staff): (usize, &crate::state::view::StaffView)| {
        let view = whole.voice(at, 0)?;
        if has_no_drum(view, sounding.0) {
            return Some(words::on_staff(&staff.label, words::NO_DRUM, None));
        }
        let (printed, reading) = view.write_sounding(page, column, sounding)?;
        let making = reading.making.as_ref().map(words::making);
        Some(words::on_staff(&staff.label, &whole.names.note(printed.0), making.as_deref()))
    };
    whole.staves.iter().enumerate().filter_map(line).collect()
}

/// Whether the staff is one of drums, and none of those its label names has that note.
fn has_no_drum(view: &View, sounding: Pitch) -> bool {
    let Some(place) = view.here() else { return false };
    let drums = &place.staff.drums;
    let has = |drum: &Tonic| {
        Pitch::new(drum.step, drum.alter, 4).semitones().rem_euclid(12) == sounding.semitones().rem_euclid(12)
    };
    !drums.is_empty() && !drums.iter().any(has)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Names;
    use crookwise_share::Link;

    #[test]
    fn one_sounding_note_is_written_for_every_staff() {
        let link = "/read?staff=Corni+in+Es&notes=E5&staff=Clarinetti+in+B&staff=Fagotti&staff=Xyzzyq\
            &staff=Timpani+in+Es,+B&at=1";
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!() };
        let lines = lines(&PageView::of(&page, Names::default()), &page);
        assert_eq!(
            lines,
            [
                "Corni in Es: E5 (Partial 10, open)",
                "Clarinetti in B: A4",
                "Fagotti: G4",
                "Timpani in Es, B: no drum has it"
            ]
        );
    }
}
