//! Soft starts and ends, silence outside, held notes, volume, and the same bytes every time.

#![allow(clippy::unwrap_used, reason = "a test may panic, its helpers too")]

mod ear;

use crookwise_sound::{
    Act, Colour, Mix, SoundColumn, SoundError, Synth, Tone, Touch, alternate, column, note, passage, render,
};

const RATE: u32 = 48_000;
const LOUD: Touch = Touch { level: 1.0, colour: Colour::Brass };

fn sound(tones: Vec<Tone>) -> Vec<f32> {
    render(&Mix::new(tones).unwrap(), RATE, 0.6).unwrap()
}

/// The greatest step from one sample to the next.
fn step(samples: &[f32]) -> f32 {
    samples.windows(2).map(|pair| (pair[1] - pair[0]).abs()).fold(0.0, f32::max)
}

fn at(seconds: f64) -> usize {
    (seconds * f64::from(RATE)) as usize
}

#[test]
fn starts_and_ends_are_soft() {
    for hz in [58.27, 233.08, 880.0, 1500.0] {
        let mut samples = vec![0.0];
        samples.extend(sound(vec![note(hz, 1.0, LOUD)]));
        samples.push(0.0);
        let steady = &samples[at(0.4)..at(0.8)];
        // The start is a little brighter and so a little steeper, but nowhere near a click.
        let most = step(steady);
        assert!(step(&samples) < most * 1.25, "{hz}: {} against {most}", step(&samples));
        let full = ear::highest(steady);
        assert!(ear::highest(&samples[..at(0.005)]) < full * 0.05, "{hz}");
        assert!(ear::highest(&samples[..at(0.02)]) < full * 0.4, "{hz}");
        assert!(ear::highest(&samples[..at(0.04)]) < full * 0.9, "{hz}");
        assert!(ear::highest(&samples[at(0.06)..at(0.1)]) > full * 0.8, "{hz}");
        assert!(ear::highest(&samples[at(0.98)..]) < full * 0.4, "{hz}");
        assert!(ear::highest(&samples[at(0.999)..]) < full * 0.01, "{hz}");
    }
}

#[test]
fn the_start_is_brighter_for_a_moment() {
    let samples = sound(vec![note(220.0, 1.0, Touch::default())]);
    let bright = |begin: f64| {
        let partial = |number: f64| ear::near(&samples, 48_000.0, 220.0 * number, at(begin), at(0.04)).0;
        partial(8.0) / partial(1.0)
    };
    let (start, steady) = (bright(0.06), bright(0.5));
    assert!(start > steady * 1.03 && start < steady * 1.5, "{start} {steady}");
}

#[test]
fn even_the_shortest_tone_does_not_click() {
    for length in [0.005, 0.02, 0.1] {
        let samples = sound(vec![note(440.0, length, LOUD)]);
        let steady = sound(vec![note(440.0, 1.0, LOUD)]);
        assert!(ear::highest(&samples) > 0.01);
        assert!(step(&samples) < step(&steady[at(0.4)..at(0.8)]) * 1.25, "{length}");
        assert!(samples[0].abs() < 1e-3 && samples[samples.len() - 1].abs() < 1e-2, "{length}");
    }
}

#[test]
fn silent_outside() {
    let tone = Tone { start: 0.5, ..note(300.0, 0.5, LOUD) };
    let mix = Mix::new(vec![tone, Tone { start: 1.2, ..tone }]).unwrap();
    assert!((mix.seconds() - 1.7).abs() < 1e-12);
    let mut samples = vec![1.0; at(2.5)];
    Synth::new(&mix, RATE, 1.0).unwrap().fill(&mut samples);
    for silent in [0..at(0.5), at(1.0)..at(1.2), at(1.7)..samples.len()] {
        assert!(samples[silent.clone()].iter().all(|sample| *sample == 0.0), "{silent:?}");
    }
    assert!(ear::effective(&samples[at(0.6)..at(0.9)]) > 0.05);
    assert!(ear::effective(&samples[at(1.3)..at(1.6)]) > 0.05);
    assert_eq!(render(&Mix::default(), RATE, 1.0).unwrap(), Vec::<f32>::new());
}

#[test]
fn a_held_note_is_one_tone() {
    let acts = |upper: Act| SoundColumn { seconds: 0.5, acts: vec![Act::Note(220.0, LOUD), upper] };
    let lower_only = |act: Act| SoundColumn { seconds: 0.5, acts: vec![act] };
    let held = passage(&[lower_only(Act::Note(220.0, LOUD)), lower_only(Act::Held), lower_only(Act::Held)]);
    assert_eq!(held, [note(220.0, 1.5, LOUD)]);
    let again = passage(&[acts(Act::Rest), acts(Act::Rest), acts(Act::Rest)]);
    assert_eq!(again.len(), 3);
    let level =
        |samples: &[f32], middle: f64| ear::effective(&samples[at(middle - 0.005)..at(middle + 0.005)]);
    let (held, again) = (sound(held), sound(again));
    for border in [0.5, 1.0] {
        assert!((level(&held, border) / level(&held, 0.75) - 1.0).abs() < 0.1, "held through {border}");
        assert!(level(&again, border) < level(&again, 0.75) * 0.2, "new at {border}");
    }
}

#[test]
fn players_hold_and_rest_each_for_themselves() {
    let column = |seconds, acts: &[Act]| SoundColumn { seconds, acts: acts.to_vec() };
    let tones = passage(&[
        column(0.5, &[Act::Held, Act::Note(300.0, LOUD), Act::Note(400.0, LOUD)]),
        column(0.25, &[Act::Note(200.0, LOUD), Act::Held, Act::Rest]),
        column(1.0, &[Act::Held, Act::Note(310.0, LOUD), Act::Held]),
        column(0.5, &[Act::Held]),
    ]);
    let found: Vec<(f64, f64, f64)> = tones.iter().map(|tone| (tone.hz, tone.start, tone.length)).collect();
    assert_eq!(
        found,
        [(300.0, 0.0, 0.75), (400.0, 0.0, 0.5), (200.0, 0.5, 1.75), (310.0, 0.75, 1.0)],
        "nothing to hold is silence, a rest ends what could be held"
    );
}

#[test]
fn in_turn_with_gaps() {
    let (one, other) = (column(&[200.0, 300.0], 1.0, LOUD), column(&[201.0], 0.5, LOUD));
    let tones = alternate(&one, &other, 2, 0.25);
    let found: Vec<(f64, f64)> = tones.iter().map(|tone| (tone.hz, tone.start)).collect();
    assert_eq!(found, [(200.0, 0.0), (300.0, 0.0), (201.0, 1.25), (200.0, 2.0), (300.0, 2.0), (201.0, 3.25)]);
    assert_eq!(alternate(&one, &other, 0, 0.25).len(), 3, "at least once");
    assert!(alternate(&one, &other, usize::MAX, 0.0).len() <= crookwise_sound::MOST_TONES);
    assert_eq!(alternate(&[], &[], 5, 0.0), []);
}

#[test]
fn louder_with_more_volume_and_more_level() {
    let level = |level: f64, volume: f64| {
        let mix = Mix::new(vec![note(233.0, 0.6, Touch { level, ..LOUD })]).unwrap();
        ear::effective(&render(&mix, RATE, volume).unwrap()[at(0.3)..at(0.5)])
    };
    let steps = (0..=20).map(|step| f64::from(step) / 20.0);
    let by_volume: Vec<f64> = steps.clone().map(|volume| level(0.7, volume)).collect();
    let by_level: Vec<f64> = steps.map(|own| level(own, 0.7)).collect();
    assert_eq!((by_volume[0], by_level[0]), (0.0, 0.0));
    assert!(by_volume.is_sorted_by(|a, b| a < b), "{by_volume:?}");
    assert!(by_level.is_sorted_by(|a, b| a < b), "{by_level:?}");
    assert_eq!(level(0.7, 7.0).to_bits(), level(0.7, 1.0).to_bits());
    assert_eq!(level(0.7, f64::NAN).to_bits(), 0.0_f64.to_bits());
    // Soft, unless somebody chose otherwise: one player at his loudest, against a full sine.
    let usual = 20.0 * (level(1.0, crookwise_sound::DEFAULT_VOLUME) * 2.0_f64.sqrt()).log10();
    assert!((-24.0..-18.0).contains(&usual), "{usual}");
}

/// A few seconds with all there is in it.
fn scene() -> Mix {
    let chord = column(&[116.5, 233.1, 293.7, 349.2, 466.2], 0.8, LOUD);
    let plain = column(&[116.5, 231.0], 0.8, Touch { level: 0.4, colour: Colour::Plain });
    Mix::new(alternate(&chord, &plain, 2, 0.03)).unwrap()
}

#[test]
fn the_same_bytes_every_time_and_on_every_machine() {
    let print = |samples: &[f32]| {
        samples
            .iter()
            .flat_map(|sample| sample.to_bits().to_le_bytes())
            .fold(0xcbf2_9ce4_8422_2325_u64, |sum, byte| {
                (sum ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
            })
    };
    let once = print(&render(&scene(), 44_100, 0.9).unwrap());
    assert_eq!(once, print(&render(&scene(), 44_100, 0.9).unwrap()));
    // Changes whenever the sound does; then put the new number here, after listening.
    assert_eq!(once, 0x2758_9ebd_4fac_1e8e, "{once:#018x}");
}

#[test]
fn the_same_in_pieces() {
    let whole = render(&scene(), 44_100, 0.9).unwrap();
    for size in [1, 7, 128, 1000, 44_100] {
        let mut synth = Synth::new(&scene(), 44_100, 0.9).unwrap();
        let mut pieces = vec![0.0; whole.len()];
        pieces.chunks_mut(size).for_each(|piece| synth.fill(piece));
        assert!(pieces == whole, "pieces of {size}");
    }
}

#[test]
fn the_order_of_the_list_does_not_matter_in_time() {
    let early = note(220.0, 0.3, LOUD);
    let late = Tone { start: 0.2, ..note(330.0, 0.3, LOUD) };
    assert_eq!(sound(vec![early, late]), sound(vec![late, early]));
}

#[test]
fn what_cannot_sound_is_refused_with_a_sentence() {
    let good = note(440.0, 1.0, LOUD);
    let bad = [
        Tone { hz: 0.0, ..good },
        Tone { hz: f64::NAN, ..good },
        Tone { hz: f64::INFINITY, ..good },
        Tone { hz: 30_000.0, ..good },
        Tone { start: -0.1, ..good },
        Tone { start: f64::NAN, ..good },
        Tone { length: 0.0, ..good },
        Tone { length: f64::INFINITY, ..good },
        Tone { length: f64::NAN, ..good },
        Tone { level: 1.1, ..good },
        Tone { level: f64::NAN, ..good },
    ];
    for tone in bad {
        assert_eq!(Mix::new(vec![good, tone]), Err(SoundError::Unplayable(1)), "{tone:?}");
    }
    assert_eq!(SoundError::Unplayable(1).to_string(), "Tone 2 lies outside what can be heard.");
    for late in [Tone { start: 899.5, ..good }, Tone { start: f64::INFINITY, ..good }] {
        assert_eq!(Mix::new(vec![late]), Err(SoundError::TooLong));
    }
    assert_eq!(Mix::new(vec![good; 4097]), Err(SoundError::TooManyTones(4097)));
    for rate in [0, 7_999, 192_001, u32::MAX] {
        assert_eq!(render(&Mix::default(), rate, 0.5), Err(SoundError::SampleRate(rate)));
    }
    // Higher than the rate can carry: silent, and no more than that.
    let high = Mix::new(vec![note(4_100.0, 0.2, LOUD)]).unwrap();
    assert!(render(&high, 8_000, 1.0).unwrap().iter().all(|sample| *sample == 0.0));
}
