//! Clefs and places on a staff.

use crate::pitch::Pitch;
use core::fmt;
use core::str::FromStr;

/// The letter a clef marks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ClefSign {
    /// The line of G4.
    G,
    /// The line of F3.
    F,
    /// The line of C4.
    C,
}

impl ClefSign {
    /// The pitch on the clef's line.
    #[must_use]
    pub fn pitch(self) -> Pitch {
        use crate::pitch::Step;
        match self {
            Self::G => Pitch::natural(Step::G, 4),
            Self::F => Pitch::natural(Step::F, 3),
            Self::C => Pitch::natural(Step::C, 4),
        }
    }
}

/// A clef: a sign on a line, perhaps with an octave mark.
///
/// ```
/// # use crookwise_theory::{Clef, StaffPosition};
/// assert_eq!(Clef::TREBLE.pitch_at(StaffPosition(0)).to_string(), "E4");
/// assert_eq!(Clef::BASS.position("C4".parse().unwrap()), StaffPosition(10));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Clef {
    /// The sign.
    pub sign: ClefSign,
    /// The line it marks, 1 (bottom) to 5.
    line: u8,
    /// Octaves by the mark at the clef: +1 for an 8 above, −1 for an 8 below; −2 to 2.
    octave: i8,
}

/// A place on a staff: 0 is the bottom line, 1 the space above it, 8 the top line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct StaffPosition(pub i32);

impl Clef {
    /// The treble clef, G on the second line.
    pub const TREBLE: Self = Self::plain(ClefSign::G, 2);
    /// The French violin clef, G on the bottom line.
    pub const FRENCH_VIOLIN: Self = Self::plain(ClefSign::G, 1);
    /// The bass clef, F on the fourth line.
    pub const BASS: Self = Self::plain(ClefSign::F, 4);
    /// The baritone clef as an F on the third line.
    pub const BARITONE: Self = Self::plain(ClefSign::F, 3);
    /// The subbass clef, F on the fifth line.
    pub const SUBBASS: Self = Self::plain(ClefSign::F, 5);
    /// The soprano clef, C on the bottom line.
    pub const SOPRANO: Self = Self::plain(ClefSign::C, 1);
    /// The mezzo-soprano clef, C on the second line.
    pub const MEZZO_SOPRANO: Self = Self::plain(ClefSign::C, 2);
    /// The alto clef, C on the middle line.
    pub const ALTO: Self = Self::plain(ClefSign::C, 3);
    /// The tenor clef, C on the fourth line.
    pub const TENOR: Self = Self::plain(ClefSign::C, 4);

    /// Every clef without an octave mark, from high to low.
    pub const ALL: [Self; 10] = [
        Self::FRENCH_VIOLIN,
        Self::TREBLE,
        Self::SOPRANO,
        Self::MEZZO_SOPRANO,
        Self::ALTO,
        Self::TENOR,
        Self::BARITONE,
        Self::plain(ClefSign::C, 5),
        Self::BASS,
        Self::SUBBASS,
    ];

    const fn plain(sign: ClefSign, line: u8) -> Self {
        Self { sign, line, octave: 0 }
    }

    /// A clef by sign, line (1 to 5) and octave mark (−2 to 2).
    ///
    /// # Errors
    /// Where no such clef is in use.
    pub fn new(sign: ClefSign, line: u8, octave: i8) -> Result<Self, ClefError> {
        let known = Self::ALL.iter().any(|clef| clef.sign == sign && clef.line == line);
        match (known, octave) {
            (false, _) => Err(ClefError::Unknown),
            (true, -2..=2) => Ok(Self { sign, line, octave }),
            _ => Err(ClefError::Octave),
        }
    }

    /// The line it marks, 1 (bottom) to 5.
    #[must_use]
    pub const fn line(self) -> u8 {
        self.line
    }

    /// Octaves by the mark at the clef, −2 to 2.
    #[must_use]
    pub const fn octave(self) -> i8 {
        self.octave
    }

    /// The same clef without its octave mark.
    #[must_use]
    pub const fn without_octave(self) -> Self {
        Self { octave: 0, ..self }
    }

    /// The natural pitch on the bottom line, the octave mark counted.
    #[must_use]
    pub fn bottom_line(self) -> Pitch {
        self.pitch_at(StaffPosition(0))
    }

    /// The natural pitch at a place, the octave mark counted.
    #[must_use]
    pub fn pitch_at(self, place: StaffPosition) -> Pitch {
        Pitch::from_diatonic(self.zero().saturating_add(place.0), 0)
    }

    /// Where a pitch stands, its alteration ignored.
    #[must_use]
    pub fn position(self, pitch: Pitch) -> StaffPosition {
        StaffPosition(pitch.diatonic().saturating_sub(self.zero()))
    }

    /// Treble or bass: the one of these under which pitches need fewer ledger lines.
    #[must_use]
    pub fn treble_or_bass(pitches: &[Pitch]) -> Self {
        let ledgers = |clef: Self| {
            let off = |StaffPosition(place)| i32::max(-place, place - 8).max(0);
            let all = pitches.iter().map(|&pitch| off(clef.position(pitch)));
            all.fold(0, i32::saturating_add)
        };
        if ledgers(Self::BASS) < ledgers(Self::TREBLE) { Self::BASS } else { Self::TREBLE }
    }

    /// Letters above C0 of the bottom line.
    fn zero(self) -> i32 {
        self.sign.pitch().diatonic() + i32::from(self.octave) * 7 - i32::from(self.line - 1) * 2
    }

    /// The trade's name: "treble", "mezzo-soprano", "bass"; with an octave mark "treble, an octave lower".
    #[must_use]
    pub fn name(self) -> String {
        let name = match (self.sign, self.line) {
            (ClefSign::G, 1) => "French violin",
            (ClefSign::G, _) => "treble",
            (ClefSign::C, 1) => "soprano",
            (ClefSign::C, 2) => "mezzo-soprano",
            (ClefSign::C, 3) => "alto",
            (ClefSign::C, 4) => "tenor",
            (ClefSign::C, _) | (ClefSign::F, 3) => "baritone",
            (ClefSign::F, 5) => "subbass",
            (ClefSign::F, _) => "bass",
        };
        let mark = match self.octave {
            0 => "",
            1 => ", an octave higher",
            -1 => ", an octave lower",
            2 => ", two octaves higher",
            _ => ", two octaves lower",
        };
        format!("{name}{mark}")
    }
}

/// Sign and line as MusicXML has them: "G2". The octave mark is not part of it.
impl fmt::Display for Clef {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?}{}", self.sign, self.line)
    }
}

impl FromStr for Clef {
    type Err = ClefError;

    fn from_str(text: &str) -> Result<Self, ClefError> {
        Self::ALL.into_iter().find(|clef| clef.to_string() == text).ok_or(ClefError::Unknown)
    }
}

/// Why there is no such clef.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClefError {
    /// No clef of that sign on that line.
    Unknown,
    /// The octave mark is beyond two octaves.
    Octave,
}

impl fmt::Display for ClefError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Unknown => "the clefs are G1, G2, C1 to C5 and F3 to F5, such as G2 for the treble clef",
            Self::Octave => "the octave mark of a clef goes from two octaves lower to two octaves higher",
        })
    }
}

impl core::error::Error for ClefError {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn clefs_go_back_and_forth() {
        for clef in Clef::ALL {
            assert_eq!(clef.to_string().parse(), Ok(clef));
            for place in -30..30 {
                assert_eq!(clef.position(clef.pitch_at(StaffPosition(place))), StaffPosition(place));
            }
        }
        assert_eq!("C6".parse::<Clef>(), Err(ClefError::Unknown));
        assert_eq!(Clef::new(ClefSign::G, 2, 3), Err(ClefError::Octave));
    }

    #[test]
    fn octave_marks_shift_the_staff() {
        let tenor = Clef::new(ClefSign::G, 2, -1).unwrap();
        assert_eq!(tenor.bottom_line().to_string(), "E3");
        assert_eq!(tenor.name(), "treble, an octave lower");
    }
}
