//! How long a question has stood on the wall: it runs by itself, and is held by the teacher or while something covers the
//! question.

/// The clock of a question. Times are in milliseconds, `now` since 1970.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WallClock {
    since: f64,
    /// How long the question had stood when the clock was held; nothing while it runs.
    waited: Option<f64>,
    pressed: bool,
    covered: bool,
}

impl WallClock {
    /// A question stands there from now on, and the clock runs.
    #[must_use]
    pub const fn new(now: f64) -> Self {
        Self { since: now, waited: None, pressed: false, covered: false }
    }

    /// How long the question has stood.
    #[must_use]
    pub fn waited(self, now: f64) -> f64 {
        self.waited.unwrap_or(now - self.since)
    }

    /// Whether it stands still.
    #[must_use]
    pub const fn is_held(self) -> bool {
        self.waited.is_some()
    }

    /// Whether the teacher holds it.
    #[must_use]
    pub const fn is_pressed(self) -> bool {
        self.pressed
    }

    /// Another question stands there from now on, with nothing over it. What the teacher held stays held.
    #[must_use]
    pub fn restarted(self, now: f64) -> Self {
        Self { since: now, waited: self.waited.map(|_| 0.0), ..self }.covered(false, now)
    }

    /// The teacher holds it, or lets it run again.
    #[must_use]
    pub fn turned(self, now: f64) -> Self {
        Self { pressed: !self.pressed, ..self }.settled(now)
    }

    /// Something covers the question, or no longer does.
    #[must_use]
    pub fn covered(self, covered: bool, now: f64) -> Self {
        Self { covered, ..self }.settled(now)
    }

    fn settled(self, now: f64) -> Self {
        match (self.pressed || self.covered, self.waited) {
            (true, None) => Self { waited: Some(now - self.since), ..self },
            (false, Some(waited)) => Self { since: now - waited, waited: None, ..self },
            _ => self,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_stands_still_while_it_is_held_or_the_question_is_covered() {
        let clock = WallClock::new(1_000.0).covered(true, 4_000.0);
        assert!((clock.waited(90_000.0) - 3_000.0).abs() < 0.1 && clock.is_held() && !clock.is_pressed());
        // Held besides, it does not run when what covers the question goes.
        let held = clock.turned(91_000.0).covered(false, 92_000.0);
        assert!((held.waited(99_000.0) - 3_000.0).abs() < 0.1 && held.is_pressed());
        let runs = held.turned(100_000.0);
        assert!((runs.waited(101_000.0) - 4_000.0).abs() < 0.1 && !runs.is_held());
    }

    #[test]
    fn another_question_begins_anew_and_is_seen() {
        let held = WallClock::new(0.0).turned(500.0);
        let next = held.restarted(9_000.0);
        assert!(next.is_held() && next.waited(20_000.0).abs() < 0.1);
        let covered = WallClock::new(0.0).covered(true, 500.0).restarted(9_000.0);
        assert!(!covered.is_held() && (covered.waited(10_000.0) - 1_000.0).abs() < 0.1);
    }
}
