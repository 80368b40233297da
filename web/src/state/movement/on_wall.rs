//! A movement on the wall: what the class sees, and what is still hidden from it.

/// The movement is on the wall.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct OnTheWall {
    /// What sounds is shown.
    pub sounding: bool,
    /// What the page makes together is shown.
    pub chords: bool,
}

/// Parts that a class can read at once.
pub const MOST_ROWS: usize = 4;

impl OnTheWall {
    /// The classes of what is on the wall.
    #[must_use]
    pub const fn class(self) -> &'static str {
        match (self.sounding, self.chords) {
            (true, true) => "followed on-wall",
            (true, false) => "followed on-wall no-chords",
            (false, true) => "followed on-wall no-sounding",
            (false, false) => "followed on-wall no-sounding no-chords",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn everything_is_hidden_until_it_is_revealed() {
        let wall = OnTheWall::default();
        assert_eq!(wall.class(), "followed on-wall no-sounding no-chords");
        assert_eq!(OnTheWall { sounding: true, ..wall }.class(), "followed on-wall no-chords");
        assert_eq!(OnTheWall { sounding: true, chords: true }.class(), "followed on-wall");
    }
}
