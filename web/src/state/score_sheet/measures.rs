//! How the columns of a page are broken into systems and how wide they stand.

use super::room::{Room, Tall};
use crate::state::laying::narrowest;
use core::ops::Range;
use crookwise_engraving::{Before, Metrics, StaffSpace, StaffSpec, head_width};

/// Columns of a system that has room to spare.
const STEPS: [usize; 6] = [8, 11, 14, 18, 24, 32];

/// Width of what the rows under a staff are called, in pixels.
const ROW_NAMES: f64 = 54.0;

/// The systems of a page.
pub(super) struct Measures {
    /// Pixels of one staff space.
    pub(super) scale: f64,
    /// The columns of each system and where they stand.
    pub(super) systems: Vec<(Range<usize>, Metrics)>,
}

/// What the staves of a page need.
struct Needs {
    /// The widest head of any system.
    head: StaffSpace,
    /// The narrowest column, in staff spaces.
    narrowest: f64,
    /// Room for bar lines and changes before each column.
    before: Vec<Before>,
    /// Columns there are to be, one more than there is, for the next note.
    slots: usize,
}

impl Measures {
    /// Lays the columns of some staves on so much width, in pixels, with this staff space at most; `slots` columns are to be.
    pub(super) fn of(
        staves: &[&StaffSpec],
        slots: usize,
        (tall, largest): (Tall, f64),
        room: Room,
        width: f64,
    ) -> Self {
        let mut needs = Needs::of(staves, slots);
        if room.runs() && tall.written < 2 {
            // What the rows under the staff are called stands under its clef.
            needs.head = needs.head.max(StaffSpace(ROW_NAMES / largest));
        }
        let least = room.narrowest_column();
        let (scale, columns) = match room.runs() {
            // What is seen whole may stand large; of a longer strip more columns are seen at once.
            true if needs.on_one(slots, width / largest, least / largest) => (largest, slots),
            true => (largest.min(room.scales()[1]), slots),
            false => needs.broken(largest, room, width, tall.written > 1),
        };
        let rows = if room.runs() { 1 } else { slots.div_ceil(columns).max(1) };
        let systems = (0..rows).map(|row| {
            let range = row * columns..(row + 1) * columns;
            let before = needs.before(&range);
            let rooms = total(&before);
            let free = width / scale - needs.head.0 - rooms;
            let column = if room.runs() {
                needs.running(width / scale, least / scale)
            } else {
                (free / columns as f64).max(1.0)
            };
            (range, Metrics { head: needs.head, column: StaffSpace(column), before })
        });
        Self { scale, systems: systems.collect() }
    }
}

/// All that stands before some columns, in staff spaces.
fn total(before: &[Before]) -> f64 {
    before.iter().map(|room| room.whole().0).sum()
}

impl Needs {
    fn of(staves: &[&StaffSpec], slots: usize) -> Self {
        let widest = |one: StaffSpace, other: StaffSpace| if other.0 > one.0 { other } else { one };
        // Any column may begin a system, so every clef and signature in force may stand at its head.
        let heads = staves.iter().flat_map(|staff| {
            let turns = staff
                .columns
                .iter()
                .enumerate()
                .filter(|(_, column)| column.clef_change.is_some() || column.signature_change.is_some());
            let later = turns.map(|(at, _)| staff.in_force(at));
            core::iter::once((staff.clef, staff.signature))
                .chain(later)
                .map(|(clef, signature)| head_width(clef, signature))
                .collect::<Vec<_>>()
        });
        Self {
            head: heads.fold(StaffSpace::ZERO, widest),
            narrowest: staves.iter().map(|staff| narrowest(staff).0).fold(0.0, f64::max),
            before: Metrics::fit(staves, 0..slots, StaffSpace(1.0)).before,
            slots,
        }
    }

    /// Room before each column of a system; the first has none, since the head shows what is in force.
    fn before(&self, columns: &Range<usize>) -> Vec<Before> {
        let room = |at: &usize| self.before.get(*at).copied().filter(|_| *at > columns.start);
        columns.clone().map(|at| room(&at).unwrap_or_default()).collect()
    }

    /// The staff space, and how many columns a system has, where the page is broken into systems.
    fn broken(&self, largest: f64, room: Room, width: f64, several: bool) -> (f64, usize) {
        let least = room.narrowest_column();
        let [_, small] = room.scales();
        // What fits on one system stands on one: in steps that do not change often, as large as it can.
        let shrinks = several && room.height.is_some();
        let smallest = if shrinks { largest.min(5.0) } else { largest.min(small) };
        let halves = (smallest * 2.0) as usize..=(largest * 2.0) as usize;
        let sizes = || halves.clone().rev().map(|half| half as f64 / 2.0);
        let one = |columns: usize, least: f64| {
            sizes()
                .find(|scale| self.on_one(columns, width / scale, least / scale))
                .map(|scale| (scale, columns))
        };
        let step = STEPS.into_iter().find(|step| *step >= self.slots).unwrap_or(self.slots);
        let squeezed = || one(self.slots, room.squeezed_column()).filter(|_| shrinks);
        one(step, least).or_else(|| one(self.slots, least)).or_else(squeezed).unwrap_or_else(|| {
            let scale = if several { largest } else { smallest };
            (scale, self.fits(StaffSpace((width / scale).max(20.0)), least / scale))
        })
    }

    /// Whether so many columns of at least that width stand on one system of so much width, in staff spaces.
    fn on_one(&self, columns: usize, width: f64, column: f64) -> bool {
        let rooms = total(&self.before(&(0..columns)));
        self.head.0 + rooms + columns as f64 * self.narrowest.max(column) <= width + 1e-9
    }

    /// The width of a column of a strip, in staff spaces, so that the first ones are seen whole.
    fn running(&self, width: f64, column: f64) -> f64 {
        let free = (width - self.head.0).max(1.0);
        let seen = (free / self.narrowest.max(column)) as usize;
        free / seen.clamp(1, self.slots.max(1)) as f64
    }

    /// How many columns of at least that width, in staff spaces, every system has room for.
    fn fits(&self, width: StaffSpace, column: f64) -> usize {
        let column = self.narrowest.max(column);
        let free = (width - self.head).0;
        let most = ((free / column) as usize).max(1);
        let all_fit = |fits: &usize| {
            (0..self.slots.div_ceil(*fits).max(1)).all(|row| {
                let rooms = total(&self.before(&(row * fits..(row + 1) * fits)));
                rooms + column * *fits as f64 <= free + 1e-9
            })
        };
        (1..=most).rev().find(all_fit).unwrap_or(1)
    }
}
