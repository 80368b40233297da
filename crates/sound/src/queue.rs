//! When the pieces of a sound begin: each exactly where the one before it ends, unless it was made too late for that.

use crate::limiter::{AHEAD as HOPS, HOP};

/// Seconds of sound in the first piece and in the later ones: the first must be there at once.
const PIECES: (f64, f64) = (0.2, 0.5);
/// Seconds of sound kept ready ahead of what is heard.
const AHEAD: f64 = 1.5;
/// Seconds from a piece that nothing comes before to its first sample.
const START: f64 = 0.03;

/// Hands out the pieces of one sound by the clock on which they are heard, in seconds. The clock runs on while a piece is
/// made, so it is read anew before each answer.
#[derive(Clone, Debug)]
pub struct Queue {
    rate: f64,
    /// Samples still to be made, as far as it is known what they are.
    left: usize,
    /// Samples that have been made.
    made: usize,
    /// Whether more may be told.
    is_open: bool,
    /// Where what has been handed out ends; nothing has been at first.
    end: Option<f64>,
}

impl Queue {
    /// Of so many seconds of sound at so many samples a second.
    #[must_use]
    pub fn new(seconds: f64, rate: f64) -> Self {
        Self { rate, left: libm::ceil(seconds * rate) as usize, made: 0, is_open: false, end: None }
    }

    /// Of a sound that is told while it goes on; nothing is known of it yet.
    #[must_use]
    pub const fn open(rate: f64) -> Self {
        Self { rate, left: 0, made: 0, is_open: true, end: None }
    }

    /// From now on so many seconds are known, from its beginning. What is made looks ahead a little
    /// ([`Synth`](crate::Synth)): so much less is handed out, until it is said that no more comes.
    pub fn know(&mut self, seconds: f64, is_all: bool) {
        // One hop more: the last may be begun.
        let ahead = if is_all { 0 } else { (HOPS + 1) * HOP };
        let known = (libm::ceil(seconds * self.rate) as usize).saturating_sub(ahead);
        self.left = known.saturating_sub(self.made);
        self.is_open = !is_all;
    }

    /// Which of its seconds is heard now, from its beginning: it stands still where what was wanted is not there.
    #[must_use]
    pub fn heard(&self, now: f64) -> f64 {
        let made = self.made as f64 / self.rate;
        self.end.map_or(0.0, |end| (made - (end - now).max(0.0)).max(0.0))
    }

    /// How many seconds are ready ahead of what is heard now.
    #[must_use]
    pub fn ahead(&self, now: f64) -> f64 {
        self.end.map_or(0.0, |end| (end - now).max(0.0))
    }

    /// How many samples are to be made now; nothing where enough is ready, or all has been made.
    #[must_use]
    pub fn wanted(&self, now: f64) -> Option<usize> {
        let seconds = match self.end {
            None => PIECES.0,
            Some(end) if end < now + AHEAD => PIECES.1,
            Some(_) => return None,
        };
        let samples = ((seconds * self.rate) as usize).min(self.left);
        (samples > 0).then_some(samples)
    }

    /// When a piece of so many samples that has just been made is to begin. Where its moment has gone by, it and all that
    /// follows come later: it is never begun in the past, where it would sound together with the next.
    pub fn begins(&mut self, samples: usize, now: f64) -> f64 {
        let begin = self.end.filter(|end| *end >= now).unwrap_or(now + START);
        self.left = self.left.saturating_sub(samples);
        self.made += samples;
        self.end = Some(begin + samples as f64 / self.rate);
        begin
    }

    /// Whether all has been heard.
    #[must_use]
    pub fn is_over(&self, now: f64) -> bool {
        !self.is_open && self.left == 0 && self.end.is_none_or(|end| end <= now)
    }
}
