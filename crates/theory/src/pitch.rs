//! Spelled pitch: letter, alteration and octave, and what follows from them alone.

use core::fmt;
use core::str::FromStr;

/// One of the seven letters, in the order of the scale from C (MusicXML calls it `step`).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Step {
    /// C (do, ut).
    C,
    /// D (re).
    D,
    /// E (mi).
    E,
    /// F (fa).
    F,
    /// G (sol).
    G,
    /// A (la).
    A,
    /// B natural (si, German H).
    B,
}

impl Step {
    /// All letters from C up to B.
    pub const ALL: [Self; 7] = [Self::C, Self::D, Self::E, Self::F, Self::G, Self::A, Self::B];

    /// Place in the scale from C: 0 (C) to 6 (B).
    #[must_use]
    pub const fn index(self) -> i32 {
        self as i32
    }

    /// The letter so many places above C, octaves ignored: 7 is C again, −1 is B.
    ///
    /// ```
    /// # use crookwise_theory::Step;
    /// assert_eq!(Step::from_index(-1), Step::B);
    /// ```
    #[must_use]
    pub fn from_index(index: i32) -> Self {
        match index.rem_euclid(7) {
            0 => Self::C,
            1 => Self::D,
            2 => Self::E,
            3 => Self::F,
            4 => Self::G,
            5 => Self::A,
            _ => Self::B,
        }
    }

    /// Semitones of the natural letter above C: 0, 2, 4, 5, 7, 9 or 11.
    #[must_use]
    pub const fn semitones(self) -> i32 {
        match self {
            Self::C => 0,
            Self::D => 2,
            Self::E => 4,
            Self::F => 5,
            Self::G => 7,
            Self::A => 9,
            Self::B => 11,
        }
    }

    /// The English capital letter.
    #[must_use]
    pub const fn letter(self) -> char {
        match self {
            Self::C => 'C',
            Self::D => 'D',
            Self::E => 'E',
            Self::F => 'F',
            Self::G => 'G',
            Self::A => 'A',
            Self::B => 'B',
        }
    }

    /// The letter named by an English letter of either case.
    #[must_use]
    pub fn from_letter(letter: char) -> Option<Self> {
        Self::ALL.into_iter().find(|step| step.letter() == letter.to_ascii_uppercase())
    }
}

/// A letter with its alteration but no octave: the name of a key, a drum or a crook.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Tonic {
    /// The letter.
    pub step: Step,
    /// Semitones of alteration: −1 flat, +1 sharp; any number is representable.
    pub alter: i32,
}

impl Tonic {
    /// A letter with its alteration in semitones.
    #[must_use]
    pub const fn new(step: Step, alter: i32) -> Self {
        Self { step, alter }
    }

    /// Semitones above C within the octave, 0 to 11.
    #[must_use]
    pub fn pitch_class(self) -> i32 {
        self.step.semitones().saturating_add(self.alter).rem_euclid(12)
    }

    /// The pitch of this name that is nearest to another; of two as near the lower one.
    ///
    /// ```
    /// # use crookwise_theory::{Pitch, Step, Tonic};
    /// let near = |step| Tonic::new(step, 0).nearest_to(Pitch::natural(Step::G, 4));
    /// assert_eq!([Step::B, Step::C, Step::D].map(|step| near(step).to_string()), ["B4", "C5", "D4"]);
    /// ```
    #[must_use]
    pub fn nearest_to(self, pitch: Pitch) -> Pitch {
        let far = |one: &Pitch| one.midi().saturating_sub(pitch.midi()).saturating_abs();
        let in_octave = |octave| Pitch::new(self.step, self.alter, octave);
        let all = (-1..=1).map(|octaves| in_octave(pitch.octave.saturating_add(octaves)));
        all.min_by_key(far).unwrap_or(in_octave(pitch.octave))
    }

    /// Place on the line of fifths: C is 0, G is 1, F is −1, B-flat −2.
    #[must_use]
    pub fn fifths(self) -> i32 {
        let natural = match self.step {
            Step::F => -1,
            Step::C => 0,
            Step::G => 1,
            Step::D => 2,
            Step::A => 3,
            Step::E => 4,
            Step::B => 5,
        };
        self.alter.saturating_mul(7).saturating_add(natural)
    }

    /// The tonic at that place on the line of fifths.
    ///
    /// ```
    /// # use crookwise_theory::Tonic;
    /// assert_eq!(Tonic::from_fifths(-3).to_string(), "Eb");
    /// ```
    #[must_use]
    pub fn from_fifths(fifths: i32) -> Self {
        let order = [Step::F, Step::C, Step::G, Step::D, Step::A, Step::E, Step::B];
        let place = fifths.saturating_add(1);
        let step = order.get(place.rem_euclid(7) as usize).copied().unwrap_or(Step::C);
        Self { step, alter: place.div_euclid(7) }
    }
}

impl fmt::Display for Tonic {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.step.letter())?;
        write_alteration(f, self.alter)
    }
}

impl FromStr for Tonic {
    type Err = PitchError;

    fn from_str(text: &str) -> Result<Self, PitchError> {
        let (step, alter, rest) = split_name(text)?;
        if rest.is_empty() { Ok(Self { step, alter }) } else { Err(PitchError::Alteration) }
    }
}

/// A spelled pitch. C4 is middle C.
///
/// ```
/// # use crookwise_theory::Pitch;
/// let pitch: Pitch = "Bb4".parse().unwrap();
/// assert_eq!(pitch.midi(), 70);
/// assert_eq!(pitch.to_string(), "Bb4");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Pitch {
    /// The letter.
    pub step: Step,
    /// Semitones of alteration, positive is sharp; any number is representable.
    pub alter: i32,
    /// Octave in scientific notation, changing at C.
    pub octave: i32,
}

impl Pitch {
    /// A pitch by letter, alteration in semitones and octave.
    #[must_use]
    pub const fn new(step: Step, alter: i32, octave: i32) -> Self {
        Self { step, alter, octave }
    }

    /// The unaltered letter in an octave.
    #[must_use]
    pub const fn natural(step: Step, octave: i32) -> Self {
        Self { step, alter: 0, octave }
    }

    /// Letters above C0, alterations ignored: C4 is 28. A staff counts in these.
    #[must_use]
    pub fn diatonic(self) -> i32 {
        self.octave.saturating_mul(7).saturating_add(self.step.index())
    }

    /// The natural letter so many letters above C0, altered by `alter` semitones.
    #[must_use]
    pub fn from_diatonic(diatonic: i32, alter: i32) -> Self {
        Self { step: Step::from_index(diatonic), alter, octave: diatonic.div_euclid(7) }
    }

    /// Semitones above C0: C4 is 48.
    #[must_use]
    pub fn semitones(self) -> i32 {
        self.octave.saturating_mul(12).saturating_add(self.step.semitones()).saturating_add(self.alter)
    }

    /// The number MIDI gives the key: C4 is 60. Not limited to 0–127.
    #[must_use]
    pub fn midi(self) -> i32 {
        self.semitones().saturating_add(12)
    }

    /// Letter and alteration without the octave.
    #[must_use]
    pub const fn tonic(self) -> Tonic {
        Tonic { step: self.step, alter: self.alter }
    }

    /// The same sound on another letter: `letters` up or down from this one.
    ///
    /// ```
    /// # use crookwise_theory::Pitch;
    /// let pitch: Pitch = "D#5".parse().unwrap();
    /// assert_eq!(pitch.respelled(1).to_string(), "Eb5");
    /// ```
    #[must_use]
    pub fn respelled(self, letters: i32) -> Self {
        let bare = Self::from_diatonic(self.diatonic().saturating_add(letters), 0);
        Self { alter: self.semitones().saturating_sub(bare.semitones()), ..bare }
    }

    /// Whether both are the same key of a keyboard.
    #[must_use]
    pub fn same_key(self, other: Self) -> bool {
        self.semitones() == other.semitones()
    }
}

impl fmt::Display for Pitch {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.tonic(), self.octave)
    }
}

impl FromStr for Pitch {
    type Err = PitchError;

    fn from_str(text: &str) -> Result<Self, PitchError> {
        let (step, alter, rest) = split_name(text)?;
        if rest.is_empty() {
            return Err(PitchError::NoOctave);
        }
        let digits = rest.strip_prefix('-').unwrap_or(rest);
        if digits.is_empty() || digits.len() > 2 || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
            return Err(PitchError::Octave);
        }
        let octave = rest.parse().map_err(|_| PitchError::Octave)?;
        Ok(Self { step, alter, octave })
    }
}

/// Why a text is no pitch in scientific notation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PitchError {
    /// The text is empty.
    Empty,
    /// It does not begin with a letter from A to G.
    Letter,
    /// What follows the letter is neither flats nor sharps, or there are more than 99.
    Alteration,
    /// The octave is missing.
    NoOctave,
    /// The octave is not a whole number of at most two digits.
    Octave,
}

impl fmt::Display for PitchError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Empty => "there is no note name",
            Self::Letter => "a note name begins with a letter from A to G",
            Self::Alteration => "after the letter only flats (b) or sharps (#) may stand",
            Self::NoOctave => "the octave is missing: middle C is C4",
            Self::Octave => "the octave is a whole number such as 4: middle C is C4",
        })
    }
}

impl core::error::Error for PitchError {}

/// Reads letter and alteration; gives back what follows.
fn split_name(text: &str) -> Result<(Step, i32, &str), PitchError> {
    let first = text.chars().next().ok_or(PitchError::Empty)?;
    let step = Step::from_letter(first).ok_or(PitchError::Letter)?;
    let mut rest = text.get(first.len_utf8()..).unwrap_or("");
    let (mut flats, mut sharps) = (0_i32, 0_i32);
    while let Some(sign) = rest.chars().next() {
        match sign {
            'b' | '♭' => flats += 1,
            '#' | '♯' => sharps += 1,
            'x' | '𝄪' => sharps += 2,
            '𝄫' => flats += 2,
            _ => break,
        }
        if flats + sharps > 99 {
            return Err(PitchError::Alteration);
        }
        rest = rest.get(sign.len_utf8()..).unwrap_or("");
    }
    match (flats, sharps, rest.chars().next()) {
        (1.., 1.., _) => Err(PitchError::Alteration),
        (_, _, Some(next)) if next != '-' && !next.is_ascii_digit() => Err(PitchError::Alteration),
        _ => Ok((step, sharps - flats, rest)),
    }
}

/// Writes flats as `b` and sharps as `#`, as many as there are.
fn write_alteration(f: &mut fmt::Formatter<'_>, alter: i32) -> fmt::Result {
    let sign = if alter < 0 { "b" } else { "#" };
    // A spelling that nobody writes must not fill the memory either.
    for _ in 0..alter.unsigned_abs().min(99) {
        f.write_str(sign)?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_go_back_and_forth() {
        for name in ["C4", "Eb4", "F##5", "Ebbb4", "B-1", "Cb10", "A0"] {
            assert_eq!(name.parse::<Pitch>().unwrap().to_string(), name);
        }
    }

    #[test]
    fn what_is_no_pitch_says_why() {
        let cases = [
            ("", PitchError::Empty),
            ("H4", PitchError::Letter),
            ("é4", PitchError::Letter),
            ("Eb", PitchError::NoOctave),
            ("Eb#4", PitchError::Alteration),
            ("Ez4", PitchError::Alteration),
            ("E4x", PitchError::Octave),
            ("E444", PitchError::Octave),
            ("E-", PitchError::Octave),
        ];
        for (text, error) in cases {
            assert_eq!(text.parse::<Pitch>(), Err(error), "{text}");
        }
    }

    #[test]
    fn spelling_and_keys() {
        let pitch: Pitch = "B##3".parse().unwrap();
        assert_eq!(pitch.midi(), 61);
        assert_eq!("Cb4".parse::<Pitch>().unwrap().midi(), 59);
        assert_eq!("E#4".parse::<Pitch>().unwrap().respelled(1).to_string(), "F4");
        for fifths in -30..30 {
            assert_eq!(Tonic::from_fifths(fifths).fifths(), fifths);
        }
    }

    #[test]
    fn nothing_overflows() {
        let wild = Pitch::new(Step::B, i32::MAX, i32::MAX);
        let _ = (wild.midi(), wild.diatonic(), wild.respelled(i32::MAX), wild.to_string());
        let wild = Pitch::new(Step::C, i32::MIN, i32::MIN);
        let _ = (wild.midi(), wild.diatonic(), wild.respelled(i32::MIN), wild.to_string());
    }
}
