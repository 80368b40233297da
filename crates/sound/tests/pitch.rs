//! What is rendered sounds as high as it was asked to, and nothing else sounds.

#![allow(clippy::unwrap_used, reason = "a test may panic, its helpers too")]

mod ear;

use crookwise_sound::{Colour, Mix, Touch, column, note, render};

fn sound(all_hz: &[f64], seconds: f64, rate: u32, colour: Colour) -> Vec<f32> {
    let mix = Mix::new(column(all_hz, seconds, Touch { colour, ..Touch::default() })).unwrap();
    render(&mix, rate, 0.6).unwrap()
}

/// The buffer without its soft start and end.
fn steady(samples: &[f32], rate: u32) -> &[f32] {
    let rate = rate as usize;
    &samples[rate * 3 / 10..samples.len() - rate / 10]
}

#[test]
fn fundamentals_from_the_lowest_to_the_highest() {
    for colour in [Colour::Brass, Colour::Plain] {
        for (rate, all) in [
            (8_000, &[30.0, 30.868, 43.654, 61.7][..]),
            (44_100, &[87.307, 97.999, 116.54, 164.81, 233.082]),
            (48_000, &[327.032, 329.628, 440.0, 659.255, 1046.5, 1318.51, 1500.0]),
        ] {
            for &hz in all {
                let samples = sound(&[hz], 2.6, rate, colour);
                let peaks = ear::peaks(steady(&samples, rate), f64::from(rate), hz * 0.5, hz * 1.5);
                assert_eq!(peaks.len(), 1, "{colour:?} {hz}: {peaks:?}");
                assert!(ear::cents(peaks[0].hz, hz).abs() < 0.05, "{colour:?} {hz}: {peaks:?}");
            }
        }
    }
}

#[test]
fn two_that_are_close_are_both_right() {
    // Partial 5 against the tempered third, on low, middle and high crooks; then ten and five cents apart.
    for (low, high, seconds, rate) in [
        (30.0, 30.238, 40.0, 8_000),
        (81.758, 82.407, 16.0, 8_000),
        (327.032, 329.628, 6.0, 16_000),
        (528.0, 531.1, 6.0, 16_000),
        (440.0, 441.273, 8.0, 16_000),
        (1308.128, 1318.51, 3.0, 16_000),
    ] {
        let samples = sound(&[low, high], seconds, rate, Colour::Brass);
        let peaks = ear::peaks(steady(&samples, rate), f64::from(rate), low * 0.7, high * 1.4);
        assert_eq!(peaks.len(), 2, "{low}, {high}: {peaks:?}");
        for (peak, hz) in peaks.iter().zip([low, high]) {
            assert!(ear::cents(peak.hz, hz).abs() < 0.05, "{hz}: {peaks:?}");
        }
    }
}

#[test]
fn a_chord_of_eight_keeps_every_pitch() {
    let chord = [58.27, 87.307, 116.541, 146.832, 174.614, 233.082, 293.665, 349.228];
    let samples = sound(&chord, 6.0, 16_000, Colour::Plain);
    let all = ear::peaks(steady(&samples, 16_000), 16_000.0, 50.0, 380.0);
    for hz in chord {
        let nearest = all.iter().map(|peak| ear::cents(peak.hz, hz).abs()).fold(f64::MAX, f64::min);
        // Second and third partials of the lower notes stand a few hundredths of a hertz beside some of them.
        assert!(nearest < 0.5, "{hz}: {nearest} cents");
    }
}

#[test]
fn no_drift_in_ten_seconds() {
    for hz in [30.0, 329.628, 1500.0] {
        let rate = 16_000;
        let samples = sound(&[hz], 10.0, rate, Colour::Brass);
        let turns = |begin: usize| ear::near(&samples, f64::from(rate), hz, begin, 8_000).1;
        // From the middle of one window to the middle of the other: 9 s.
        let off = turns(148_000) - turns(4_000);
        let off = off - off.round();
        let cents = ear::cents(hz + off / 9.0, hz);
        assert!(cents.abs() < 0.001, "{hz}: {cents}");
    }
}

#[test]
fn nothing_sounds_but_its_partials() {
    // At a low rate, where whatever is made too high would fold back and be heard.
    for (hz, rate) in [(997.0, 8_000), (113.0, 8_000), (1499.0, 44_100)] {
        let touch = Touch { level: 1.0, ..Touch::default() };
        let samples = render(&Mix::new(vec![note(hz, 2.6, touch)]).unwrap(), rate, 1.0).unwrap();
        let (bins, step) = ear::spectrum(steady(&samples, rate), f64::from(rate));
        let most = bins.iter().copied().fold(f64::MIN, f64::max);
        for (bin, db) in bins.iter().enumerate() {
            let at = bin as f64 * step;
            let from_partial = (at / hz - (at / hz).round()).abs() * hz;
            let may = from_partial < 5.0 && at > hz * 0.5 && at < f64::from(rate) * 0.45 + 5.0;
            assert!(may || db - most < -70.0, "{hz}: {:.1} dB at {at:.1} Hz", db - most);
        }
    }
}

#[test]
fn the_louder_the_brighter() {
    // How far the tenth partial stands below the fundamental.
    let tenth = |level: f64, colour: Colour| {
        let mix = Mix::new(vec![note(200.0, 1.0, Touch { level, colour })]).unwrap();
        let samples = render(&mix, 48_000, 0.6).unwrap();
        let at = |hz: f64| ear::near(&samples, 48_000.0, hz, 20_000, 20_000).0;
        20.0 * (at(2000.0) / at(200.0)).log10()
    };
    let [soft, middle, loud] = [0.1, 0.5, 1.0].map(|level| tenth(level, Colour::Brass));
    assert!(soft + 6.0 < middle && middle + 3.0 < loud, "{soft} {middle} {loud}");
    assert!(loud < -6.0, "{loud}: warm, not shrill");
    let plain = [0.1, 1.0].map(|level| tenth(level, Colour::Plain));
    assert!(plain[0] < -60.0 && plain[1] < -60.0, "{plain:?}");
}
