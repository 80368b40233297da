//! When the pieces of a sound begin: each exactly where the one before it ends, unless it was made too late for that.

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
    /// Samples still to be made.
    left: usize,
    /// Where what has been handed out ends; nothing has been at first.
    end: Option<f64>,
}

impl Queue {
    /// Of so many seconds of sound at so many samples a second.
    #[must_use]
    pub fn new(seconds: f64, rate: f64) -> Self {
        Self { rate, left: libm::ceil(seconds * rate) as usize, end: None }
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
        self.end = Some(begin + samples as f64 / self.rate);
        begin
    }

    /// Whether all has been heard.
    #[must_use]
    pub fn is_over(&self, now: f64) -> bool {
        self.left == 0 && self.end.is_none_or(|end| end <= now)
    }
}
