//! Which question is on the wall, and what the key or the clock shows next.

/// A question on the wall: which, and whether its answer is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct OnWall {
    /// Which question, from 0.
    pub at: usize,
    /// Whether its answer is shown.
    pub revealed: bool,
}

impl OnWall {
    /// What comes next: the answer, then the next question; after the last of `count` the first again.
    #[must_use]
    pub const fn next(self, count: usize) -> Self {
        match (self.revealed, self.is_last(count)) {
            (false, _) => Self { revealed: true, ..self },
            (true, false) => Self { at: self.at + 1, revealed: false },
            (true, true) => Self { at: 0, revealed: false },
        }
    }

    /// Whether it is the last question.
    #[must_use]
    pub const fn is_last(self, count: usize) -> bool {
        self.at + 1 >= count
    }

    /// How long what is shown still stands, in milliseconds; `None` where it stays, as the last answer does.
    #[must_use]
    pub fn rest(self, waited_ms: f64, seconds: u16, count: usize) -> Option<f64> {
        let question = f64::from(seconds) * 1000.0;
        let stands = if self.revealed { (question / 2.0).max(LEAST_MS) } else { question };
        (!(self.revealed && self.is_last(count))).then_some((stands - waited_ms).max(0.0))
    }

    /// What the clock shows next, if it is time: the answer, then the next question. An answer stays for half as long
    /// as a question, and long enough to be read.
    #[must_use]
    pub fn by_the_clock(self, waited_ms: f64, seconds: u16, count: usize) -> Option<Self> {
        (self.rest(waited_ms, seconds, count)? <= 0.0).then_some(self.next(count))
    }
}

/// How long an answer stands on the wall at least, in milliseconds.
const LEAST_MS: f64 = 5_000.0;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn on_the_wall_the_last_question_is_followed_by_the_first() {
        let last = OnWall { at: 2, revealed: false };
        assert_eq!(last.next(3), OnWall { at: 2, revealed: true });
        assert_eq!(last.next(3).next(3), OnWall { at: 0, revealed: false });
        assert_eq!(OnWall { at: 1, revealed: true }.next(3), last);
        // The clock stays with the last answer.
        assert_eq!(last.next(3).by_the_clock(1e9, 10, 3), None);
    }

    #[test]
    fn the_clock_on_the_wall_reveals_and_goes_on() {
        let asked = OnWall { at: 1, revealed: false };
        assert_eq!(asked.by_the_clock(19_900.0, 20, 3), None);
        assert_eq!(asked.rest(19_900.0, 20, 3), Some(100.0));
        let told = asked.by_the_clock(20_000.0, 20, 3).unwrap();
        assert_eq!(told, OnWall { at: 1, revealed: true });
        assert_eq!(told.by_the_clock(9_900.0, 20, 3), None);
        assert_eq!(told.by_the_clock(10_000.0, 20, 3), Some(OnWall { at: 2, revealed: false }));
        assert_eq!(told.by_the_clock(4_900.0, 5, 3), None);
        assert_eq!(told.rest(4_000.0, 20, 3), Some(6_000.0));
        assert_eq!(told.rest(4_000.0, 20, 2), None);
        // The last answer stays.
        assert_eq!(told.by_the_clock(1e9, 20, 2), None);
    }
}
