//! How often written notes are struck in real horn and trumpet parts.

use crate::crook::CrookFamily;

/// Attacks of written notes on all horns in nine symphonies of Beethoven, by MIDI number: the last column of
/// `crates/theory/data/handhorn.csv`, counted in scores. Notes that never occur are left out.
const HORN: [(i32, u32); 30] = [
    (48, 134),
    (54, 73),
    (55, 2321),
    (56, 2),
    (57, 1),
    (59, 11),
    (60, 3320),
    (62, 9),
    (63, 32),
    (64, 1969),
    (65, 15),
    (66, 4),
    (67, 5850),
    (68, 7),
    (69, 37),
    (70, 455),
    (71, 56),
    (72, 5743),
    (73, 15),
    (74, 4404),
    (75, 518),
    (76, 3364),
    (77, 1568),
    (78, 24),
    (79, 2132),
    (80, 4),
    (81, 17),
    (82, 1),
    (83, 2),
    (84, 15),
];

/// The same for trumpets, in hundredths of a percent of 14,993 attacks; what is rarer is left out.
const TRUMPET: [(i32, u32); 10] = [
    (55, 1510),
    (60, 1930),
    (64, 310),
    (67, 2300),
    (70, 94),
    (72, 1820),
    (74, 1360),
    (76, 290),
    (77, 140),
    (79, 230),
];

impl CrookFamily {
    /// How often each written note is struck, by MIDI number from low to high; what is not there is never or hardly met. The
    /// counts of the two families are not in the same measure.
    #[must_use]
    pub const fn attacks(self) -> &'static [(i32, u32)] {
        match self {
            Self::Horn => &HORN,
            Self::Trumpet => &TRUMPET,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn attacks_are_those_of_the_table() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/data/handhorn.csv");
        let mut known = Vec::new();
        for row in csv::Reader::from_path(path).unwrap().records() {
            let row = row.unwrap();
            let count: u32 = row[row.len() - 1].parse().unwrap();
            if count > 0 {
                known.push((row[0].parse().unwrap(), count));
            }
        }
        assert_eq!(known, HORN);
    }
}
