//! The beats that are reckoned are the beats that are heard.

#![allow(clippy::unwrap_used, reason = "a test may panic, its helpers too")]

mod ear;

use crookwise_sound::{Colour, Mix, Touch, beats, column, render};

#[test]
fn reckoned_and_heard_agree() {
    let rate = 8_000;
    for (low, high, seconds) in [
        (440.0, 442.0, 6.0),
        // Equal temperament at A440: C4 with G4, E4, F4, A4, and the tenth and twelfth above C3.
        (261.6256, 391.9954, 12.0),
        (261.6256, 329.6276, 5.0),
        (261.6256, 349.2282, 10.0),
        (261.6256, 440.0, 5.0),
        (130.8128, 329.6276, 5.0),
        (130.8128, 391.9954, 12.0),
        // A seventh a little too wide, as a hand may leave it.
        (200.0, 351.0, 5.0),
    ] {
        let reckoned = beats(low, high).unwrap();
        let touch = Touch { level: 0.7, colour: Colour::Brass };
        let samples = render(&Mix::new(column(&[low, high], seconds, touch)).unwrap(), rate, 0.6).unwrap();
        // The partials that nearly meet.
        let meeting = f64::from(reckoned.interval.lower) * high;
        let steady = &samples[2_400..samples.len() - 800];
        let heard =
            ear::beating(steady, f64::from(rate), (meeting + f64::from(reckoned.interval.upper) * low) / 2.0);
        assert!((heard - reckoned.hz).abs() < 0.02, "{low}, {high}: heard {heard}, {reckoned:?}");
    }
}
