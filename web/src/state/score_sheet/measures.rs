//! How the columns of a page are broken into systems and how wide they stand.

use super::Room;
use crate::state::laying::narrowest;
use core::ops::Range;
use crookwise_engraving::{Metrics, StaffSpace, StaffSpec, head_width};

/// Columns of a system that has room to spare.
const STEPS: [usize; 4] = [8, 12, 16, 24];

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
    /// Room for changes before each column.
    before: Vec<StaffSpace>,
    /// Columns there are to be, one more than there is, for the next note.
    slots: usize,
}

impl Measures {
    /// Breaks the columns of some staves on so much width, in pixels; `slots` columns are to be.
    pub(super) fn of(staves: &[&StaffSpec], slots: usize, written: usize, room: Room, width: f64) -> Self {
        let needs = Needs::of(staves, slots);
        let spaces = |scale: f64| StaffSpace((width / scale).max(20.0));
        // Few notes stand large on one system; more of them smaller, on as many as they need.
        let fits = |scale: f64| needs.fits(spaces(scale), room.narrowest_column() / scale);
        let [large, small] = room.scales();
        let alone = written < 2;
        let scale = if alone && fits(large) >= slots { large } else { room.for_staves(small, written) };
        // Where all fits on one system with room to spare, the columns stand wider, in steps that do not change often.
        let most = fits(scale);
        let roomy = |step: &usize| *step >= slots && *step <= most;
        let fits = STEPS.into_iter().find(roomy).unwrap_or(most);
        let rows = slots.div_ceil(fits).max(1);
        let systems = (0..rows).map(|row| {
            let columns = row * fits..(row + 1) * fits;
            let before = needs.before(&columns);
            let rooms = before.iter().fold(StaffSpace::ZERO, |sum, &room| sum + room);
            let column = StaffSpace((spaces(scale) - needs.head - rooms).0 / fits as f64);
            (columns, Metrics { head: needs.head, column, before })
        });
        Self { scale, systems: systems.collect() }
    }
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

    /// Room for changes before each column of a system; the first has none, since the head shows what is in force.
    fn before(&self, columns: &Range<usize>) -> Vec<StaffSpace> {
        let room = |at: usize| self.before.get(at).copied().unwrap_or(StaffSpace::ZERO);
        columns.clone().map(|at| if at == columns.start { StaffSpace::ZERO } else { room(at) }).collect()
    }

    /// How many columns of at least that width, in staff spaces, every system has room for.
    fn fits(&self, width: StaffSpace, column: f64) -> usize {
        let column = self.narrowest.max(column);
        let free = (width - self.head).0;
        let most = ((free / column) as usize).max(1);
        let all_fit = |fits: &usize| {
            (0..self.slots.div_ceil(*fits).max(1)).all(|row| {
                let rooms: f64 = self.before(&(row * fits..(row + 1) * fits)).iter().map(|room| room.0).sum();
                rooms + column * *fits as f64 <= free + 1e-9
            })
        };
        (1..=most).rev().find(all_fit).unwrap_or(1)
    }
}
