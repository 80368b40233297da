//! The parts of a movement by the families of their instruments, so that a whole family is muted or heard alone at once.

use crookwise_opened::MovementRows;
use crookwise_theory::{Family, Instrument};

/// A family that plays in a movement.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HeardFamily {
    /// Which; nothing for those whose labels name no instrument.
    pub family: Option<Family>,
    /// Its staves in score order.
    pub staves: Vec<u32>,
}

/// The families of a movement, in the order in which the score begins them.
#[must_use]
pub fn families(rows: &MovementRows) -> Vec<HeardFamily> {
    let mut all: Vec<HeardFamily> = Vec::new();
    for row in &rows.staves {
        let instrument = row.instrument.as_deref().and_then(Instrument::by_id);
        let family = instrument.map(|instrument| instrument.family);
        match all.iter_mut().find(|own| own.family == family) {
            Some(own) => own.staves.push(row.staff),
            None => all.push(HeardFamily { family, staves: vec![row.staff] }),
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_opened::StaffMapRow;

    #[test]
    fn a_family_has_all_its_parts_wherever_they_stand() {
        let staff = |(staff, id): (u32, &str)| StaffMapRow {
            staff,
            instrument: Some(id.to_owned()).filter(|id| !id.is_empty()),
            ..StaffMapRow::default()
        };
        let staves =
            [(0, "flute"), (1, "cl_a"), (2, "horn"), (3, ""), (4, "violin"), (5, "trumpet"), (6, "cello")];
        let rows = MovementRows { staves: staves.map(staff).into(), ..MovementRows::default() };
        let found: Vec<_> = families(&rows).into_iter().map(|own| (own.family, own.staves)).collect();
        assert_eq!(
            found,
            [
                (Some(Family::Woodwind), vec![0, 1]),
                (Some(Family::Brass), vec![2, 5]),
                (None, vec![3]),
                (Some(Family::Strings), vec![4, 6]),
            ]
        );
        assert_eq!(families(&MovementRows::default()), []);
    }
}
