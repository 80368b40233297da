//! The staves of a page as the engraver takes them: what is written, and what one player sounds.

use crate::state::view::{ColumnView, StaffView, View};
use crookwise_engraving::{
    AccidentalRule, ColumnSpec, Head, Ink, NoteSpec, RestSpec, RestValue, StaffSpec, StemRule,
};
use crookwise_theory::{Clef, Pitch, Signature, StaffPosition};

/// A written staff. Clef and signature are those of its first player.
#[must_use]
pub fn written_spec(staff: &StaffView) -> StaffSpec {
    let head =
        |column| staff.players.first().map_or((Clef::TREBLE, Signature::NONE), |view| view.head_at(column));
    let mut before = head(0);
    let mut spec = StaffSpec::new(before.0, before.1);
    spec.unpitched = staff.players.first().is_some_and(is_unpitched);
    let columns = staff.players.first().map_or(0, |first| first.columns.len());
    for column in 0..columns {
        let here = head(column);
        spec.columns.push(ColumnSpec {
            clef_change: (here.0 != before.0).then_some(here.0),
            signature_change: (here.1 != before.1).then_some(here.1),
            bar: staff.bars.get(column).copied().flatten().map(|bar| bar.to_string()),
            above: staff.directions.get(column).cloned().unwrap_or_default(),
            ..written_column(staff, column)
        });
        before = here;
    }
    spec
}

/// The notes of all players in a column: the upper ones with stems up, the lower ones down, a shared one once.
fn written_column(staff: &StaffView, column: usize) -> ColumnSpec {
    let together = staff.together.get(column).copied().unwrap_or(false);
    let players = if together { 1 } else { staff.players.len() };
    let mut spec = ColumnSpec::default();
    for (player, view) in staff.players.iter().take(players).enumerate() {
        let Some(shown) = view.columns.get(column) else { continue };
        let Some(printed) = shown.printed else { continue };
        let stem = match (players, player * 2 < players) {
            (1, _) => StemRule::Auto,
            (_, true) => StemRule::Up,
            (_, false) => StemRule::Down,
        };
        let accidental = if shown.is_stroke() { AccidentalRule::Hide } else { AccidentalRule::Auto };
        let tied_from_previous = shown.is_held();
        spec.notes.push(NoteSpec { tied_from_previous, accidental, stem, ..NoteSpec::new(printed.0) });
    }
    if spec.notes.is_empty() && staff.gap != Some(column) {
        spec.rests.push(RestSpec::new(RestValue::Quarter));
    }
    spec
}

/// What one player sounds.
pub(super) fn sounding_spec(view: &View) -> Option<StaffSpec> {
    let place = view.start()?;
    let sounding = |column: &ColumnView| column.reading.as_ref().map(|reading| reading.sounding.0);
    let pitches: Vec<_> = view.columns.iter().filter_map(sounding).collect();
    let clef = sounding_clef(&pitches, place);
    let mut spec = StaffSpec::new(clef, place.sounding_signature());
    spec.ink = Ink::Sounding;
    spec.unpitched = is_unpitched(view);
    spec.columns = view
        .columns
        .iter()
        .map(|column| match sounding(column) {
            Some(pitch) => sounding_note(column, pitch, Head::Black),
            // A stroke stands crossed on the middle line: it has a time and no pitch.
            None if column.is_stroke() => sounding_note(column, clef.pitch_at(StaffPosition(4)), Head::Cross),
            None => ColumnSpec { rests: vec![RestSpec::new(RestValue::Quarter)], ..ColumnSpec::default() },
        })
        .collect();
    let mut before = spec.signature;
    for (at, column) in spec.columns.iter_mut().enumerate() {
        let here = view.place_at(at).map_or(before, crookwise_score::Place::sounding_signature);
        column.signature_change = (here != before).then_some(here);
        before = here;
    }
    Some(spec)
}

/// A column with one note, tied where it is held.
fn sounding_note(column: &ColumnView, pitch: Pitch, head: Head) -> ColumnSpec {
    let note = NoteSpec { tied_from_previous: column.is_held(), head, ..NoteSpec::new(pitch) };
    ColumnSpec { notes: vec![note], ..ColumnSpec::default() }
}

/// Whether a player begins on an instrument without pitch.
fn is_unpitched(view: &View) -> bool {
    view.start().is_some_and(|place| !place.staff.is_pitched())
}

/// The clef of treble and bass in which what sounds needs fewer ledger lines.
fn sounding_clef(pitches: &[Pitch], place: &crookwise_score::Place) -> Clef {
    let middle = place.habits.clef.pitch_at(StaffPosition(4)) + place.notation().printed_to_sounding();
    if pitches.is_empty() { Clef::treble_or_bass(&[middle]) } else { Clef::treble_or_bass(pitches) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::view::PageView;
    use crookwise_share::Link;

    #[test]
    fn strokes_stand_crossed_under_the_neutral_clef() {
        let link = "/read?staff=Gran+cassa&key=Eb+major&notes=C5.-.F5";
        let Some(Link::Read(page)) = Link::decode(link).unwrap() else { panic!("{link}") };
        let view = PageView::of(&page, crate::words::Names::default());
        let (written, sounding) =
            (written_spec(&view.staves[0]), sounding_spec(view.voice(0, 0).unwrap()).unwrap());
        assert!(written.unpitched && sounding.unpitched);
        let heads = |spec: &StaffSpec| {
            let notes = spec.columns.iter().map(|column| column.notes.first().map(|note| note.head));
            notes.collect::<Vec<_>>()
        };
        assert_eq!(heads(&written), [Some(Head::Black), None, Some(Head::Black)]);
        assert_eq!(heads(&sounding), [Some(Head::Cross), None, Some(Head::Cross)]);
    }
}
