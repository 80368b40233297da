//! Names of notes, keys, signatures and numbers.

use crookwise_theory::{Key, Mode, Pitch, Signature, Step, Tonic};

/// How notes and keys are named.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Names {
    /// The letters.
    pub letters: Letters,
    /// The octaves.
    pub octaves: Octaves,
}

/// What the seven letters and their alterations are called.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Letters {
    /// C, B-flat, B.
    #[default]
    English,
    /// C, B, H.
    German,
    /// Do, si bemolle, si, as French, Italians and Spaniards say.
    Syllables,
}

/// How an octave is told.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Octaves {
    /// By a number: C4 is middle C.
    #[default]
    Numbers,
    /// In Helmholtz's way: C, c, c′, c″.
    Helmholtz,
}

impl Letters {
    /// All ways.
    pub const ALL: [Self; 3] = [Self::English, Self::German, Self::Syllables];

    /// The word by which it is kept.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::English => "english",
            Self::German => "german",
            Self::Syllables => "syllables",
        }
    }

    /// Its name in the list.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::English => "English: B♭, B",
            Self::German => "German: B, H",
            Self::Syllables => "Syllables: si♭, si",
        }
    }
}

impl Octaves {
    /// Both ways.
    pub const ALL: [Self; 2] = [Self::Numbers, Self::Helmholtz];

    /// The word by which it is kept.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Numbers => "numbers",
            Self::Helmholtz => "helmholtz",
        }
    }

    /// Its name in the list.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Numbers => "C4 is middle C",
            Self::Helmholtz => "Helmholtz: c′ is middle C",
        }
    }
}

impl Names {
    /// A letter with its alteration: E♭, Es, Mi♭.
    #[must_use]
    pub fn tonic(self, tonic: Tonic) -> String {
        match self.letters {
            Letters::English => format!("{}{}", tonic.step.letter(), alteration_sign(tonic.alter)),
            Letters::German => german(tonic),
            Letters::Syllables => format!("{}{}", syllable(tonic.step), alteration_sign(tonic.alter)),
        }
    }

    /// The same as it is read aloud: "E-flat", "Es", "mi flat".
    #[must_use]
    pub fn tonic_spoken(self, tonic: Tonic) -> String {
        match self.letters {
            Letters::German => german(tonic),
            Letters::English => format!("{}{}", tonic.step.letter(), alteration_spoken(tonic.alter, "-")),
            Letters::Syllables => format!("{}{}", syllable(tonic.step), alteration_spoken(tonic.alter, " ")),
        }
    }

    /// A key in a name such as "Horn in E-flat"; a bare English B would be B-flat to a German reader.
    #[must_use]
    pub fn key_word(self, tonic: Tonic) -> String {
        match (self.letters, tonic.step, tonic.alter) {
            (Letters::English, Step::B, 0) => "B natural".into(),
            (Letters::English, ..) => self.tonic_spoken(tonic),
            _ => self.tonic(tonic),
        }
    }

    /// A note with its octave: E♭4, e♭′, Es4, es′.
    #[must_use]
    pub fn note(self, pitch: Pitch) -> String {
        let name = self.tonic(pitch.tonic());
        match self.octaves {
            Octaves::Numbers => format!("{name}{}", pitch.octave),
            Octaves::Helmholtz if pitch.octave >= 3 => {
                let primes = "′".repeat(usize::try_from(pitch.octave - 3).unwrap_or(0).min(9));
                format!("{}{primes}", name.to_ascii_lowercase())
            }
            Octaves::Helmholtz => {
                let commas = ",".repeat(usize::try_from(2 - pitch.octave).unwrap_or(0).min(9));
                format!("{name}{commas}")
            }
        }
    }

    /// A note as it is read aloud: "E5", "E-flat 4", "Es 4", "one-line E-flat".
    #[must_use]
    pub fn note_spoken(self, pitch: Pitch) -> String {
        let name = self.tonic_spoken(pitch.tonic());
        match (self.octaves, pitch.alter) {
            (Octaves::Numbers, 0) => format!("{name}{}", pitch.octave),
            (Octaves::Numbers, _) => format!("{name} {}", pitch.octave),
            (Octaves::Helmholtz, _) => {
                let octave = match pitch.octave {
                    ..=0 => "sub-contra",
                    1 => "contra",
                    2 => "great",
                    3 => "small",
                    4 => "one-line",
                    5 => "two-line",
                    6 => "three-line",
                    7 => "four-line",
                    _ => "five-line",
                };
                format!("{octave} {name}")
            }
        }
    }

    /// A key: "E♭ major".
    #[must_use]
    pub fn key(self, key: Key) -> String {
        let mode = match key.mode {
            Mode::Major => "major",
            Mode::Minor => "minor",
        };
        format!("{} {mode}", self.tonic(key.tonic))
    }
}

fn syllable(step: Step) -> &'static str {
    match step {
        Step::C => "Do",
        Step::D => "Re",
        Step::E => "Mi",
        Step::F => "Fa",
        Step::G => "Sol",
        Step::A => "La",
        Step::B => "Si",
    }
}

/// German: -is and -es on the letter, but Es, As, and B for the flattened H.
fn german(tonic: Tonic) -> String {
    let letter = if tonic.step == Step::B { 'H' } else { tonic.step.letter() };
    let times = tonic.alter.unsigned_abs().min(9) as usize;
    match (tonic.step, tonic.alter) {
        (Step::B, -1) => "B".into(),
        (Step::E | Step::A, ..=-1) => format!("{letter}s{}", "es".repeat(times - 1)),
        (_, ..=-1) => format!("{letter}{}", "es".repeat(times)),
        _ => format!("{letter}{}", "is".repeat(times)),
    }
}

/// Flats or sharps as signs: ♭, ♯; 𝄪 is not in every font and is written ♯♯.
#[must_use]
pub fn alteration_sign(alter: i32) -> String {
    let sign = if alter < 0 { "♭" } else { "♯" };
    sign.repeat(alter.unsigned_abs().min(9) as usize)
}

fn alteration_spoken(alter: i32, joint: &str) -> String {
    let times = match alter.unsigned_abs() {
        0 => return String::new(),
        1 => "",
        2 => "double-",
        3 => "triple-",
        _ => "many-times-",
    };
    let sign = if alter < 0 { "flat" } else { "sharp" };
    format!("{joint}{times}{sign}")
}

/// A signature: "3♭", "1♯", "none".
#[must_use]
pub fn signature(signature: Signature) -> String {
    match signature.0 {
        0 => "none".into(),
        sharps @ 1.. => format!("{sharps}♯"),
        flats => format!("{}♭", flats.unsigned_abs()),
    }
}

/// Cents in whole numbers with a sign: "−14", "+2", "0".
#[must_use]
pub fn signed_cents(cents: f64) -> String {
    match cents.round() as i64 {
        0 => "0".into(),
        sharp @ 1.. => format!("+{sharp}"),
        flat => format!("−{}", flat.unsigned_abs()),
    }
}

/// A positive number with one decimal: 380.1.
#[must_use]
pub fn tenths(number: f64) -> String {
    let tenths = (number * 10.0).round() as u64;
    format!("{}.{}", tenths / 10, tenths % 10)
}

/// A positive number with at most two decimals: 430, 421.6.
#[must_use]
pub fn decimal(number: f64) -> String {
    let hundredths = (number * 100.0).round() as u64;
    let (whole, rest) = (hundredths / 100, hundredths % 100);
    match (rest, rest % 10) {
        (0, _) => whole.to_string(),
        (_, 0) => format!("{whole}.{}", rest / 10),
        _ => format!("{whole}.{rest:02}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names() {
        let pitch = |name: &str| name.parse::<Pitch>().unwrap();
        let english = Names::default();
        assert_eq!(english.note(pitch("Eb4")), "E♭4");
        assert_eq!(english.note_spoken(pitch("E5")), "E5");
        assert_eq!(english.note_spoken(pitch("Eb4")), "E-flat 4");
        assert_eq!(english.note_spoken(pitch("F##5")), "F-double-sharp 5");
        assert_eq!(signed_cents(-13.7), "−14");
        assert_eq!(signed_cents(-0.2), "0");
        assert_eq!(signed_cents(1.955), "+2");
        assert_eq!(signature(Signature(-3)), "3♭");
        assert_eq!((tenths(380.06), tenths(99.96)), ("380.1".into(), "100.0".into()));
        assert_eq!(
            (decimal(430.0), decimal(421.6), decimal(422.05)),
            ("430".into(), "421.6".into(), "422.05".into())
        );
    }
    #[test]
    fn german_names_and_syllables() {
        let tonic = |name: &str| name.parse::<Tonic>().unwrap();
        let german = Names { letters: Letters::German, ..Names::default() };
        for (name, expected) in [
            ("Bb", "B"),
            ("B", "H"),
            ("Eb", "Es"),
            ("Ab", "As"),
            ("Ebb", "Eses"),
            ("Abb", "Ases"),
            ("Bbb", "Heses"),
            ("Db", "Des"),
            ("F#", "Fis"),
            ("B#", "His"),
            ("C##", "Cisis"),
        ] {
            assert_eq!(german.tonic(tonic(name)), expected);
        }
        let syllables = Names { letters: Letters::Syllables, ..Names::default() };
        assert_eq!(syllables.note("Bb3".parse().unwrap()), "Si♭3");
        assert_eq!(syllables.note_spoken("Bb3".parse().unwrap()), "Si flat 3");
        assert_eq!(german.key("Bb major".parse().unwrap()), "B major");
    }

    #[test]
    fn octaves_in_helmholtzs_way() {
        let english = Names { octaves: Octaves::Helmholtz, ..Names::default() };
        let german = Names { letters: Letters::German, ..english };
        for (name, expected, in_german) in [
            ("C1", "C,", "C,"),
            ("C2", "C", "C"),
            ("C3", "c", "c"),
            ("C4", "c′", "c′"),
            ("Eb5", "e♭′′", "es′′"),
            ("Bb0", "B♭,,", "B,,"),
        ] {
            assert_eq!(english.note(name.parse().unwrap()), expected);
            assert_eq!(german.note(name.parse().unwrap()), in_german);
        }
        assert_eq!(english.note_spoken("Eb4".parse().unwrap()), "one-line E-flat");
    }
}
