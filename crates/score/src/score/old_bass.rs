//! Old bass-clef notation in a file that has it as if it were new: horns and their kin under a plain F clef, an octave too
//! low by the file's own transposition.
//!
//! The rules of common practice: read as new, a note lies below the second partial (written C3) and is none of the two
//! that are bent down to there (G2, F-sharp 2), so old notation was meant for all that stands under that clef; or a
//! horn beside it, under a plain F clef too, sounds with such notes, and the two were meant to be in one notation.

use super::{Moment, NoteId, PartStaff, Score, StaffCourse, StaffId};
use crate::resolve::Decoder;
use core::ops::Range;
use crookwise_theory::label::Mechanism;
use crookwise_theory::{BassNotation, ClefSign, Interval, Pitch, Step};
use std::collections::BTreeMap;

/// Notes of a staff that seem to be in old bass-clef notation.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OldBass {
    /// The staff.
    pub staff: StaffId,
    /// The notes, in their order; grace notes and tied ones are among them.
    pub notes: Vec<NoteId>,
    /// The bars in which they stand, counted from 0, each once.
    pub bars: Vec<usize>,
    /// Whether these are all that the staff has under a plain F clef.
    pub is_all: bool,
}

impl Score {
    /// Finds old bass-clef notation on staves that read theirs as new.
    pub fn old_bass(&self, decoder: &mut Decoder<'_>) -> Vec<OldBass> {
        let staves: Vec<&PartStaff> = self.staves().collect();
        let mut stretches: Vec<Stretch<'_>> = Vec::new();
        for staff in &staves {
            if staff.settings.bass == Some(BassNotation::New) && !staff.settings.at_pitch {
                let course = StaffCourse::of(self, staff, decoder);
                stretches.extend(under_plain_f(staff, &course));
            }
        }
        spread(&mut stretches);
        let found = staves.iter().filter_map(|staff| {
            let own: Vec<&Stretch<'_>> =
                stretches.iter().filter(|other| other.staff.id == staff.id).collect();
            let old = own.iter().filter(|stretch| stretch.is_old);
            let notes = old.flat_map(|stretch| staff.notes().get(stretch.notes.clone()).unwrap_or_default());
            let notes: Vec<_> = notes.filter(|(_, note)| note.printed.is_some()).collect();
            let mut bars: Vec<usize> =
                notes.iter().filter_map(|(_, note)| usize::try_from(note.bar).ok()).collect();
            bars.dedup();
            let is_all = own.iter().all(|stretch| stretch.is_old);
            let notes: Vec<NoteId> = notes.iter().map(|(id, _)| *id).collect();
            (!notes.is_empty()).then_some(OldBass { staff: staff.id, notes, bars, is_all })
        });
        found.collect()
    }

    /// Reads what stands on a staff under a plain F clef as old bass-clef notation, an octave higher than before.
    pub fn read_old_bass(&mut self, staff: StaffId) {
        if let Some(staff) = self.staff_mut(staff) {
            staff.settings.bass = Some(BassNotation::Old);
        }
    }
}

/// Notes in a row under a plain F clef.
struct Stretch<'a> {
    staff: &'a PartStaff,
    /// As places among the notes of the staff.
    notes: Range<usize>,
    is_old: bool,
}

impl Stretch<'_> {
    /// When its notes begin, and what they are.
    fn notes(&self) -> impl Iterator<Item = (Moment, Pitch)> {
        let notes = self.staff.notes().get(self.notes.clone()).unwrap_or_default();
        notes.iter().filter_map(|(_, note)| Some((note.start, note.printed?.0)))
    }
}

fn under_plain_f<'a>(staff: &'a PartStaff, course: &StaffCourse) -> Vec<Stretch<'a>> {
    let mut stretches: Vec<Stretch<'a>> = Vec::new();
    for (at, (_, note)) in staff.notes().iter().enumerate() {
        let Some(printed) = note.printed.filter(|_| note.is_played()) else { continue };
        let Some(place) = course.place_of(note) else { continue };
        let clef = place.habits.clef;
        let plain = clef.sign == ClefSign::F && clef.octave() == 0 && place.staff.instrument.old_bass;
        // With valves low notes are no wonder.
        if !plain || place.staff.mechanism == Some(Mechanism::Valves) {
            continue;
        }
        let too_low = is_too_low(place.notation().written(printed).0);
        // A stretch goes on as long as no note under another clef stands between.
        let goes_on = stretches.last().is_some_and(|last| {
            let between = staff.notes().get(last.notes.end..at).unwrap_or_default();
            between.iter().all(|(_, note)| note.printed.is_none())
        });
        match stretches.last_mut().filter(|_| goes_on) {
            Some(last) => {
                last.notes.end = at + 1;
                last.is_old |= too_low;
            }
            None => stretches.push(Stretch { staff, notes: at..at + 1, is_old: too_low }),
        }
    }
    stretches
}

/// Whether no horn was meant to play it: below written C3, and neither G2 nor F-sharp 2.
fn is_too_low(written: Pitch) -> bool {
    let lowest = Pitch::natural(Step::C, 3);
    let bent = [Pitch::natural(Step::G, 2), Pitch::new(Step::F, 1, 2), Pitch::new(Step::G, -1, 2)];
    written.semitones() < lowest.semitones() && !bent.contains(&written)
}

/// A stretch that sounds with an old one an octave or two above it, or with it, is one too: notes of both begin together,
/// the same letter in some octave.
fn spread(stretches: &mut [Stretch<'_>]) {
    let mut beginning: BTreeMap<Moment, Vec<(usize, Pitch)>> = BTreeMap::new();
    for (at, stretch) in stretches.iter().enumerate() {
        for (start, pitch) in stretch.notes() {
            beginning.entry(start).or_default().push((at, pitch));
        }
    }
    let mut old: Vec<usize> =
        (0..stretches.len()).filter(|at| stretches.get(*at).is_some_and(|one| one.is_old)).collect();
    while let Some(from) = old.pop() {
        let Some(staff) = stretches.get(from).map(|one| one.staff.id) else { continue };
        let notes: Vec<(Moment, Pitch)> =
            stretches.get(from).map(|one| one.notes().collect()).unwrap_or_default();
        for (start, pitch) in notes {
            for (other, with) in beginning.get(&start).into_iter().flatten() {
                let apart = Interval::between(*with, pitch);
                let octaves = apart.steps % 7 == 0 && apart.semitones % 12 == 0;
                if let Some(stretch) = stretches.get_mut(*other)
                    && octaves
                    && !stretch.is_old
                    && stretch.staff.id != staff
                {
                    stretch.is_old = true;
                    old.push(*other);
                }
            }
        }
    }
}
