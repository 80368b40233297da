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
            Self::Lower => "lower note",
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

/// How the notes of a name are called.
type NameOf<'a> = &'a dyn Fn(Tonic) -> String;

impl Chord {
    /// "G minor", "C major seventh, third in the bass", "German sixth on A-flat", with notes called as told.
    #[must_use]
    pub fn name_by(&self, name: NameOf<'_>) -> String {
        let (root, quality) = (name(self.root), self.quality.words());
        let mut words = match self.quality {
            Quality::ItalianSixth | Quality::FrenchSixth | Quality::GermanSixth => {
                format!("{quality} on {root}")
            }
            _ => format!("{root} {quality}"),
        };
        if let Some(missing) = self.missing {
            words.push_str(", ");
            words.push_str(missing.words());
            words.push_str(" missing");
        }
        if !matches!(self.bass, Role::Root | Role::Lower | Role::Pedal | Role::Other) {
            words.push_str(", ");
            words.push_str(self.bass.words());
            words.push_str(" in the bass");
        }
        words
    }
}

impl Harmony {
    /// "C major, third in the bass", "open fifth on C", "G dominant seventh over a pedal C", "no chord", with notes
    /// called as told.
    #[must_use]
    pub fn name_by(&self, name: NameOf<'_>) -> String {
        match self.kind {
            HarmonyKind::Silence => "silence".into(),
            HarmonyKind::One { note } => {
                let octaves = self.members.iter().any(|member| member.octave_doublings() > 0);
                let how = match self.letters.len() {
                    _ if octaves => "in octaves",
                    0 | 1 => "alone",
                    _ => "in unison",
                };
                format!("{} {how}", name(note))
            }
            HarmonyKind::OpenFifth { root, fifth_in_bass } => {
                let bass = if fifth_in_bass { ", fifth in the bass" } else { "" };
                format!("open fifth on {}{bass}", name(root))
            }
            HarmonyKind::Interval { lower, upper, interval } => {
                format!("{interval}, {} and {}", name(lower), name(upper))
            }
            HarmonyKind::Chord(chord) => chord.name_by(name),
            HarmonyKind::Pedal { bass, chord } => {
                let comma = if chord.missing.is_some() { "," } else { "" };
                format!("{}{comma} over a pedal {}", chord.name_by(name), name(bass))
            }
            HarmonyKind::NoChord => "no chord".into(),
        }
    }
}

/// In English: "German sixth on A-flat".
impl fmt::Display for Chord {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.name_by(&english))
    }
}

/// In English: "C major, third in the bass".
impl fmt::Display for Harmony {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.name_by(&english))
    }
}

/// A name as it is read aloud: "E-flat", "F-sharp".
fn english(tonic: Tonic) -> String {
    let sign = match tonic.alter {
        0 => "",
        1 => "-sharp",
        -1 => "-flat",
        2 => "-double-sharp",
        -2 => "-double-flat",
        _ => return tonic.to_string(),
    };
    format!("{}{sign}", tonic.step.letter())
}
