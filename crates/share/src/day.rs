//! A day of the calendar, as a teacher writes it into a plan.

use core::fmt;
use core::str::FromStr;

/// Days of four hundred years, after which the calendar (Gregorian, ISO 8601) begins anew.
const CYCLE: i64 = 146_097;
/// Days from 1 March of the year 0 to 1 January 1970.
const TO_1970: i64 = 719_468;
/// Days before each month of a year that begins in March.
const BEFORE: [i64; 12] = [0, 31, 61, 92, 122, 153, 184, 214, 245, 275, 306, 337];

/// A day, counted from 1 January 1970. As text it is ISO 8601: 2026-12-14.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(i64);

/// The text is no day of the years 1970 to 9999.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoDay;

impl fmt::Display for NoDay {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("A day is written as year, month and day: 2026-12-14")
    }
}

impl core::error::Error for NoDay {}

impl Day {
    /// The day on which a clock shows so many seconds since 1970.
    #[must_use]
    pub const fn of_seconds(seconds: u64) -> Self {
        Self((seconds / 86_400) as i64)
    }

    /// So many days later.
    #[must_use]
    pub const fn later(self, days: i64) -> Self {
        Self(self.0 + days)
    }

    /// Year, month from 1 and day from 1.
    ///
    /// ```
    /// use crookwise_share::Day;
    /// assert_eq!("2028-02-29".parse::<Day>().map(|day| day.later(1).date()), Ok((2028, 3, 1)));
    /// ```
    #[must_use]
    pub fn date(self) -> (i64, usize, i64) {
        // Years begin in March here, so that the leap day is the last.
        let days = self.0 + TO_1970;
        let (cycle, day) = (days.div_euclid(CYCLE), days.rem_euclid(CYCLE));
        let year = (day - day / 1_460 + day / 36_524 - day / (CYCLE - 1)) / 365;
        let day = day - (365 * year + year / 4 - year / 100);
        let month = BEFORE.iter().rposition(|before| *before <= day).unwrap_or_default();
        let of_month = day - BEFORE.get(month).copied().unwrap_or_default() + 1;
        let year = year + cycle * 400;
        if month < 10 { (year, month + 3, of_month) } else { (year + 1, month - 9, of_month) }
    }

    /// The day of a date; one that no calendar has, such as 30 February, is none.
    fn of_date(year: i64, month: usize, day: i64) -> Option<Self> {
        let (years, months) = if month > 2 { (year, month - 3) } else { (year - 1, month + 9) };
        let (cycle, in_cycle) = (years.div_euclid(400), years.rem_euclid(400));
        let before = BEFORE.get(months)?;
        let days = cycle * CYCLE + in_cycle * 365 + in_cycle / 4 - in_cycle / 100 + before + day - 1;
        Some(Self(days - TO_1970)).filter(|one| one.date() == (year, month, day))
    }

    /// The day of the week, from 0 for Monday.
    #[must_use]
    pub const fn of_week(self) -> usize {
        // 1 January 1970 was a Thursday.
        (self.0 + 3).rem_euclid(7) as usize
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, day) = self.date();
        write!(f, "{year:04}-{month:02}-{day:02}")
    }
}

impl FromStr for Day {
    type Err = NoDay;

    fn from_str(text: &str) -> Result<Self, NoDay> {
        let mut parts = text.trim().split('-');
        let mut part = |digits: usize| {
            let part = parts.next().filter(|part| part.len() == digits).ok_or(NoDay)?;
            let is_number = part.bytes().all(|digit| digit.is_ascii_digit());
            part.parse::<i64>().ok().filter(|_| is_number).ok_or(NoDay)
        };
        let (year, month, day) = (part(4)?, part(2)?, part(2)?);
        if parts.next().is_some() || year < 1970 {
            return Err(NoDay);
        }
        let month = usize::try_from(month).ok().filter(|month| (1..=12).contains(month)).ok_or(NoDay)?;
        Self::of_date(year, month, day).ok_or(NoDay)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_go_there_and_back_one_after_the_other() {
        let mut before = "1969-12-31".to_owned();
        for days in 0..150_000 {
            let day = Day(days);
            let text = day.to_string();
            assert_eq!(text.parse(), Ok(day), "{text}");
            assert!(text > before, "{text} after {before}");
            before = text;
        }
    }

    #[test]
    fn known_days_fall_where_they_fell() {
        // Published: the first day of Unix time was a Thursday, 1 January 2000 a Saturday, 29 February 2024 a Thursday.
        for (text, days, of_week) in [
            ("1970-01-01", 0, 3),
            ("2000-01-01", 10_957, 5),
            ("2000-03-01", 11_017, 2),
            ("2024-02-29", 19_782, 3),
        ] {
            let day: Day = text.parse().unwrap();
            assert_eq!((day.0, day.of_week(), day.to_string().as_str()), (days, of_week, text));
        }
        assert_eq!(Day::of_seconds(86_399), Day(0));
        assert_eq!(Day::of_seconds(86_400), Day(1));
    }

    #[test]
    fn what_no_calendar_has_is_no_day() {
        for text in [
            "",
            "2026",
            "2026-02-29",
            "2100-02-29",
            "2026-04-31",
            "2026-13-01",
            "2026-00-10",
            "2026-01-00",
            "26-01-01",
            "2026-1-1",
            "1969-12-31",
            "2026-12-14-1",
            "+026-01-01",
            "2026-+1-01",
            "x",
        ] {
            assert_eq!(text.parse::<Day>(), Err(NoDay), "{text}");
        }
    }
}
