//! Every family by its partials, as they are heard.

#![allow(clippy::unwrap_used, reason = "a test may panic, its helpers too")]

mod ear;

use crookwise_sound::{Colour, Mix, Touch, note, render};
use crookwise_theory::tables::INSTRUMENTS;
use crookwise_theory::{Family, Instrument};

const RATE: u32 = 32_000;

fn sound(colour: Colour, hz: f64, seconds: f64) -> Vec<f32> {
    let tone = note(hz, seconds, Touch { colour, ..Touch::default() });
    render(&Mix::new(vec![tone]).unwrap(), RATE, 0.6).unwrap()
}

/// How strong something is that lies so many times as high as the note, in dB against all there is.
fn partial(colour: Colour, hz: f64, times: f64) -> f64 {
    let samples = sound(colour, hz, 2.0);
    // A stroke is heard at once, before it has died away.
    let struck = matches!(colour, Colour::Drum | Colour::Bar);
    let (begin, length) = if struck { (600, 8_000) } else { (8_000, 32_000) };
    let all = ear::effective(&samples[begin..begin + length]) * 2.0_f64.sqrt();
    20.0 * (ear::near(&samples, f64::from(RATE), hz * times, begin, length).0 / all).max(1e-9).log10()
}

#[test]
fn clarinets_have_the_odd_partials() {
    for hz in [147.0, 220.0, 311.0] {
        let [first, second, third, fourth, fifth] =
            [1.0, 2.0, 3.0, 4.0, 5.0].map(|at| partial(Colour::Clarinet, hz, at));
        assert!(first > second + 15.0 && third > second + 6.0, "{hz}: {first} {second} {third}");
        assert!(third > fourth && fifth > fourth - 3.0, "{hz}: {third} {fourth} {fifth}");
    }
}

#[test]
fn flutes_have_few_and_strings_many() {
    let [flute, string] =
        [Colour::Flute, Colour::String].map(|colour| [2.0, 4.0, 8.0].map(|at| partial(colour, 440.0, at)));
    assert!(flute[0] < -10.0 && flute[1] < -24.0 && flute[2] < -36.0, "{flute:?}");
    assert!(string[0] > -10.0 && string[1] > -16.0 && string[2] > -26.0, "{string:?}");
}

#[test]
fn reeds_and_voices_are_strongest_at_a_height_and_not_at_the_note() {
    // Bassoon about 500 Hz, oboe about 1100 Hz, an open a about 730 Hz.
    for (colour, hz, strongest) in
        [(Colour::Reed, 98.0, 3..=6), (Colour::Reed, 440.0, 2..=3), (Colour::Voice, 147.0, 4..=6)]
    {
        let all: Vec<f64> = (1..=12).map(|at| partial(colour, hz, f64::from(at))).collect();
        let at = 1 + (0..12).max_by(|a, b| all[*a].total_cmp(&all[*b])).unwrap();
        assert!(strongest.contains(&at), "{colour:?} {hz}: {all:?}");
    }
}

#[test]
fn what_is_struck_dies_away_and_has_no_whole_multiples() {
    for (colour, own, whole) in
        [(Colour::Drum, [1.5, 1.98, 2.44], [2.2, 3.4]), (Colour::Bar, [2.756, 5.404, 1.0], [2.0, 4.0])]
    {
        for times in own {
            assert!(partial(colour, 130.8, times) > -32.0, "{colour:?} {times}");
        }
        for times in whole {
            assert!(partial(colour, 130.8, times) < -45.0, "{colour:?} {times}");
        }
        let samples = sound(colour, 130.8, 3.0);
        let level = |begin: f64| {
            let begin = (begin * f64::from(RATE)) as usize;
            20.0 * ear::effective(&samples[begin..begin + RATE as usize / 5]).log10()
        };
        let fallen = level(0.05) - level(2.5);
        assert!((12.0..40.0).contains(&fallen), "{colour:?}: {fallen} dB");
    }
    let blown = sound(Colour::Reed, 130.8, 3.0);
    let level = |begin: usize| ear::effective(&blown[begin..begin + 6_400]);
    assert!((level(12_000) / level(80_000) - 1.0).abs() < 0.02);
}

#[test]
fn every_family_sounds_as_high_as_it_is_asked_to() {
    for colour in Colour::ALL {
        for hz in [61.7, 130.813, 329.628, 1318.51] {
            let samples = sound(colour, hz, 2.6);
            let steady = &samples[RATE as usize * 3 / 10..samples.len() - RATE as usize / 10];
            let peaks = ear::peaks(steady, f64::from(RATE), hz * 0.7, hz * 1.3);
            assert_eq!(peaks.len(), 1, "{colour:?} {hz}: {peaks:?}");
            assert!(ear::cents(peaks[0].hz, hz).abs() < 0.1, "{colour:?} {hz}: {peaks:?}");
        }
    }
}

#[test]
fn every_instrument_has_the_character_of_its_family() {
    let of = |id| Colour::of(Instrument::by_id(id).unwrap());
    for (id, colour) in [
        ("flute", Colour::Flute),
        ("rec_a", Colour::Flute),
        ("oboe", Colour::Reed),
        ("cor_ang", Colour::Reed),
        ("bassoon", Colour::Reed),
        ("sax_a", Colour::Reed),
        ("cl_bb", Colour::Clarinet),
        ("basset_hn", Colour::Clarinet),
        ("bcl_fr", Colour::Clarinet),
        ("horn", Colour::Brass),
        ("serpent", Colour::Brass),
        ("timp_old", Colour::Drum),
        ("glock", Colour::Bar),
        ("violin", Colour::String),
        ("bassi", Colour::String),
        ("soprano", Colour::Voice),
        ("piano", Colour::Plain),
    ] {
        assert_eq!(of(id), colour, "{id}");
    }
    // The table says it of all woodwind and of nothing else.
    for instrument in &INSTRUMENTS {
        assert_eq!(instrument.blown.is_some(), instrument.family == Family::Woodwind, "{}", instrument.id);
    }
}
