//! Listens to a rendered buffer, and knows nothing of how it was made.

#![allow(clippy::unwrap_used, reason = "a test may panic, its helpers too")]
#![allow(dead_code, reason = "each file of tests uses a part of it")]

use rustfft::{FftPlanner, num_complex::Complex};
use std::f64::consts::TAU;

/// What stands at a frequency: Hz, and level in dB against a full sine.
#[derive(Clone, Copy, Debug)]
pub struct Peak {
    pub hz: f64,
    pub db: f64,
}

/// A four-term window whose side lobes lie 92 dB down. Source: F. J. Harris 1978.
fn window(place: usize, length: usize) -> f64 {
    let turn = TAU * place as f64 / length as f64;
    0.35875 - 0.48829 * turn.cos() + 0.14128 * (2.0 * turn).cos() - 0.01168 * (3.0 * turn).cos()
}

/// Magnitudes in dB against a full sine from 0 Hz up, and the Hz from one to the next.
pub fn spectrum(samples: &[f32], rate: f64) -> (Vec<f64>, f64) {
    let length = (samples.len() * 2).next_power_of_two();
    let mut buffer: Vec<Complex<f64>> = samples
        .iter()
        .enumerate()
        .map(|(place, sample)| Complex::new(f64::from(*sample) * window(place, samples.len()), 0.0))
        .collect();
    buffer.resize(length, Complex::new(0.0, 0.0));
    FftPlanner::new().plan_fft_forward(length).process(&mut buffer);
    let full = samples.len() as f64 * 0.35875 / 2.0;
    let db = |bin: &Complex<f64>| 20.0 * (bin.norm() / full).max(1e-12).log10();
    (buffer.iter().take(length / 2).map(db).collect(), rate / length as f64)
}

/// The peaks between two frequencies that stand less than 60 dB below the highest there, from low to high.
pub fn peaks(samples: &[f32], rate: f64, low: f64, high: f64) -> Vec<Peak> {
    let (bins, step) = spectrum(samples, rate);
    let range = (low / step).ceil().max(1.0) as usize..((high / step) as usize).min(bins.len() - 2);
    let most = range.clone().map(|bin| bins[bin]).fold(f64::MIN, f64::max);
    range
        .filter(|&bin| bins[bin] > bins[bin - 1] && bins[bin] >= bins[bin + 1] && bins[bin] > most - 60.0)
        .map(|bin| {
            // The top of the parabola through three bins.
            let (left, here, right) = (bins[bin - 1], bins[bin], bins[bin + 1]);
            let off = 0.5 * (left - right) / (left - 2.0 * here + right);
            Peak { hz: (bin as f64 + off) * step, db: here - 0.25 * (left - right) * off }
        })
        .collect()
}

/// The wave near one frequency as amplitude and phase in turns, over a window that begins at a sample.
pub fn near(samples: &[f32], rate: f64, hz: f64, begin: usize, length: usize) -> (f64, f64) {
    let mut sum = Complex::new(0.0, 0.0);
    for (place, sample) in samples[begin..begin + length].iter().enumerate() {
        let turns = hz * (begin + place) as f64 / rate;
        sum += Complex::from_polar(f64::from(*sample) * window(place, length), -TAU * turns);
    }
    (sum.norm() / (length as f64 * 0.35875 / 2.0), sum.arg() / TAU)
}

/// How often a second the wave near a frequency swells and fades.
pub fn beating(samples: &[f32], rate: f64, hz: f64) -> f64 {
    let (length, every) = ((rate * 0.03) as usize, (rate * 0.005) as usize);
    let begins = (0..samples.len() - length).step_by(every);
    let envelope: Vec<f64> = begins.map(|begin| near(samples, rate, hz, begin, length).0).collect();
    let mean = envelope.iter().sum::<f64>() / envelope.len() as f64;
    let swell: Vec<f32> = envelope.iter().map(|value| (value - mean) as f32).collect();
    let found = peaks(&swell, rate / every as f64, 0.3, 60.0);
    found.iter().max_by(|a, b| a.db.total_cmp(&b.db)).unwrap().hz
}

/// Effective value.
pub fn effective(samples: &[f32]) -> f64 {
    let power: f64 = samples.iter().map(|sample| f64::from(*sample).powi(2)).sum();
    (power / samples.len() as f64).sqrt()
}

/// The highest sample, without its sign.
pub fn highest(samples: &[f32]) -> f32 {
    samples.iter().fold(0.0, |most, sample| most.max(sample.abs()))
}

/// Cents between two frequencies.
pub fn cents(hz: f64, against: f64) -> f64 {
    1200.0 * (hz / against).ln() / std::f64::consts::LN_2
}
