//! One player against many: nobody is drowned, and nobody is held down at the usual volume.

#![allow(clippy::unwrap_used, reason = "a test may panic, its helpers too")]

mod ear;

use crookwise_sound::{CEILING, Colour, DEFAULT_VOLUME, Mix, Touch, column, render};

const RATE: u32 = 24_000;

/// Decibels of the steady part of these at once, and the highest sample.
fn loudness(all_hz: &[f64], colour: Colour, volume: f64) -> (f64, f32) {
    let tones = column(all_hz, 1.6, Touch { colour, ..Touch::default() });
    let samples = render(&Mix::new(tones).unwrap(), RATE, volume).unwrap();
    let steady = &samples[RATE as usize / 5..samples.len() - RATE as usize / 5];
    (20.0 * ear::effective(steady).log10(), ear::highest(&samples))
}

#[test]
fn one_alone_is_at_most_nine_decibels_softer_than_twelve() {
    let twelve = [
        // A chord of twelve notes; in unisons and octaves, as pages have them; all on one note; in two groups; nearly one note.
        vec![58.3, 87.3, 116.5, 146.8, 174.6, 233.1, 293.7, 349.2, 466.2, 587.3, 698.5, 932.3],
        vec![65.4, 130.8, 130.8, 196.0, 261.6, 261.6, 329.6, 392.0, 523.3, 523.3, 659.3, 784.0],
        vec![233.1; 12],
        [[116.5, 233.1]; 6].concat(),
        (0..12).map(|at| 233.0 + 0.05 * f64::from(at)).collect(),
    ];
    for colour in Colour::ALL {
        for many in &twelve {
            let (all, peak) = loudness(many, colour, DEFAULT_VOLUME);
            // Nothing is held down at the usual volume, and nothing clips at the highest.
            assert!(peak < CEILING * 0.8, "{colour:?} {many:?}: {peak}");
            assert!(loudness(many, colour, 1.0).1 <= CEILING, "{colour:?} {many:?}");
            for one in [many[0], many[11]] {
                let (alone, _) = loudness(&[one], colour, DEFAULT_VOLUME);
                // Many are not softer than one either, as far as an ear would say.
                assert!(
                    (-3.0..9.0).contains(&(all - alone)),
                    "{colour:?} {one} in {many:?}: {:.1} dB",
                    all - alone
                );
            }
        }
    }
}

#[test]
fn each_more_on_a_note_is_heard() {
    // Never softer for one more, though each is taken back a little.
    let all: Vec<f64> = (1..=12).map(|count| loudness(&vec![233.1; count], Colour::Brass, 0.6).0).collect();
    assert!(all.windows(2).all(|pair| pair[1] > pair[0] - 0.1), "{all:?}");
    assert!((7.0..8.5).contains(&(all[11] - all[0])), "{all:?}");
}

#[test]
fn every_family_is_about_as_loud() {
    for hz in [98.0, 233.1, 466.2] {
        let all = Colour::ALL.map(|colour| loudness(&[hz], colour, DEFAULT_VOLUME).0);
        let range =
            all.iter().fold((0.0, -100.0), |(low, high), db| (f64::min(low, *db), f64::max(high, *db)));
        assert!(range.1 - range.0 < 4.0, "{hz}: {all:?}");
    }
}
