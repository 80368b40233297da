//! Keeps the sum of many players within bounds: looks ahead, gives way slowly, comes back more slowly.

use std::collections::VecDeque;

/// No sample is louder than this, of 1.
pub const CEILING: f32 = 0.9;
/// Samples that are looked at together.
pub const HOP: usize = 128;
/// Hops by which the sound is held back to see what comes.
pub const AHEAD: usize = 16;
/// Seconds for which it waits after the last peak that came near.
const PATIENCE: f64 = 1.0;
/// How near: a gain less than this many times the present one would have held it.
const NEAR: f32 = 1.1;
/// Seconds in which it comes back by a factor of e: 3 dB a second, too slow to be heard as breathing.
const RECOVERY: f64 = 2.9;

/// So many samples.
pub type Hop = [f32; HOP];

/// Holds the sound back by [`AHEAD`] hops. The gain runs straight from one border of hops to the next, and at
/// each border it is no more than either side bears; so it is nowhere more.
#[derive(Clone, Debug)]
pub struct Limiter {
    /// What was taken in and not yet given out, each hop with the gain it bears.
    waiting: VecDeque<(f32, Hop)>,
    /// Gain at the border before the first that waits.
    gain: f32,
    /// Part of itself by which the gain may grow in one hop.
    recovery: f32,
    /// Hops to wait after a peak, and how many of them are left.
    patience: u32,
    left: u32,
}

impl Limiter {
    pub fn new(rate: f64) -> Self {
        Self {
            waiting: VecDeque::from([(1.0, [0.0; HOP]); AHEAD]),
            gain: 1.0,
            recovery: (HOP as f64 / (RECOVERY * rate)) as f32,
            patience: (PATIENCE * rate / HOP as f64) as u32,
            left: 0,
        }
    }

    /// Takes in a hop and gives out the one of [`AHEAD`] hops before.
    pub fn exchange(&mut self, newest: Hop) -> Hop {
        let peak = newest.iter().fold(0.0_f32, |most, sample| most.max(sample.abs()));
        // A hair below the ceiling, for rounding.
        let bears = if peak > CEILING { CEILING * 0.999 / peak } else { 1.0 };
        self.waiting.push_back((bears, newest));
        let Some((bears, mut out)) = self.waiting.pop_front() else { return newest };
        let mut next = bears;
        for (ahead, (bears, _)) in self.waiting.iter().enumerate() {
            // What comes later is approached in a straight line.
            next = next.min(bears + (1.0 - bears) * (ahead as f32 / AHEAD as f32));
        }
        if next < 1.0 && next < self.gain * NEAR {
            self.left = self.patience;
        }
        let grown = if self.left == 0 { self.gain + self.gain * self.recovery } else { self.gain };
        self.left = self.left.saturating_sub(1);
        next = next.min(grown);
        let step = (next - self.gain) / HOP as f32;
        for (place, sample) in out.iter_mut().enumerate() {
            *sample *= self.gain + step * place as f32;
        }
        self.gain = next;
        out
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bursts_of_any_size_at_any_time_stay_below_the_ceiling() {
        // Made-up hops: mostly quiet, now and then far too loud or just a little, each with one sharp peak.
        let mut seed = 1_u32;
        let mut next = |below: u32| {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            (seed >> 8) % below
        };
        let mut limiter = Limiter::new(8_000.0);
        let (mut most, mut bursts) = (0.0_f32, 0);
        for _ in 0..20_000 {
            let peak = if next(60) == 0 { next(4_000) as f32 / 1000.0 } else { 0.3 };
            bursts += usize::from(peak > CEILING);
            let mut hop = [peak * 0.5; HOP];
            hop[next(HOP as u32) as usize] = -peak;
            let out = limiter.exchange(hop);
            most = out.iter().fold(most, |most, sample| most.max(sample.abs()));
        }
        assert!(bursts > 100 && most <= CEILING && most > CEILING * 0.99, "{bursts} bursts, {most}");
    }
}
