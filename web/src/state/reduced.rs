//! All that sounds together, on a grand staff.

use crate::state::view::PageView;
use crookwise_engraving::{ColumnSpec, Ink, NoteSpec, RestSpec, RestValue, StaffSpec};
use crookwise_score::{Hand, ReducedColumn, reduce};
use crookwise_share::ReadPage;
use crookwise_theory::{Clef, Signature};

/// The reduction of a page on two staves. Notes that are spelled otherwise than on their own staves stand back.
#[must_use]
pub fn grand_staff(whole: &PageView, page: &ReadPage) -> Vec<StaffSpec> {
    let columns = reduce(&page.passage, &whole.sounds);
    let signature = page.passage.movement_at(0).map_or(Signature::NONE, crookwise_theory::Key::signature);
    [(Clef::TREBLE, Hand::Upper), (Clef::BASS, Hand::Lower)]
        .map(|(clef, hand)| {
            let mut spec = StaffSpec::new(clef, signature);
            spec.ink = Ink::Sounding;
            spec.columns = columns.iter().map(|column| self::column(column, hand)).collect();
            for (column, own) in spec.columns.iter_mut().zip(page.passage.columns()).skip(1) {
                column.signature_change = own.movement.map(crookwise_theory::Key::signature);
            }
            spec
        })
        .into()
}

fn column(reduced: &ReducedColumn, hand: Hand) -> ColumnSpec {
    let notes = reduced.on(hand).map(|note| NoteSpec {
        tied_from_previous: note.tied,
        ink: note.respelled.then_some(Ink::Muted),
        ..NoteSpec::new(note.pitch)
    });
    let mut spec = ColumnSpec { notes: notes.collect(), ..ColumnSpec::default() };
    if spec.notes.is_empty() {
        spec.rests.push(RestSpec::new(RestValue::Quarter));
    }
    spec
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Names;
    use crookwise_share::Link;

    #[test]
    fn what_several_play_is_written_once_and_a_respelling_stands_back() {
        let link = "/read?staff=2+Corni+in+Es&players=2&notes=C5&notes2=C5&staff=Violino&notes=Eb4\
            &staff=Fagotto&notes=D%233&key=Eb+major";
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!() };
        let staves = grand_staff(&PageView::of(&page, Names::default()), &page);
        let upper = &staves[0].columns[0].notes;
        assert_eq!(upper.len(), 1);
        assert_eq!((upper[0].pitch.to_string().as_str(), upper[0].ink), ("Eb4", None));
        let lower = &staves[1].columns[0].notes;
        assert_eq!((lower[0].pitch.to_string().as_str(), lower[0].ink), ("Eb3", Some(Ink::Muted)));
    }
}
