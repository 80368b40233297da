//! The parts of a score, with their labels and what is odd in them.

use crate::holder::{Opened, decoder};
use crate::summary::{OldBassRow, PartRow, StaffChangeRow, StaffRow, Summary, UnheededRow};
use crookwise_musicxml::{Oddity, Unheeded};
use crookwise_score::ChangeTo;
use crookwise_score::printed::pairs;
use crookwise_score::score::{Direction, Moment, PartStaff, Quarters, Score, StaffCourse};
use crookwise_share::choice_text;
use crookwise_theory::order::put_in_order;
use crookwise_theory::{BassNotation, Family, Interval};

pub(crate) fn summary(opened: &Opened) -> Summary {
    let score = &opened.import.score;
    let parts = (0..opened.import.parts.len()).filter_map(|at| part(opened, at));
    let whole = opened.import.remarks.iter().filter(|remark| remark.part.is_none());
    Summary {
        id: opened.id.clone(),
        title: score.title.as_ref().to_owned(),
        composer: score.composer.as_ref().to_owned(),
        bars: score.bars().iter().map(|bar| bar.number.as_ref().to_owned()).collect(),
        letters: letters(score),
        parts: parts.collect(),
        pairs: pairs(score, &mut decoder)
            .iter()
            .filter_map(|row| match row.as_slice() {
                [upper, lower] => Some((opened.number_of(*upper), opened.number_of(*lower))),
                _ => None,
            })
            .collect(),
        remarks: whole.map(ToString::to_string).collect(),
    }
}

fn part(opened: &Opened, at: usize) -> Option<PartRow> {
    let part = opened.part(at)?;
    let counts = opened.import.parts.get(at)?.counts;
    let staves: Vec<StaffRow> = part.staves.iter().map(|staff| staff_row(opened, staff)).collect();
    let corrected = staves.iter().any(|staff| opened.is_relabelled(staff.staff));
    let is_told = |what: &Oddity| match what {
        // What was corrected is odd no more.
        Oddity::LabelDisagrees(_)
        | Oddity::UnusualReading(_)
        | Oddity::PerhapsAtSoundingPitch(_)
        | Oddity::UnknownLabel => !corrected,
        // Each of these stands by itself, with the way to settle it.
        Oddity::WordsUnheeded(_) => false,
        _ => true,
    };
    let remarks = opened.import.remarks.iter().filter(|remark| remark.part == Some(at));
    let remarks = remarks.filter(|remark| is_told(&remark.what));
    Some(PartRow {
        name: part.name.as_ref().to_owned(),
        notes: counts.pitched,
        staves,
        remarks: remarks.map(ToString::to_string).collect(),
    })
}

fn staff_row(opened: &Opened, staff: &PartStaff) -> StaffRow {
    let number = opened.number_of(staff.id);
    let as_read = opened.as_read.iter().find(|other| other.id == staff.id);
    let course = StaffCourse::of(&opened.import.score, staff, &mut decoder);
    let beginning = Moment::measured(Quarters::ZERO);
    let place = course.place_at(beginning, 0);
    let instrument = place.map(|place| place.staff.instrument);
    let is_read = staff.settings.bass == Some(BassNotation::Old);
    let old = opened.old_bass.iter().find(|old| old.staff == staff.id).map(|old| OldBassRow {
        notes: u32::try_from(old.notes.len()).unwrap_or(u32::MAX),
        bars: old.bars.iter().filter_map(|bar| u32::try_from(*bar).ok()).collect(),
        is_read,
    });
    let corrected = opened.changes_corrected(number);
    let changes = staff.changes().iter().filter_map(|change| {
        let ChangeTo::Label(label) = &change.to else { return None };
        let bar = u32::try_from(opened.import.score.bar_at(change.at.time)).unwrap_or(0);
        Some(StaffChangeRow {
            bar,
            label: label.clone(),
            is_corrected: corrected.iter().any(|own| own.bar == bar),
            is_understood: course.is_understood_at(change.at),
        })
    });
    StaffRow {
        staff: number,
        label: staff.label.as_ref().to_owned(),
        reads: staff.choice.map(choice_text),
        reads_by_file: as_read.and_then(|own| own.choice).map(choice_text),
        label_by_file: as_read.map_or_else(String::new, |own| own.label.as_ref().to_owned()),
        changes: changes.collect(),
        unheeded: unheeded(opened, staff, &course),
        as_printed: place.is_some_and(|place| {
            !place.staff.drums.is_empty() && place.notation().printed_to_sounding() == Interval::UNISON
        }),
        stands_out: instrument.is_some_and(|own| {
            own.family == Family::Brass || (own.family == Family::Percussion && own.is_pitched())
        }),
        old_bass: old,
    }
}

/// The words for another crook at a staff that nothing heeds, as long as another crook holds where it plays next.
fn unheeded(opened: &Opened, staff: &PartStaff, course: &StaffCourse) -> Vec<UnheededRow> {
    let score = &opened.import.score;
    let corrected = opened.changes_corrected(opened.number_of(staff.id));
    let own = opened.import.unheeded.iter().filter(|own| own.staff == staff.id);
    let row = |own: &Unheeded| {
        let notes = || staff.notes().iter().map(|(_, note)| note).filter(|note| note.printed.is_some());
        let bar = u32::try_from(score.bar_at(own.at.time)).unwrap_or(0);
        // Who still plays in the bar of the words changes after it.
        let plays_before = notes().any(|note| note.bar == bar && note.start < own.at);
        let next = notes().find(|note| note.start >= own.at && !(plays_before && note.bar == bar))?;
        let holds =
            course.place_of(next).is_some_and(|place| place.staff.transposition == own.to.transposition);
        let is_settled = holds || corrected.iter().any(|change| (bar..=next.bar).contains(&change.bar));
        let words = own.words.as_ref().to_owned();
        (!is_settled).then_some(UnheededRow { bar, from: next.bar, words })
    };
    own.filter_map(row).collect()
}

/// Rehearsal letters, each with the bar it stands over, once.
fn letters(score: &Score) -> Vec<(String, u32)> {
    let mut all: Vec<(String, u32)> = Vec::new();
    for staff in score.staves() {
        for timed in &staff.directions {
            let Direction::Rehearsal(letter) = &timed.direction else { continue };
            let bar = u32::try_from(score.bar_at(timed.at.time)).unwrap_or(0);
            let row = (letter.as_ref().to_owned(), bar);
            if !all.contains(&row) {
                all.push(row);
            }
        }
    }
    put_in_order(&mut all, |(_, bar)| *bar);
    all
}
