//! All that sounds together, on a grand staff.

use crate::state::view::PageView;
use crookwise_engraving::{ColumnSpec, Ink, NoteSpec, RestSpec, RestValue, StaffSpec};
use crookwise_theory::{Clef, Pitch, Signature, Step};

/// What sounds from middle C on in the treble staff, what sounds lower in the bass staff; what several play is
/// written once.
#[must_use]
pub fn grand_staff(page: &PageView) -> Vec<StaffSpec> {
    let movement = page.staves.iter().find_map(|staff| staff.players.first()?.place.as_ref()?.movement);
    let signature = movement.map_or(Signature::NONE, crookwise_theory::Key::signature);
    let middle = Pitch::natural(Step::C, 4).diatonic();
    [Clef::TREBLE, Clef::BASS]
        .map(|clef| {
            let mut spec = StaffSpec::new(clef, signature);
            spec.ink = Ink::Sounding;
            let here = |pitch: Pitch| (pitch.diatonic() >= middle) == (clef == Clef::TREBLE);
            spec.columns = (0..page.columns()).map(|column| self::column(page, column, here)).collect();
            spec
        })
        .into()
}

fn column(page: &PageView, column: usize, here: impl Fn(Pitch) -> bool) -> ColumnSpec {
    let mut spec = ColumnSpec::default();
    for view in page.staves.iter().flat_map(|staff| &staff.players) {
        let Some(shown) = view.columns.get(column) else { continue };
        let Some(reading) = &shown.reading else { continue };
        let strict = reading.sounding.0;
        let movement = view.place.as_ref().and_then(|place| place.movement);
        let pitch = movement.map_or(strict, |key| crookwise_theory::spelling::in_key(strict, key));
        let doubled = view.place.as_ref().is_some_and(|place| place.staff.doubled_below);
        let below = doubled.then_some(Pitch { octave: pitch.octave - 1, ..pitch });
        for pitch in core::iter::once(pitch).chain(below).filter(|&pitch| here(pitch)) {
            match spec.notes.iter_mut().find(|note| note.pitch.same_key(pitch)) {
                // It is tied only where everybody holds it.
                Some(note) => note.tied_from_previous &= shown.is_held(),
                None => {
                    spec.notes.push(NoteSpec { tied_from_previous: shown.is_held(), ..NoteSpec::new(pitch) });
                }
            }
        }
    }
    if spec.notes.is_empty() {
        spec.rests.push(RestSpec::new(RestValue::Quarter));
    }
    spec
}
