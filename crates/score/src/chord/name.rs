//! Chords in plain words.

use super::{Chord, Harmony, HarmonyKind, Quality, Role};
use core::fmt;
use crookwise_theory::Tonic;

impl Quality {
    /// What stands after the root, or before it for an augmented sixth.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Major => "major",
            Self::Minor => "minor",
            Self::Diminished => "diminished",
            Self::Augmented => "augmented",
            Self::DominantSeventh => "dominant seventh",
            Self::MajorSeventh => "major seventh",
            Self::MinorSeventh => "minor seventh",
            Self::HalfDiminishedSeventh => "half-diminished seventh",
            Self::DiminishedSeventh => "diminished seventh",
            Self::MinorMajorSeventh => "minor-major seventh",
            Self::AugmentedMajorSeventh => "augmented major seventh",
            Self::AugmentedSeventh => "augmented seventh",
            Self::Seventh => "seventh",
            Self::DominantNinth => "dominant ninth",
            Self::DominantMinorNinth => "dominant minor ninth",
            Self::SuspendedFourth => "with a suspended fourth",
            Self::SeventhSuspendedFourth => "seventh with a suspended fourth",
            Self::ItalianSixth => "Italian sixth",
            Self::FrenchSixth => "French sixth",
            Self::GermanSixth => "German sixth",
        }
    }
}

impl Role {
    /// The member's name.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Root => "root",
            Self::Third => "third",
            Self::Fourth => "fourth",
            Self::Fifth => "fifth",
            Self::Sixth => "sixth",
            Self::Seventh => "seventh",
            Self::Ninth => "ninth",
            Self::Pedal => "pedal",
            Self::Other => "note",
        }
    }
}

/// "G minor", "C major seventh, third in the bass", "German sixth on A-flat".
impl fmt::Display for Chord {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (root, quality) = (English(self.root), self.quality.words());
        match self.quality {
            Quality::ItalianSixth | Quality::FrenchSixth | Quality::GermanSixth => {
                write!(f, "{quality} on {root}")?;
            }
            _ => write!(f, "{root} {quality}")?,
        }
        if let Some(missing) = self.missing {
            write!(f, ", {} missing", missing.words())?;
        }
        match self.bass {
            Role::Root | Role::Pedal | Role::Other => Ok(()),
            other => write!(f, ", {} in the bass", other.words()),
        }
    }
}

/// "C major, third in the bass", "open fifth on C", "G dominant seventh over a pedal C", "no chord".
impl fmt::Display for Harmony {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.kind {
            HarmonyKind::Silence => f.write_str("silence"),
            HarmonyKind::One { note } => {
                let octaves = self.members.iter().any(|member| member.octave_doublings() > 0);
                let how = match self.letters.len() {
                    _ if octaves => "in octaves",
                    0 | 1 => "alone",
                    _ => "in unison",
                };
                write!(f, "{} {how}", English(note))
            }
            HarmonyKind::OpenFifth { root, fifth_in_bass } => {
                write!(f, "open fifth on {}", English(root))?;
                f.write_str(if fifth_in_bass { ", fifth in the bass" } else { "" })
            }
            HarmonyKind::Interval { lower, upper, interval } => {
                write!(f, "{interval}, {} and {}", English(lower), English(upper))
            }
            HarmonyKind::Chord(chord) => chord.fmt(f),
            HarmonyKind::Pedal { bass, chord } => {
                let comma = if chord.missing.is_some() { "," } else { "" };
                write!(f, "{chord}{comma} over a pedal {}", English(bass))
            }
            HarmonyKind::NoChord => f.write_str("no chord"),
        }
    }
}

/// A name as it is read aloud: "E-flat", "F-sharp".
struct English(Tonic);

impl fmt::Display for English {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = match self.0.alter {
            0 => "",
            1 => "-sharp",
            -1 => "-flat",
            2 => "-double-sharp",
            -2 => "-double-flat",
            _ => return self.0.fmt(f),
        };
        write!(f, "{}{sign}", self.0.step.letter())
    }
}
