//! What is doubtful in the bars that are chosen, to be settled before they go elsewhere: there nothing would tell of it.

use crate::state::movement::{Movement, OpenMovement};
use crookwise_opened::StaffRow;

/// Notes under the bass clef that a staff is taken to sound an octave too low.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DoubtfulBass {
    /// The staff.
    pub staff: u32,
    /// Its label.
    pub label: String,
    /// The bars in which they stand, of those that are chosen.
    pub bars: Vec<u32>,
}

impl Movement {
    /// The chosen staves of which notes in the chosen bars are old bass-clef notation that is read as new.
    #[must_use]
    pub fn doubtful_bass(self) -> Vec<DoubtfulBass> {
        let Ok((from, to)) = self.bars() else { return Vec::new() };
        let chosen = self.chosen.read();
        let doubt = |staff: &StaffRow| {
            let old = staff.old_bass.as_ref().filter(|old| !old.is_read && chosen.contains(&staff.staff))?;
            let bars: Vec<u32> = old.bars.iter().copied().filter(|bar| (from..=to).contains(bar)).collect();
            let label = staff.label.clone();
            (!bars.is_empty()).then_some(DoubtfulBass { staff: staff.staff, label, bars })
        };
        let of_all = |open: &OpenMovement| {
            open.summary.parts.iter().flat_map(|part| &part.staves).filter_map(doubt).collect()
        };
        self.open.map(of_all).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::movement::ComesFrom;
    use crookwise_opened::{OldBassRow, PartRow, Summary};
    use leptos::prelude::Owner;

    #[test]
    fn only_what_is_chosen_and_read_as_new_is_doubtful() {
        let owner = Owner::new();
        owner.set();
        let old = |is_read| Some(OldBassRow { notes: 3, bars: vec![1, 2, 7], is_read });
        let staff = |staff, old_bass| StaffRow {
            staff,
            label: format!("Corno {staff} in D"),
            stands_out: true,
            old_bass,
            ..StaffRow::default()
        };
        let staves = vec![staff(0, old(false)), staff(1, old(true)), staff(2, None), staff(3, old(false))];
        let summary = Summary {
            bars: (1..=9).map(|bar| bar.to_string()).collect(),
            parts: vec![PartRow { staves, ..PartRow::default() }],
            ..Summary::default()
        };
        let movement = Movement::new();
        movement.show(
            OpenMovement { source: ComesFrom::Demo, file: String::new(), summary },
            Vec::new(),
            None,
        );
        movement.choose(3);
        let first = DoubtfulBass { staff: 0, label: "Corno 0 in D".to_owned(), bars: vec![1, 2] };
        assert_eq!(movement.doubtful_bass(), [first]);
        movement.from.set("4".into());
        movement.to.set("6".into());
        assert_eq!(movement.doubtful_bass(), []);
        movement.to.set("no bar".into());
        assert_eq!(movement.doubtful_bass(), []);
    }
}
