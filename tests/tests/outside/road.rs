//! The road through the repeats of real scores, in the numbers that are printed at their bars: in three of these files the first
//! part alone has the endings.

use crate::movements::{MOVEMENTS, movement, say};
use crookwise_score::road::Road;
use crookwise_tests::outside::Comparison;

/// The comparisons of this file.
pub const COMPARISONS: &[Comparison] = &crookwise_tests::comparisons![the_road_is_that_of_the_print];

/// Legs by printed numbers, as the repeats and endings in print make them.
const LEGS: [(&str, &str); 3] = [
    ("Beethoven_Op.55_3", "1–167, 32–163, 168–265, 204–259, 266–453"),
    ("Beethoven_Op.67_4", "1–86, 2–84, 87–446"),
    ("Brahms_Op.68_3", "1–108, 87–107, 109–165"),
];

fn the_road_is_that_of_the_print(folder: &str) {
    for name in MOVEMENTS {
        let score = movement(folder, name).score;
        let road = Road::of(&score);
        let number = |bar: usize| score.bars()[bar].number.as_ref();
        let legs: Vec<String> =
            road.legs().iter().map(|leg| format!("{}–{}", number(leg.bars.0), number(leg.bars.1))).collect();
        let legs = legs.join(", ");
        say(&format!("{name}: {legs}"));
        if let Some((_, expected)) = LEGS.iter().find(|(known, _)| *known == name) {
            assert_eq!(legs, *expected, "{name}");
        }
        assert_eq!(road.faults(), [], "{name}");
        let mut missing = vec![true; score.bars().len()];
        for leg in road.legs() {
            missing[leg.bars.0..=leg.bars.1].fill(false);
        }
        assert!(!missing.contains(&true), "{name}: every bar is played");
    }
}
