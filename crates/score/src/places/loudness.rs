//! How loud a staff is marked.

use crate::score::{Direction, PartStaff, Quarters};

/// The marks that last, from the softest to the loudest; one that falls back at once counts by where it falls to.
const MARKS: [(&str, i8); 14] = [
    ("pppp", -4),
    ("ppp", -3),
    ("pp", -2),
    ("p", -1),
    ("mp", 0),
    ("mf", 1),
    ("f", 2),
    ("ff", 3),
    ("fff", 4),
    ("ffff", 5),
    ("fp", -1),
    ("sfp", -1),
    ("ffp", -1),
    ("sfpp", -2),
];

/// The marks of a staff in their order, by when they begin to hold.
#[derive(Debug, Default)]
pub(super) struct Loudness(Vec<(Quarters, i8)>);

impl Loudness {
    pub fn of(staff: &PartStaff) -> Self {
        let marks = staff.directions.iter().filter_map(|told| match &told.direction {
            Direction::Dynamic(name) => {
                let known = MARKS.iter().find(|(mark, _)| *mark == name.as_ref());
                known.map(|(_, loudness)| (told.at.time, *loudness))
            }
            _ => None,
        });
        Self(marks.collect())
    }

    /// The mark that holds at a time, as steps from mezzopiano; `None` before the first.
    pub fn at(&self, time: Quarters) -> Option<i8> {
        let after = self.0.partition_point(|(from, _)| *from <= time);
        after.checked_sub(1).and_then(|last| self.0.get(last)).map(|(_, loudness)| *loudness)
    }
}
