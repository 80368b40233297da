//! Sixteen at once stay within bounds and stay clean; two are not touched.

#![allow(clippy::unwrap_used, reason = "a test may panic, its helpers too")]

mod ear;

use crookwise_sound::{CEILING, Colour, Mix, Tone, Touch, column, note, render};

const RATE: u32 = 24_000;
const LOUD: Touch = Touch { level: 1.0, colour: Colour::Brass };
/// A tutti in E-flat, sixteen players on fifteen notes, none of them tempered.
const TUTTI: [f64; 16] = [
    77.9, 116.6, 155.4, 155.6, 195.1, 233.0, 233.4, 272.0, 310.9, 311.4, 389.0, 466.0, 466.9, 583.0, 622.3,
    777.0,
];

fn sound(tones: Vec<Tone>, volume: f64) -> Vec<f32> {
    render(&Mix::new(tones).unwrap(), RATE, volume).unwrap()
}

/// The same without a limiter: so soft that it is never held down, then made as loud.
fn bare(tones: &[Tone], volume: f64) -> Vec<f32> {
    sound(tones.to_vec(), volume * 0.1).into_iter().map(|sample| sample * 100.0).collect()
}

/// Eight players on each note of the tutti.
fn crowded() -> Vec<f64> {
    TUTTI.iter().flat_map(|hz| [*hz; 8]).collect()
}

#[test]
fn no_sample_above_the_ceiling() {
    let crowd = |count: usize, hz: f64| vec![note(hz, 1.5, LOUD); count];
    let mut burst = crowd(1, 233.0);
    burst.extend(column(&crowded(), 0.5, LOUD).into_iter().map(|tone| Tone { start: 0.7, ..tone }));
    for tones in [
        column(&crowded(), 2.0, LOUD),
        crowd(16, 233.0),
        crowd(64, 1500.0),
        crowd(64, 31.0),
        burst,
        // Too short to begin softly: the hardest to see coming.
        vec![note(700.0, 0.004, LOUD); 64],
    ] {
        let free = ear::highest(&bare(&tones, 1.0));
        let most = ear::highest(&sound(tones, 1.0));
        assert!(free > 1.2, "{free}: would need no limiter");
        assert!(most <= CEILING && most > 0.7, "{most} of {free}");
    }
}

#[test]
fn a_little_too_loud_is_too_loud() {
    // From one player to twelve on one note: from well within to just above to above.
    let free = |count: usize| ear::highest(&bare(&vec![note(233.0, 0.5, LOUD); count], 1.0));
    assert!(free(1) < CEILING && free(8) > CEILING && free(12) < 1.5);
    for count in 1..=12 {
        let most = ear::highest(&sound(vec![note(233.0, 0.5, LOUD); count], 1.0));
        assert!(most <= CEILING, "{count}: {most}");
    }
}

#[test]
fn two_who_beat_are_not_held_down() {
    for pair in [[327.03, 329.63], [58.27, 58.5], [440.0, 660.9]] {
        let tones = column(&pair, 2.0, LOUD);
        let (free, held) = (bare(&tones, 1.0), sound(tones, 1.0));
        let off = free.iter().zip(&held).map(|(free, held)| (free - held).abs()).fold(0.0, f32::max);
        assert!(off < 1e-5, "{pair:?}: {off}");
    }
}

#[test]
fn sixteen_at_the_usual_volume_need_no_limiter() {
    let tones = column(&TUTTI, 3.0, Touch::default());
    let (free, held) =
        (bare(&tones, crookwise_sound::DEFAULT_VOLUME), sound(tones, crookwise_sound::DEFAULT_VOLUME));
    assert!(ear::highest(&free) < CEILING);
    assert!(free.iter().zip(&held).all(|(free, held)| (free - held).abs() < 1e-5));
}

#[test]
fn a_loud_crowd_stays_clean() {
    // All begun alike, which is the hardest: every other one is silent.
    let silent = Tone { level: 0.0, ..note(100.0, 0.001, LOUD) };
    let tones: Vec<Tone> =
        column(&crowded(), 4.0, LOUD).into_iter().flat_map(|tone| [tone, silent]).collect();
    let (free, held) = (bare(&tones, 1.0), sound(tones, 1.0));
    let piece = RATE as usize / 10;
    let (mut gains, mut left_over) = (Vec::new(), Vec::new());
    for begin in (RATE as usize / 2..free.len() - RATE as usize / 2).step_by(piece) {
        let (free, held) = (&free[begin..begin + piece], &held[begin..begin + piece]);
        // The steady gain that fits best, and what is left over: that is what was added to the music.
        let dot = |a: &[f32], b: &[f32]| -> f64 { a.iter().zip(b).map(|(a, b)| f64::from(a * b)).sum() };
        let gain = dot(free, held) / dot(free, free);
        let left: Vec<f32> = free.iter().zip(held).map(|(free, held)| held - gain as f32 * free).collect();
        let added = 20.0 * (ear::effective(&left) / ear::effective(held)).log10();
        assert!(added < -36.0, "{added} dB");
        left_over.push(added);
        gains.push(20.0 * gain.log10());
    }
    // Most of the time the gain does not move at all.
    assert!(
        left_over.iter().filter(|added| **added < -80.0).count() > left_over.len() * 2 / 3,
        "{left_over:?}"
    );
    let range =
        gains.iter().fold((0.0, -100.0), |(low, high), gain| (f64::min(low, *gain), f64::max(high, *gain)));
    assert!(range.1 < -1.0, "{gains:?}: was held down");
    assert!(range.1 - range.0 < 2.0, "{range:?}: breathes");
}

#[test]
fn comes_back_after_the_crowd() {
    let mut tones = column(&crowded(), 1.0, LOUD);
    tones.push(Tone { start: 0.0, ..note(200.0, 9.0, Touch { level: 0.3, colour: Colour::Plain }) });
    let (free, held) = (bare(&tones, 1.0), sound(tones, 1.0));
    let at = |seconds: f64| (seconds * f64::from(RATE)) as usize;
    let gain = |begin: f64, end: f64| {
        ear::effective(&held[at(begin)..at(end)]) / ear::effective(&free[at(begin)..at(end)])
    };
    assert!(gain(0.3, 0.9) < 0.7 && gain(1.05, 1.15) < 0.8 && gain(8.0, 8.9) > 0.99);
}
