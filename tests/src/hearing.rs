//! What a page plays, taken from the browser and measured.

use crate::page::Page;
use crate::wait;
use anyhow::{Context, Result, bail};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde_json::Value;
use std::f64::consts::TAU;

/// A stand-in that listens to what the page plays; see [`Page::stand_in`]. Nothing is changed for the page.
pub const LISTEN: &str = include_str!("scripts/listen.js");
const HEARD: &str = include_str!("scripts/heard.js");

/// What a page played, as one line of samples.
#[derive(Clone, Debug)]
pub struct Heard {
    /// The samples, as an offline context of the browser puts the pieces together.
    pub samples: Vec<f32>,
    /// Where each piece begins and how long it is, in samples.
    pub pieces: Vec<(f64, f64)>,
    /// Samples a second.
    pub rate: f64,
    /// How often something was faded out since it was last asked.
    pub faded: u64,
    /// By how many seconds a piece was handed over after it should have begun; negative where none was.
    pub late: f64,
}

impl Heard {
    /// Seconds of sound.
    pub fn seconds(&self) -> f64 {
        self.samples.len() as f64 / self.rate
    }

    /// The samples between two moments in seconds.
    ///
    /// # Panics
    /// Where so much was not heard.
    pub fn between(&self, begin: f64, end: f64) -> &[f32] {
        let place = |seconds: f64| (seconds * self.rate) as usize;
        &self.samples[place(begin)..place(end)]
    }

    /// The largest sample, either way.
    pub fn peak(&self) -> f32 {
        peak(&self.samples)
    }

    /// The effective value between two moments in seconds.
    pub fn loudness(&self, begin: f64, end: f64) -> f64 {
        let samples = self.between(begin, end);
        (samples.iter().map(|sample| f64::from(*sample).powi(2)).sum::<f64>() / samples.len() as f64).sqrt()
    }

    /// The fundamental of a tone in Hz, near to this one, between two moments in seconds at least 0.6 s apart: from how
    /// far its phase turns from the first third to the last, each looked at through a Hann window, so that its other
    /// partials are not seen.
    pub fn fundamental(&self, near: f64, begin: f64, end: f64) -> f64 {
        let samples = self.between(begin, end);
        let window = samples.len() / 3;
        // First over a short way, on which no turn can be miscounted, then over a long one.
        let mut hz = near;
        for way in [window / 40, window / 8, window / 2, window * 2] {
            let turned = self.phase(&samples[way..way + window], hz) - self.phase(&samples[..window], hz);
            // The phase of the reference itself, which begins anew with each window.
            let reference = TAU * hz * way as f64 / self.rate;
            let rest = (turned - reference + TAU * 1e6 + TAU / 2.0).rem_euclid(TAU) - TAU / 2.0;
            hz += rest * self.rate / (TAU * way as f64);
        }
        hz
    }

    /// The phase of what sounds at a frequency at the begin of these samples.
    fn phase(&self, samples: &[f32], hz: f64) -> f64 {
        let (mut real, mut imaginary) = (0.0, 0.0);
        for (at, sample) in samples.iter().enumerate() {
            let share = at as f64 / samples.len() as f64;
            let value = f64::from(*sample) * (0.5 - 0.5 * (TAU * share).cos());
            let angle = TAU * hz * at as f64 / self.rate;
            real += value * libm::cos(angle);
            imaginary -= value * libm::sin(angle);
        }
        imaginary.atan2(real)
    }
}

/// The largest of these samples, either way.
pub fn peak(samples: &[f32]) -> f32 {
    samples.iter().fold(0.0, |most, sample| most.max(sample.abs()))
}

/// How far one frequency lies over another, in cents.
pub fn cents(hz: f64, over: f64) -> f64 {
    1200.0 * libm::log2(hz / over)
}

impl Page {
    /// Waits until so many seconds of what was wished for since this was last asked were handed to the browser, and
    /// takes them. What an older wish has still given meanwhile is left out. The page must have been loaded with
    /// [`LISTEN`].
    ///
    /// # Errors
    /// When so much does not come.
    pub async fn heard(&self, seconds: f64) -> Result<Heard> {
        let ready = "const { pieces, rate, taken } = window.__crookwiseHeard;
            const fresh = pieces.filter((piece) => !taken.has(piece.knob));
            return fresh.reduce((sum, piece) => sum + piece.samples.length, 0) / (rate || 1)";
        let what = format!("{seconds} seconds of sound");
        wait::until(&what, async || {
            let there = self.eval(ready, vec![]).await?.as_f64().unwrap_or(0.0);
            Ok((there >= seconds - 0.001).then_some(()))
        })
        .await?;
        self.take_heard(true).await
    }

    /// Takes what was handed to the browser so far, whoever wished for it.
    ///
    /// # Errors
    /// Where it cannot be put together.
    pub async fn heard_so_far(&self) -> Result<Heard> {
        self.take_heard(false).await
    }

    async fn take_heard(&self, fresh: bool) -> Result<Heard> {
        let answer = self.promised(&format!("const fresh = {fresh};\n{HEARD}")).await?;
        let text = answer["samples"].as_str().context("no samples")?;
        let bytes = STANDARD.decode(text).map_err(|problem| anyhow::anyhow!("the samples: {problem}"))?;
        let samples =
            bytes.chunks_exact(4).map(|four| f32::from_le_bytes([four[0], four[1], four[2], four[3]]));
        let number = |value: &Value| value.as_f64().unwrap_or(f64::NAN);
        let pieces = answer["pieces"].as_array().into_iter().flatten();
        Ok(Heard {
            samples: samples.collect(),
            pieces: pieces.map(|piece| (number(&piece[0]), number(&piece[1]))).collect(),
            rate: number(&answer["rate"]),
            faded: answer["faded"].as_u64().unwrap_or(0),
            late: answer["late"].as_f64().unwrap_or(f64::NEG_INFINITY),
        })
    }

    /// Fails where a piece does not begin exactly where the one before it ends, to a hundredth of a sample, or was handed
    /// over when it should have begun already.
    ///
    /// # Errors
    /// With the two pieces, or how late it was.
    pub fn contiguous(heard: &Heard) -> Result<()> {
        // The clock may have run on by a little since the page looked at it.
        if heard.late > 0.01 {
            bail!("a piece was handed over {} s after its beginning", heard.late);
        }
        for pair in heard.pieces.windows(2) {
            let gap = pair[1].0 - (pair[0].0 + pair[0].1);
            if gap.abs() > 0.01 {
                bail!("{gap} samples lie between two pieces: {pair:?}");
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two seconds of a tone with ten partials.
    fn tone(hz: f64) -> Heard {
        let rate = 44_100.0;
        let sample = |at: u32| {
            let turn = TAU * hz * f64::from(at) / rate;
            (1..=10).map(|partial| libm::sin(f64::from(partial) * turn) / 20.0).sum::<f64>() as f32
        };
        Heard { samples: (0..88_200).map(sample).collect(), pieces: vec![], rate, faded: 0, late: -0.03 }
    }

    #[test]
    fn a_fundamental_is_measured_to_a_hundredth_of_a_cent() {
        for hz in [65.4, 155.563, 388.909, 932.3] {
            for off in [-40.0, 0.0, 14.0] {
                let near = hz * libm::exp2(off / 1200.0);
                let found = tone(hz).fundamental(near, 0.3, 1.8);
                assert!(cents(found, hz).abs() < 0.01, "{found} for {hz} from {near}");
            }
        }
    }
}
