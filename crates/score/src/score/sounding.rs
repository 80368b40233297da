//! All that a score sounds: every pitched note read where it stands.

use super::{NoteId, PartId, Quarters, Score, ScoreNote, StaffCourse, StaffId};
use crate::resolve::Decoder;
use crookwise_theory::order::put_in_order;
use crookwise_theory::{Crook, CrookFamily, Family, Intonation, Making, Pitch, Written};

/// A note of a score and what it sounds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sounded<'a> {
    /// Its part.
    pub part: PartId,
    /// Its staff.
    pub staff: StaffId,
    /// Its number.
    pub id: NoteId,
    /// Itself.
    pub note: &'a ScoreNote,
    /// What the player reads.
    pub written: Written,
    /// What is heard, in the strict spelling.
    pub pitch: Pitch,
    /// How it is made, on natural brass.
    pub making: Option<Making>,
    /// Horn or trumpet, with valves or without.
    pub family: Option<CrookFamily>,
    /// The crook that its label names, of horn and trumpet in a key that is built.
    pub crook: Option<&'static Crook>,
    /// Whether it is one of the brass family.
    pub is_brass: bool,
    /// Whether it is a drum, which names no bass.
    pub is_drum: bool,
    /// Whether the octave below sounds too.
    pub doubled_below: bool,
}

impl Score {
    /// Every pitched note by when it begins, in score order at one time. A staff whose label names nothing sounds as its file has
    /// it; notes without pitch and cues are left out.
    pub fn sounded(&self, decoder: &mut Decoder<'_>) -> Vec<Sounded<'_>> {
        let mut all = Vec::new();
        for part in self.parts() {
            for staff in &part.staves {
                let course = StaffCourse::of(self, staff, decoder);
                for (id, note) in staff.notes() {
                    let Some(printed) = note.printed.filter(|_| note.is_played() && !note.look.unpitched)
                    else {
                        continue;
                    };
                    let place = course.place_of(note);
                    if place.is_some_and(|place| !place.staff.is_pitched()) {
                        continue;
                    }
                    let told = staff.told_at(note.start);
                    let reading = place.map(|place| place.read(printed, Intonation::default(), None));
                    let by_file = || {
                        let written = Written(printed.0);
                        told.map_or(printed.0, |told| told.transposition.to_sounding(written).0)
                    };
                    let instrument = place.map(|place| place.staff.instrument);
                    all.push(Sounded {
                        part: part.id,
                        staff: staff.id,
                        id: *id,
                        note,
                        written: reading.map_or(Written(printed.0), |reading| reading.written),
                        pitch: reading.map_or_else(by_file, |reading| reading.sounding.0),
                        making: reading.and_then(|reading| reading.making),
                        family: place.and_then(|place| place.staff.crook_family()),
                        crook: place.and_then(|place| place.staff.crook()),
                        is_brass: instrument.is_some_and(|own| own.family == Family::Brass),
                        is_drum: instrument.is_some_and(|own| own.family == Family::Percussion),
                        doubled_below: place.is_some_and(|place| place.staff.doubled_below)
                            || told.is_some_and(|told| told.doubled_below),
                    });
                }
            }
        }
        put_in_order(&mut all, |sounded| sounded.note.start);
        all
    }
}

impl Sounded<'_> {
    /// When it begins and ends, in quarter notes.
    #[must_use]
    pub fn span(&self) -> (Quarters, Quarters) {
        (self.note.start.time, self.note.end.time)
    }
}
