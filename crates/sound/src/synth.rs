//! From a mix to samples: all at once, or piece by piece while it is heard.

use crate::limiter::{AHEAD, HOP, Hop, Limiter};
use crate::spectrum::{Sine, overtones};
use crate::tone::{Mix, SoundError, Tone};
use crate::voice::{Voice, sample};
use core::ops::RangeInclusive;
use crookwise_theory::order::put_in_order;

/// Samples a second that can be made, as far as browsers go.
pub const SAMPLE_RATES: RangeInclusive<u32> = 8_000..=192_000;
/// The volume of somebody who has chosen none: soft.
pub const DEFAULT_VOLUME: f64 = 0.6;
/// Amplitude of one player alone at level 1 and volume 1, as the effective value of a sine; of `n` players at once each has
/// this divided by √n. So as many as there may be have together the power of one, and stay under the limiter, which two who
/// beat never reach at any phase. Where players share a note, the power of the sum grows, but players begin by turns a quarter
/// of a turn apart (`spectrum.rs`): twelve on one note are 20·lg(√72 / √12) = 7.8 dB louder than one alone, which is
/// the most that twelve can be. How many there are is counted once for a whole mix: nothing follows the sound, and within a passage each
/// note is as loud as it was played.
const PLAYER: f64 = 0.34;

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
    /// How many tones have begun.
    begun: u32,
    /// The sample that is mixed next.
    at: u64,
    /// The hop that is given out, and how much of it has been.
    hop: Hop,
    given: usize,
    /// Whether the limiter holds what comes first.
    is_warm: bool,
}

impl Synth {
    /// Ready to give the first sample. `volume` runs from 0 to 1 and is kept there; the amplitude goes with its
    /// square, as a knob is expected to.
    ///
    /// # Errors
    /// [`SoundError::SampleRate`] outside [`SAMPLE_RATES`].
    pub fn new(mix: &Mix, sample_rate: u32, volume: f64) -> Result<Self, SoundError> {
        let mut synth = Self::open(at_once(mix), sample_rate, volume)?;
        synth.coming.extend(mix.tones().iter().rev());
        Ok(synth)
    }

    /// Ready for tones that are told while it goes on ([`Synth::add`]); they are as loud as those of a mix that has so many of them
    /// at once where it has most. Volume as in [`Synth::new`].
    ///
    /// # Errors
    /// [`SoundError::SampleRate`] outside [`SAMPLE_RATES`].
    pub fn open(at_once: usize, sample_rate: u32, volume: f64) -> Result<Self, SoundError> {
        if !SAMPLE_RATES.contains(&sample_rate) {
            return Err(SoundError::SampleRate(sample_rate));
        }
        let volume = if volume.is_nan() { 0.0 } else { volume.clamp(0.0, 1.0) };
        let rate = f64::from(sample_rate);
        Ok(Self {
            coming: Vec::new(),
            voices: Vec::new(),
            sine: Sine::new(),
            rate,
            gain: (PLAYER * volume * volume / libm::sqrt(at_once.max(1) as f64)) as f32,
            limiter: Limiter::new(rate),
            begun: 0,
            at: 0,
            hop: [0.0; HOP],
            given: HOP,
            is_warm: false,
        })
    }

    /// Adds tones that begin where nothing was filled yet, told from the beginning of all, in seconds. What lies outside the
    /// ranges of [`Tone`] is nothing that anybody would hear, and is left out.
    pub fn add(&mut self, tones: Vec<Tone>) {
        self.coming.reverse();
        self.coming.extend(tones.into_iter().filter(Tone::is_playable));
        // None begins before the beginning, and such numbers are in the order of their bits.
        put_in_order(&mut self.coming, |tone| tone.start.to_bits());
        self.coming.reverse();
    }

    /// What the limiter holds back at first is silence before the beginning.
    fn warm_up(&mut self) {
        if !core::mem::replace(&mut self.is_warm, true) {
            for _ in 0..AHEAD {
                self.next_hop();
            }
        }
    }

    /// Fills a piece with the next samples; silence after the end.
    pub fn fill(&mut self, out: &mut [f32]) {
        self.warm_up();
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
            let later = f64::from(self.begun % 2) * 0.25;
            self.begun += 1;
            for overtone in overtones(tone.colour) {
                self.voices.push(Voice::new(&tone, *overtone, &self.sine, self.rate, later));
            }
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

/// How many tones a mix has at once where it has most, at least one.
fn at_once(mix: &Mix) -> usize {
    let (mut most, mut ends) = (1, Vec::new());
    for tone in mix.tones() {
        ends.retain(|end| *end > tone.start);
        ends.push(tone.end());
        most = most.max(ends.len());
    }
    most
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
