//! The reader's clock: days break at the reader's midnight, texts keep time that is the same everywhere.

/// Minutes that a clock may stand from UTC; in use are 12 hours west to 14 hours east.
const FURTHEST: i32 = 24 * 60;

/// How far the reader's clock stands from UTC.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Zone {
    minutes: i32,
}

impl Zone {
    /// A clock so many minutes ahead of UTC; behind it where they are negative. Not more than a day either way.
    #[must_use]
    pub fn ahead(minutes: i32) -> Self {
        Self { minutes: minutes.clamp(-FURTHEST, FURTHEST) }
    }

    /// What the reader's clock shows at a moment of UTC, both in seconds since 1970.
    #[must_use]
    pub fn shown(self, utc: u64) -> u64 {
        utc.saturating_add_signed(i64::from(self.minutes) * 60)
    }

    /// The moment of UTC at which the reader's clock shows this, both in seconds since 1970.
    #[must_use]
    pub fn utc(self, shown: u64) -> u64 {
        shown.saturating_add_signed(i64::from(self.minutes) * -60)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clock_goes_there_and_back() {
        for minutes in [-720, -210, 0, 345, 840] {
            let zone = Zone::ahead(minutes);
            assert_eq!(zone.utc(zone.shown(1_790_000_000)), 1_790_000_000);
            assert_eq!(zone.shown(1_000_000), 1_000_000u64.saturating_add_signed(i64::from(minutes) * 60));
        }
        assert_eq!(Zone::ahead(-60).shown(0), 0);
        assert_eq!(Zone::ahead(i32::MAX), Zone::ahead(1440));
    }
}
