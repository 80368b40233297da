//! One tone as it sounds: its phase, its soft start and end, its brightness.

use crate::spectrum::{Overtone, Period, Sine};
use crate::tone::{Colour, Tone};

/// Seconds of the soft start.
const RISE: f64 = 0.06;
/// Seconds of the soft start of a stroke.
const STRUCK: f64 = 0.008;
/// A stroke dies away by a factor of e in so many seconds, its higher parts as much faster as they are higher (common
/// practice), and begins so much stronger than a tone that lasts, to be about as loud in all.
const DYING: f64 = 0.9;
const STROKE: f64 = 1.4;
/// Seconds of the soft end.
const FALL: f64 = 0.08;
/// How much brighter the start is, and over how many times the soft start it wears off.
const BITE: f32 = 0.5;
const BITE_RISES: f32 = 3.0;

/// A tone that sounds.
#[derive(Clone, Debug)]
pub(crate) struct Voice {
    period: Period,
    /// Turns a sample, where 2⁶⁴ is a whole turn: so exact that a day of it is right to a millionth of a cent.
    step: u64,
    /// The sample at which it begins and the first one after it.
    pub begins: u64,
    ends: u64,
    /// Samples of the soft start and the soft end; a very short tone has both shorter.
    rise: f32,
    fall: f32,
    level: f32,
    /// How much louder it gets in a sample.
    grows: f32,
    /// How much of a factor of e it dies away in a sample; nothing of what is blown, bowed or sung.
    dies: f32,
}

impl Voice {
    /// A part of a tone, begun so much of a turn later.
    pub fn new(tone: &Tone, (higher, part): Overtone, sine: &Sine, rate: f64, later: f64) -> Self {
        let shorter = f64::min(1.0, tone.length / (RISE + FALL));
        let struck = matches!(tone.colour, Colour::Drum | Colour::Bar);
        let (rise, level, dies) = if struck {
            (STRUCK, STROKE * part * tone.level, higher / DYING)
        } else {
            (RISE, tone.level, 0.0)
        };
        let hz = tone.hz * higher;
        Self {
            period: Period::new(sine, tone.colour, hz, rate, later),
            step: (hz / rate * TURN) as u64,
            begins: sample(tone.start, rate),
            ends: sample(tone.end(), rate),
            rise: (rise * shorter * rate) as f32,
            fall: (FALL * shorter * rate) as f32,
            level: level as f32,
            grows: (level * (tone.swell - 1.0) / (tone.length * rate)) as f32,
            dies: (dies / rate) as f32,
        }
    }

    /// Whether nothing of it is left at a sample.
    pub fn is_over(&self, at: u64) -> bool {
        at >= self.ends
    }

    /// Adds what sounds from the sample `from` on.
    pub fn add_to(&self, out: &mut [f32], from: u64) {
        for (at, sum) in (from..).zip(out) {
            if at < self.begins || at >= self.ends {
                continue;
            }
            let played = at - self.begins;
            let (gain, loud) = self.shape(played as f32, (self.ends - at) as f32);
            *sum += gain * self.period.at(self.step.wrapping_mul(played), loud);
        }
    }

    /// Amplitude and brightness so many samples after the beginning and before the end.
    fn shape(&self, played: f32, left: f32) -> (f32, f32) {
        // As good as e to the power of what has died, and cheaper.
        let left_over = 1.0 / (1.0 + 0.25 * self.dies * played);
        let level = self.level + self.grows * played;
        let mut gain = level * (left_over * left_over) * (left_over * left_over);
        let mut loud = level;
        if played < self.rise * BITE_RISES {
            let risen = ease(played / self.rise);
            let bite = 1.0 - played / (self.rise * BITE_RISES);
            gain *= risen;
            loud *= risen * (1.0 + BITE * bite * bite);
        }
        if left < self.fall {
            let fallen = ease(left / self.fall);
            gain *= fallen;
            loud *= fallen;
        }
        (gain, loud)
    }
}

/// A whole turn of a phase.
const TURN: f64 = 18_446_744_073_709_551_616.0;

/// The sample nearest to a time. Times are kept by [`crate::Mix`] between 0 and a quarter of an hour.
pub fn sample(seconds: f64, rate: f64) -> u64 {
    libm::round(seconds * rate) as u64
}

/// From 0 to 1 without a corner at either end.
fn ease(part: f32) -> f32 {
    let part = part.clamp(0.0, 1.0);
    part * part * (3.0 - 2.0 * part)
}
