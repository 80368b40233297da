//! Which staves print joins on one: two neighbours of one instrument whose labels differ in their numbers alone, with the same
//! crook, clef and changes all along.

use super::staff::common_label;
use crate::change::ChangeTo;
use crate::resolve::Decoder;
use crate::score::{PartStaff, Score, StaffCourse, StaffId, TimedChange};
use crookwise_theory::Clef;

/// The staves of a score as rows: pairs joined where print joins them, all else by itself.
pub fn pairs(score: &Score, decoder: &mut Decoder<'_>) -> Vec<Vec<StaffId>> {
    let mut rows: Vec<Vec<StaffId>> = Vec::new();
    let mut before: Option<&PartStaff> = None;
    for part in score.parts() {
        for staff in &part.staves {
            let alone = part.staves.len() == 1;
            match (before, rows.last_mut()) {
                (Some(upper), Some(row)) if alone && may_join(score, upper, staff, decoder) => {
                    row.push(staff.id);
                    before = None;
                }
                _ => {
                    rows.push(vec![staff.id]);
                    before = alone.then_some(staff);
                }
            }
        }
    }
    rows
}

fn may_join(score: &Score, upper: &PartStaff, lower: &PartStaff, decoder: &mut Decoder<'_>) -> bool {
    if upper.players > 1 || lower.players > 1 || common_label(&upper.label, &lower.label).is_none() {
        return false;
    }
    let changes = |staff: &PartStaff| -> Vec<TimedChange> {
        let all = staff.changes().iter();
        // A clef that is printed anew where it holds already changes nothing.
        let mut clef: Option<Clef> = None;
        let is_change = |change: &&TimedChange| match &change.to {
            ChangeTo::Clef(to) => clef.replace(*to) != Some(*to),
            _ => true,
        };
        all.filter(is_change).cloned().collect()
    };
    let mut first = |staff: &PartStaff| {
        let course = StaffCourse::of(score, staff, decoder);
        let beginning = crate::score::Moment::without_length(crate::score::Quarters::ZERO, 0);
        course.place_at(beginning, 0).map(|place| {
            (place.staff.instrument.id, place.staff.transposition, place.habits, place.signature)
        })
    };
    first(upper) == first(lower) && labels_agree(&changes(upper), &changes(lower))
}

/// Whether two staves change alike; labels may differ in their numbers.
fn labels_agree(one: &[TimedChange], two: &[TimedChange]) -> bool {
    let agree = |(one, two): (&TimedChange, &TimedChange)| match (&one.to, &two.to) {
        (ChangeTo::Label(one), ChangeTo::Label(two)) => one == two || common_label(one, two).is_some(),
        (one, two) => one == two,
    };
    let moments =
        |all: &[TimedChange]| all.iter().map(|change| (change.at.time, change.player)).collect::<Vec<_>>();
    one.len() == two.len() && moments(one) == moments(two) && one.iter().zip(two).all(agree)
}
