//! All that sounds together, on a grand staff.

use crate::state::reducer::empty_grand_staff;
use crate::state::view::PageView;
use crookwise_engraving::{
    ColumnSpec, Ink, Metrics, NoteSpec, RestSpec, RestValue, StaffSpace, StaffSpec, lay_out, svg,
};
use crookwise_score::{Hand, ReducedColumn, reduce};
use crookwise_share::ReadPage;
use crookwise_theory::Signature;

/// The reduction of a page on two staves. Notes that are spelled otherwise than on their own staves stand back.
#[must_use]
pub fn grand_staff(whole: &PageView, page: &ReadPage) -> Vec<StaffSpec> {
    let columns = reduce(&page.passage, &whole.sounds);
    let [upper, lower] = empty_grand_staff(page);
    [(upper, Hand::Upper), (lower, Hand::Lower)]
        .map(|(mut spec, hand)| {
            spec.columns = columns.iter().map(|column| self::column(column, hand)).collect();
            for (column, own) in spec.columns.iter_mut().zip(page.passage.columns()).skip(1) {
                column.signature_change = own.movement.map(crookwise_theory::Key::signature);
            }
            spec
        })
        .into()
}

/// The selected column of the reduction as pictures, the upper staff first; none where no column is selected. `scale` in
/// pixels of one staff space.
#[must_use]
pub fn column_pictures(whole: &PageView, page: &ReadPage, scale: f64) -> Vec<String> {
    let Some(at) = page.selected.filter(|&column| column < whole.columns()) else { return Vec::new() };
    let key = page.passage.movement_at(at);
    let alone = |staff: StaffSpec| {
        let mut alone =
            StaffSpec::new(staff.clef, key.map_or(Signature::NONE, crookwise_theory::Key::signature));
        alone.ink = staff.ink;
        alone.columns = staff.columns.into_iter().skip(at).take(1).collect();
        for column in &mut alone.columns {
            column.signature_change = None;
            column.notes.iter_mut().for_each(|note| note.tied_from_previous = false);
        }
        alone
    };
    let staves: Vec<StaffSpec> = grand_staff(whole, page).into_iter().map(alone).collect();
    let metrics = Metrics::fit(&staves.iter().collect::<Vec<_>>(), 0..1, StaffSpace(6.0));
    let options = svg::SvgOptions { scale: Some(scale), ..Default::default() };
    staves.iter().map(|staff| svg::write(&lay_out(staff, 0..1, &metrics).drawing, &options)).collect()
}

fn column(reduced: &ReducedColumn, hand: Hand) -> ColumnSpec {
    let notes = reduced.on(hand).map(|note| NoteSpec {
        tied_from_previous: note.tied,
        ink: note.respelled.then_some(Ink::Muted),
        ..NoteSpec::new(note.pitch)
    });
    let mut spec = ColumnSpec { notes: notes.collect(), ..ColumnSpec::default() };
    // A rest says that nothing sounds: beside notes on the other staff it would be nobody's.
    if reduced.notes.is_empty() {
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
    fn a_rest_stands_only_where_the_whole_column_is_silent() {
        let link = "/read?staff=Violino&notes=E5.-.-.C3&staff=Fagotto&notes=C5.-.C3.C5&at=1";
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!() };
        let staves = grand_staff(&PageView::of(&page, Names::default()), &page);
        let rests = |staff: usize| staves[staff].columns.iter().map(|column| column.rests.len());
        assert_eq!(rests(0).collect::<Vec<_>>(), [0, 1, 0, 0]);
        assert_eq!(rests(1).collect::<Vec<_>>(), [0, 1, 0, 0]);
    }

    #[test]
    fn what_several_play_is_written_once_and_a_respelling_stands_back() {
        let link = "/read?staff=2+Corni+in+Es&players=2&notes=C5&notes2=C5&staff=Violino&notes=Eb4\
            &staff=Fagotto&notes=D%233&key=Eb+major";
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!() };
        let staves = grand_staff(&PageView::of(&page, Names::default()), &page);
        let upper = &staves[0].columns[0].notes;
        assert_eq!(upper.len(), 1);
        assert_eq!((upper[0].pitch.to_string().as_str(), upper[0].ink), ("Eb4", None));
        let selected = ReadPage { selected: Some(0), ..ReadPage::clone(&page) };
        let pictures = column_pictures(&PageView::of(&selected, Names::default()), &selected, 7.0);
        let inks = ["ink-sounding", "ink-muted"];
        assert!(
            pictures.len() == 2 && pictures.iter().zip(inks).all(|(one, ink)| one.contains(ink)),
            "{pictures:?}"
        );
        assert!(column_pictures(&PageView::of(&page, Names::default()), &page, 7.0).is_empty());
        let lower = &staves[1].columns[0].notes;
        assert_eq!((lower[0].pitch.to_string().as_str(), lower[0].ink), ("Eb3", Some(Ink::Muted)));
    }
}
