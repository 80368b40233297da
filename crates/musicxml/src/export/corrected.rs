//! What a reader corrected of a score: labels, their readings, changes of crook, old bass-clef notation; and what that makes of
//! parts that go out as they are written: the same notes on the paper under another name, another transposition, a clef with
//! its octave.

use crate::changes::changes_crook;
use crate::import::Import;
use crate::labels::Named;
use core::iter::once;
use crookwise_score::ChangeTo;
use crookwise_score::score::{Direction, Moment, Part, PartStaff, Quarters, Score, StaffCourse, StaffId};
use crookwise_theory::label::{DecodeOptions, Decoded, decode};
use crookwise_theory::{BassNotation, Habits, Notation, Sounding, Transposition};
use std::collections::HashMap;
use std::sync::Arc;

/// A score with what was corrected laid over it.
#[derive(Clone, Debug)]
pub struct Corrected {
    /// The score.
    pub score: Score,
    /// The staves that were corrected.
    pub staves: Vec<StaffId>,
}

/// A part that goes out as it is written, corrected.
#[derive(Debug, Default)]
pub(super) struct Correct {
    /// Its name, where it is another now.
    pub name: Option<String>,
    /// Its staves from the top.
    pub staves: Vec<CorrectStaff>,
}

/// A staff of it.
#[derive(Clone, Debug, Default)]
pub(super) struct CorrectStaff {
    /// From written to sounding, at the beginning.
    pub begins: Transposition,
    /// The same from each transposition of the file on.
    pub then: Vec<Transposition>,
    /// Whether plain F clefs stand for old bass-clef notation, and get the mark of the octave that they mean.
    pub marked: bool,
    /// Changes of crook that the file has not, in their course.
    pub changes: Vec<CorrectChange>,
    /// The words of the file that told others in their place, each with its bar.
    pub replaced: Vec<(usize, Arc<str>)>,
}

/// A change of crook that the file has not.
#[derive(Clone, Debug)]
pub(super) struct CorrectChange {
    /// The bar with which it begins, counted from 0.
    pub bar: usize,
    /// From written to sounding, from there on.
    pub by: Transposition,
    /// As print has it over the staff; nothing where these words stand there already.
    pub words: Option<String>,
}

impl Corrected {
    /// What sounds: staves that were not corrected by the transposition of the file.
    #[must_use]
    pub fn sounds(&self, read: &Import) -> Vec<Vec<Sounding>> {
        let mut by_label = HashMap::new();
        for staff in self.score.staves().filter(|staff| self.staves.contains(&staff.id)) {
            let course = StaffCourse::of(&self.score, staff, &mut decoder);
            for (id, note) in staff.notes() {
                let place = course.place_of(note).filter(|place| place.staff.is_pitched());
                if let Some((printed, place)) = note.printed.zip(place) {
                    by_label.insert(*id, place.read(printed, Default::default(), None).sounding);
                }
            }
        }
        let of_part = |part: &Part| {
            let notes = part.by_file();
            notes.iter().map(|note| by_label.get(&note.id).copied().unwrap_or(note.sounding)).collect()
        };
        let part = |at: usize| self.score.part(read.parts.get(at)?.id);
        (0..read.parts.len()).map(|at| part(at).map_or_else(Vec::new, of_part)).collect()
    }

    /// What becomes of a part that goes out as it is written; `None` where nothing of it was corrected.
    pub(super) fn of_part(&self, read: &Import, at: usize) -> Option<Correct> {
        let id = read.parts.get(at)?.id;
        let part = self.score.part(id)?;
        if !part.staves.iter().any(|staff| self.staves.contains(&staff.id)) {
            return None;
        }
        let staves = part.staves.iter().map(|staff| self.of_staff(read, staff)).collect();
        Some(Correct { name: self.name(read, at), staves })
    }

    /// The label that a part has now, where that is another.
    pub(super) fn name(&self, read: &Import, at: usize) -> Option<String> {
        let id = read.parts.get(at)?.id;
        let (before, after) = (read.score.part(id)?, self.score.part(id)?);
        let mut staves = before.staves.iter().zip(&after.staves);
        staves.find(|(before, after)| before.label != after.label).map(|(_, after)| after.label.to_string())
    }

    fn of_staff(&self, read: &Import, staff: &PartStaff) -> CorrectStaff {
        let by_file = |at: Moment| staff.told_at(at).map_or(Transposition::NONE, |told| told.transposition);
        let beginning = Moment::measured(Quarters::ZERO);
        let moments = once(beginning).chain(staff.told.iter().map(|told| told.at));
        if !self.staves.contains(&staff.id) {
            let mut by = moments.map(by_file);
            return CorrectStaff {
                begins: by.next().unwrap_or_default(),
                then: by.collect(),
                ..CorrectStaff::default()
            };
        }
        let course = StaffCourse::of(&self.score, staff, &mut decoder);
        let at = |at: Moment| {
            let Some(place) = course.place_at(at, 0) else { return by_file(at) };
            // As new notation has it: the octave of the old one stands at the clef.
            let habits = Habits { bass: Some(BassNotation::New), ..place.habits };
            let letters = staff.letters();
            let notation = Notation::of(&place.staff, habits).for_letters(&place.staff, letters);
            Transposition(notation.printed_to_sounding())
        };
        // A change of the file holds for all that begins with it.
        let mut by = moments.map(|moment| at(Moment::measured(moment.time)));
        let as_read = read.score.staff(staff.id).map(PartStaff::changes).unwrap_or_default();
        let mut changes = Vec::new();
        let mut replaced = Vec::new();
        for change in staff.changes().iter().filter(|change| !as_read.contains(change)) {
            let ChangeTo::Label(label) = &change.to else { continue };
            let bar = self.score.bar_at(change.at.time);
            let (same, other): (Vec<_>, Vec<_>) =
                self.words_for(staff, bar).into_iter().partition(|(_, words)| is_same(words, label));
            let words = same.is_empty().then(|| label.clone());
            changes.push(CorrectChange { bar, by: at(change.at), words });
            replaced.extend(other);
        }
        let is_horn = course.place_at(beginning, 0).is_some_and(|place| place.staff.instrument.old_bass);
        CorrectStaff {
            begins: by.next().unwrap_or_default(),
            then: by.collect(),
            marked: is_horn && staff.settings.bass == Some(BassNotation::Old),
            changes,
            replaced,
        }
    }

    /// The words for a change of crook with a bar: those in it, and in the rest before it. Each with its own bar.
    fn words_for(&self, staff: &PartStaff, bar: usize) -> Vec<(usize, Arc<str>)> {
        let Some(own) = self.score.bars().get(bar) else { return Vec::new() };
        let ends = own.start.plus(own.length).unwrap_or(own.start);
        let mut played = staff.notes().iter().map(|(_, note)| note).filter(|note| note.printed.is_some());
        let last = played.rfind(|note| note.start.time < own.start).map(|note| note.start.time);
        let within = |time: Quarters| time < ends && last.is_none_or(|last| time > last);
        let told = staff.directions.iter().filter(|told| within(told.at.time));
        let words = told.filter_map(|told| match &told.direction {
            Direction::Words(words) if changes_crook(&staff.label, words) => {
                Some((self.score.bar_at(told.at.time), Arc::clone(words)))
            }
            _ => None,
        });
        words.collect()
    }
}

fn is_same(words: &str, label: &str) -> bool {
    words.trim().eq_ignore_ascii_case(label.trim())
}

fn decoder(text: &str) -> Arc<Decoded> {
    Arc::new(decode(text, DecodeOptions::default()))
}

/// Names for parts that are written for the instrument of a label: where there are several, each has a number that tells it
/// from the others, its own one where that is free, and reads back as it was meant.
pub(super) fn names(label: &str, parts: &[&str]) -> Vec<String> {
    if parts.len() < 2 {
        return parts.iter().map(|_| label.to_owned()).collect();
    }
    let decoded = Named::of(label);
    let base = match decoded.staff() {
        Some(staff) if decoded.decoded().staves.len() > 1 || !staff.players.is_empty() => staff.name(),
        _ => label.to_owned(),
    };
    let own: Vec<Vec<u32>> = parts.iter().map(|part| numbers(part)).collect();
    let mut taken: Vec<u32> = Vec::new();
    let mut given: Vec<Option<Vec<u32>>> = Vec::new();
    for numbers in own {
        let free = !numbers.is_empty() && !numbers.iter().any(|number| taken.contains(number));
        taken.extend(numbers.iter().filter(|_| free));
        given.push(free.then_some(numbers));
    }
    let mut next = 1;
    let mut name = |numbers: Option<Vec<u32>>| {
        let numbers = numbers.unwrap_or_else(|| {
            while taken.contains(&next) {
                next += 1;
            }
            taken.push(next);
            vec![next]
        });
        let list = numbers.iter().map(u32::to_string).collect::<Vec<_>>().join(", ");
        let tries = [format!("{base} {list}"), format!("{list}. {base}"), format!("{base} ({list})")];
        let reads_back = |name: &&String| {
            let read = Named::of(name);
            let same =
                |one: Option<Transposition>, other: Option<Transposition>| one.is_some() && one == other;
            same(read.transposition(), decoded.transposition()) && self::numbers(name) == numbers
        };
        tries.iter().find(reads_back).unwrap_or(&tries[0]).clone()
    };
    given.into_iter().map(&mut name).collect()
}

/// The players that a label numbers.
fn numbers(label: &str) -> Vec<u32> {
    let read = Named::of(label);
    read.decoded().staves.iter().flat_map(|staff| staff.players.iter().copied()).collect()
}

#[cfg(test)]
mod tests {
    use super::names;

    #[test]
    fn parts_written_for_one_label_are_told_apart() {
        let parts = ["A Horn 1", "A Horn 2", "D Trumpet 1", "Flute"];
        assert_eq!(
            names("Corno in F", &parts),
            ["Corno in F 1", "Corno in F 2", "Corno in F 3", "Corno in F 4"]
        );
        assert_eq!(names("Corno in F", &["Corno IV in Es", "Oboe"]), ["Corno in F 4", "Corno in F 1"]);
        assert_eq!(names("Corno in F", &["Corno IV in Es"]), ["Corno in F"]);
        assert_eq!(names("Corni I, II in F", &["Oboe", "Oboe"]), ["Horn in F 1", "Horn in F 2"]);
    }
}
