//! From a note on a horn's staff to what is heard.

#![allow(clippy::unwrap_used, reason = "a test may panic, its helpers too")]

mod ear;

use crookwise_sound::{Manner, Mix, Touch, alternate, hz, note, render};
use crookwise_theory::label::{DecodeOptions, decode};
use crookwise_theory::{Clef, Habits, Printed, Reading, Situation, read};

fn reading(label: &str, printed: &str) -> Reading {
    let staves = decode(label, DecodeOptions::default());
    read(&Situation::of(&staves.staves[0], Habits::of(Clef::TREBLE)), Printed(printed.parse().unwrap()))
}

#[test]
fn the_tube_and_the_tuning() {
    // Partials 5, 7 and 11 of a horn in E-flat, whose C sounds E-flat 3: 155.563 Hz at partial 4.
    for (printed, partial, drift) in [("E4", 5.0, -13.686), ("Bb4", 7.0, -31.174), ("F5", 11.0, 51.318)] {
        let reading = reading("Corni in Es", printed);
        let (tube, tuning) = (hz(&reading, Manner::Tube), hz(&reading, Manner::Tuning));
        assert!((tube - 155.5635 * partial / 4.0).abs() < 1e-3, "{printed}: {tube}");
        assert!((ear::cents(tube, tuning) - drift).abs() < 1e-3, "{printed}: {tube}, {tuning}");
    }
}

#[test]
fn without_a_partial_the_tuning_decides() {
    // Between the partials; and no natural brass at all.
    for (label, printed) in [("Corni in Es", "A4"), ("Clarinetto in B", "E5")] {
        let reading = reading(label, printed);
        assert_eq!(hz(&reading, Manner::Tube).to_bits(), reading.target_hz.to_bits());
    }
}

#[test]
fn the_drift_is_heard_in_turn() {
    let reading = reading("Corni in Es", "E4");
    let [tube, tuning] = [Manner::Tube, Manner::Tuning].map(|manner| hz(&reading, manner));
    let tone = |hz: f64| [note(hz, 2.0, Touch::default())];
    let tones = alternate(&tone(tube), &tone(tuning), 2, 0.1);
    let samples = render(&Mix::new(tones).unwrap(), 16_000, 0.6).unwrap();
    for (turn, expected) in [tube, tuning, tube, tuning].into_iter().enumerate() {
        let begin = turn * 33_600;
        let heard = ear::peaks(&samples[begin + 5_000..begin + 30_000], 16_000.0, 150.0, 250.0);
        assert_eq!(heard.len(), 1);
        assert!(ear::cents(heard[0].hz, expected).abs() < 0.05, "{turn}: {heard:?}, {expected}");
    }
}
