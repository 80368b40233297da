//! The tempi of real scores, and how long they last.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crate::movements::{MOVEMENTS, movement, say};
use crookwise_score::road::Road;
use crookwise_score::tempo::{RoadClock, Tempi, TempoSource};
use crookwise_tests::outside::Comparison;

/// The comparisons of this file.
pub const COMPARISONS: &[Comparison] = &crookwise_tests::comparisons![tempi_are_those_of_the_files];

fn tempi_are_those_of_the_files(folder: &str) {
    for name in MOVEMENTS {
        let score = movement(folder, name).score;
        let tempi = Tempi::of(&score);
        let road = Road::of(&score);
        let clock = RoadClock::of(&road, &tempi);
        let length = clock.seconds(road.end());
        let (minutes, seconds) = ((length / 60.0).floor(), length % 60.0);
        let steps: Vec<String> = tempi
            .steps()
            .iter()
            .map(|step| {
                let bar = &score.bars()[score.bar_at(step.at)].number;
                let sign = if step.source == TempoSource::Told { "" } else { "~" };
                format!("{bar}: {sign}{}", f64::from(step.tempo) / 1000.0)
            })
            .collect();
        say(&format!("{name}: {minutes}' {seconds:.0}\" with repeats; {}", steps.join(", ")));
        // Every file says its tempo at the beginning.
        assert_eq!(tempi.steps().first().unwrap().source, TempoSource::Told, "{name}");
        if name == "Beethoven_Op.67_4" {
            assert_eq!(steps, ["1: 168", "155: 288", "209: 168", "355: 144", "364: 224"]);
        }
    }
}
