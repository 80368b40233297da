//! From a mix to samples: all at once, or piece by piece while it is heard.

use crate::limiter::{AHEAD, HOP, Hop, Limiter};
use crate::spectrum::Sine;
use crate::tone::{Mix, SoundError, Tone};
use crate::voice::{Voice, sample};
use core::ops::RangeInclusive;

/// Samples a second that can be made, as far as browsers go.
pub const SAMPLE_RATES: RangeInclusive<u32> = 8_000..=192_000;
/// The volume of somebody who has chosen none: soft.
pub const DEFAULT_VOLUME: f64 = 0.6;
/// Amplitude of one player at level 1 and volume 1, as the effective value of a sine: two fit under the limiter
/// at any phase, so that two who beat are never held down.
const PLAYER: f64 = 0.25;

/// Makes the samples of a mix from its beginning on, in pieces of any size, always the same. One channel: beats
/// are made in the air, and must be heard with headphones too.
#[derive(Clone, Debug)]
pub struct Synth {
    /// What has not begun, the last to begin first.
    coming: Vec<Tone>,
    voices: Vec<Voice>,
    sine: Sine,
    rate: f64,
    gain: f32,
    limiter: Limiter,
    /// The sample that is mixed next.
    at: u64,
    /// The hop that is given out, and how much of it has been.
    hop: Hop,
    given: usize,
}

impl Synth {
    /// Ready to give the first sample. `volume` runs from 0 to 1 and is kept there; the amplitude goes with its
    /// square, as a knob is expected to.
    ///
    /// # Errors
    /// [`SoundError::SampleRate`] outside [`SAMPLE_RATES`].
    pub fn new(mix: &Mix, sample_rate: u32, volume: f64) -> Result<Self, SoundError> {
        if !SAMPLE_RATES.contains(&sample_rate) {
            return Err(SoundError::SampleRate(sample_rate));
        }
        let volume = if volume.is_nan() { 0.0 } else { volume.clamp(0.0, 1.0) };
        let rate = f64::from(sample_rate);
        let mut synth = Self {
            coming: mix.tones().iter().rev().copied().collect(),
            voices: Vec::new(),
            sine: Sine::new(),
            rate,
            gain: (PLAYER * volume * volume) as f32,
            limiter: Limiter::new(rate),
            at: 0,
            hop: [0.0; HOP],
            given: HOP,
        };
        // What the limiter holds back at first is silence before the beginning.
        for _ in 0..AHEAD {
            synth.next_hop();
        }
        Ok(synth)
    }

    /// Fills a piece with the next samples; silence after the end.
    pub fn fill(&mut self, out: &mut [f32]) {
        for sample in out {
            if self.given >= HOP {
                self.hop = self.next_hop();
                self.given = 0;
            }
            *sample = self.hop.get(self.given).copied().unwrap_or(0.0);
            self.given += 1;
        }
    }

    fn next_hop(&mut self) -> Hop {
        let end = self.at.saturating_add(HOP as u64);
        while let Some(tone) = self.coming.pop_if(|tone| sample(tone.start, self.rate) < end) {
            self.voices.push(Voice::new(&tone, &self.sine, self.rate));
        }
        let mut hop = [0.0; HOP];
        for voice in &self.voices {
            voice.add_to(&mut hop, self.at);
        }
        hop.iter_mut().for_each(|sample| *sample *= self.gain);
        self.at = end;
        self.voices.retain(|voice| !voice.is_over(end));
        self.limiter.exchange(hop)
    }
}

/// All samples of a mix, from its beginning to the end of its last tone. Volume as in [`Synth::new`].
///
/// # Errors
/// [`SoundError::SampleRate`] outside [`SAMPLE_RATES`].
pub fn render(mix: &Mix, sample_rate: u32, volume: f64) -> Result<Vec<f32>, SoundError> {
    let mut synth = Synth::new(mix, sample_rate, volume)?;
    let mut samples = vec![0.0; sample(mix.seconds(), f64::from(sample_rate)) as usize];
    synth.fill(&mut samples);
    Ok(samples)
}
