//! Intervals as two signed numbers: letters and semitones. The spelling follows the first, the sound the second.

use crate::pitch::Pitch;
use core::fmt;
use core::ops::{Add, Neg, Sub};

/// A signed distance between two spelled pitches, octaves included.
///
/// ```
/// # use crookwise_theory::{Interval, Pitch};
/// let down = Interval::new(-5, -9);
/// assert_eq!(down.to_string(), "major sixth");
/// assert_eq!("E5".parse::<Pitch>().unwrap() + down, "G4".parse().unwrap());
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Interval {
    /// Letters, positive upwards: an octave is 7.
    pub steps: i32,
    /// Semitones, positive upwards: an octave is 12.
    pub semitones: i32,
}

/// Which way an interval goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Direction {
    /// Upwards.
    Up,
    /// Downwards.
    Down,
    /// A perfect unison.
    None,
}

impl Interval {
    /// The perfect unison.
    pub const UNISON: Self = Self { steps: 0, semitones: 0 };
    /// The perfect octave upwards.
    pub const OCTAVE: Self = Self { steps: 7, semitones: 12 };

    /// An interval of so many letters and semitones, positive upwards.
    #[must_use]
    pub const fn new(steps: i32, semitones: i32) -> Self {
        Self { steps, semitones }
    }

    /// So many octaves, positive upwards.
    #[must_use]
    pub const fn octaves(octaves: i32) -> Self {
        Self { steps: octaves.saturating_mul(7), semitones: octaves.saturating_mul(12) }
    }

    /// From one pitch to another.
    #[must_use]
    pub fn between(from: Pitch, to: Pitch) -> Self {
        Self {
            steps: to.diatonic().saturating_sub(from.diatonic()),
            semitones: to.semitones().saturating_sub(from.semitones()),
        }
    }

    /// The usual spelling of a number of semitones; six is taken as the letter F-sharp would need
    /// (augmented fourth up, diminished fifth down). Common practice.
    #[must_use]
    pub fn usual(semitones: i32) -> Self {
        let (octaves, rest) = (semitones / 12, semitones % 12);
        let steps = match rest.abs() {
            0 => 0,
            1 | 2 => 1,
            3 | 4 => 2,
            5 => 3,
            6 if rest > 0 => 3,
            6 | 7 => 4,
            8 | 9 => 5,
            _ => 6,
        };
        Self { steps: octaves * 7 + steps * rest.signum(), semitones }
    }

    /// Which way it goes: by letters, and where they stay by semitones.
    #[must_use]
    pub fn direction(self) -> Direction {
        match (self.steps.signum(), self.semitones.signum()) {
            (0, 0) => Direction::None,
            (1, _) | (0, 1) => Direction::Up,
            _ => Direction::Down,
        }
    }

    /// What it adds to a key on the line of fifths: a major second up is +2, a minor third up −3.
    #[must_use]
    pub fn fifths(self) -> i32 {
        self.semitones.saturating_mul(7).saturating_sub(self.steps.saturating_mul(12))
    }

    /// The same interval without its direction.
    fn magnitude(self) -> (u32, i32) {
        let down = self.direction() == Direction::Down;
        let semitones = if down { self.semitones.saturating_neg() } else { self.semitones };
        (self.steps.unsigned_abs(), semitones)
    }

    /// Quality: how far from the perfect or major size, and whether a perfect size exists.
    fn quality(self) -> Quality {
        let (letters, semitones) = self.magnitude();
        let within = [0, 2, 4, 5, 7, 9, 11][(letters % 7) as usize];
        let octaves = i32::try_from(letters / 7).unwrap_or(i32::MAX);
        let off = semitones.saturating_sub(octaves.saturating_mul(12)).saturating_sub(within);
        match (letters % 7, off) {
            (0 | 3 | 4, 0) => Quality::Perfect,
            (_, 0) => Quality::Major,
            (_, 1..) => Quality::Augmented(off.unsigned_abs()),
            (0 | 3 | 4, _) => Quality::Diminished(off.unsigned_abs()),
            (_, -1) => Quality::Minor,
            _ => Quality::Diminished(off.unsigned_abs() - 1),
        }
    }

    /// The theorist's abbreviation without direction: `M6`, `P5`, `m10`, `dd8`.
    #[must_use]
    pub fn short(self) -> String {
        let number = self.magnitude().0.saturating_add(1);
        match self.quality() {
            Quality::Perfect => format!("P{number}"),
            Quality::Major => format!("M{number}"),
            Quality::Minor => format!("m{number}"),
            Quality::Augmented(times) => format!("{}{number}", "A".repeat(times.min(99) as usize)),
            Quality::Diminished(times) => format!("{}{number}", "d".repeat(times.min(99) as usize)),
        }
    }
}

/// The size of an interval among those of its letters.
enum Quality {
    Perfect,
    Major,
    Minor,
    Augmented(u32),
    Diminished(u32),
}

const ORDINALS: [&str; 14] = [
    "unison",
    "second",
    "third",
    "fourth",
    "fifth",
    "sixth",
    "seventh",
    "octave",
    "ninth",
    "tenth",
    "eleventh",
    "twelfth",
    "thirteenth",
    "fourteenth",
];

/// The English name without direction: "major sixth", "octave", "two octaves and a major second".
impl fmt::Display for Interval {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (letters, semitones) = self.magnitude();
        let Some(ordinal) = ORDINALS.get(letters as usize) else {
            let octaves = letters / 7;
            match octaves {
                2 => f.write_str("two octaves")?,
                3 => f.write_str("three octaves")?,
                many => write!(f, "{many} octaves")?,
            }
            let rest = Self {
                steps: (letters % 7) as i32,
                semitones: semitones
                    .saturating_sub(i32::try_from(octaves).unwrap_or(i32::MAX).saturating_mul(12)),
            };
            if rest == Self::UNISON {
                return Ok(());
            }
            let name = rest.to_string();
            let article = if name.starts_with('a') { "an" } else { "a" };
            return write!(f, " and {article} {name}");
        };
        match self.quality() {
            Quality::Perfect if letters % 7 == 0 => f.write_str(ordinal),
            Quality::Perfect => write!(f, "perfect {ordinal}"),
            Quality::Major => write!(f, "major {ordinal}"),
            Quality::Minor => write!(f, "minor {ordinal}"),
            Quality::Augmented(times) => write!(f, "{}augmented {ordinal}", multiplier(times)),
            Quality::Diminished(times) => write!(f, "{}diminished {ordinal}", multiplier(times)),
        }
    }
}

fn multiplier(times: u32) -> String {
    match times {
        0 | 1 => String::new(),
        2 => "doubly ".into(),
        3 => "triply ".into(),
        many => format!("{many} times "),
    }
}

impl Add<Interval> for Pitch {
    type Output = Self;

    fn add(self, interval: Interval) -> Self {
        let bare = Self::from_diatonic(self.diatonic().saturating_add(interval.steps), 0);
        let semitones = self.semitones().saturating_add(interval.semitones);
        Self { alter: semitones.saturating_sub(bare.semitones()), ..bare }
    }
}

impl Add for Interval {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self {
            steps: self.steps.saturating_add(other.steps),
            semitones: self.semitones.saturating_add(other.semitones),
        }
    }
}

impl Neg for Interval {
    type Output = Self;

    fn neg(self) -> Self {
        Self { steps: self.steps.saturating_neg(), semitones: self.semitones.saturating_neg() }
    }
}

impl Sub for Interval {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        self + -other
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names() {
        let cases = [
            ((-5, -9), "major sixth", "M6"),
            ((-4, -7), "perfect fifth", "P5"),
            ((0, 0), "unison", "P1"),
            ((7, 12), "octave", "P8"),
            ((-8, -14), "major ninth", "M9"),
            ((-4, -6), "diminished fifth", "d5"),
            ((14, 24), "two octaves", "P15"),
            ((-15, -26), "two octaves and a major second", "M16"),
            ((0, -1), "augmented unison", "A1"),
            ((3, 7), "doubly augmented fourth", "AA4"),
        ];
        for ((steps, semitones), long, short) in cases {
            let interval = Interval::new(steps, semitones);
            assert_eq!(interval.to_string(), long);
            assert_eq!(interval.short(), short);
        }
    }

    #[test]
    fn usual_spellings_keep_their_semitones() {
        for semitones in -40..=40 {
            let usual = Interval::usual(semitones);
            assert_eq!(usual.semitones, semitones);
            assert!(usual.fifths().abs() <= 6, "{semitones}: {usual:?}");
        }
    }

    #[test]
    fn nothing_overflows() {
        for wild in
            [Interval::new(i32::MAX, i32::MIN), Interval::new(i32::MIN, i32::MAX), Interval::new(0, i32::MIN)]
        {
            let _ = (wild.to_string(), wild.short(), wild + wild, -wild, wild.fifths());
            let _ = Pitch::from_diatonic(28, 0) + wild;
        }
    }
}
