//! What can sound together: the closed lists of kinds, chords and roles.

use crookwise_theory::{Interval, Tonic};

/// The kinds of things that can sound.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HarmonyKind {
    /// Nothing.
    Silence,
    /// One pitch class.
    One {
        /// Its name.
        note: Tonic,
    },
    /// Two pitch classes a perfect fifth or fourth apart.
    OpenFifth {
        /// The lower note of the fifth.
        root: Tonic,
        /// Whether the upper one is in the bass.
        fifth_in_bass: bool,
    },
    /// Two pitch classes.
    Interval {
        /// The bass.
        lower: Tonic,
        /// The other.
        upper: Tonic,
        /// Upwards from the bass, within the octave.
        interval: Interval,
    },
    /// A chord.
    Chord(Chord),
    /// A chord over a bass that is not its member.
    Pedal {
        /// The bass.
        bass: Tonic,
        /// What sounds above it; its `bass` is [`Role::Pedal`].
        chord: Chord,
    },
    /// Nothing that has a name.
    NoChord,
}

/// A chord with a name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Chord {
    /// Its root; the lower note of the sixth in an augmented sixth.
    pub root: Tonic,
    /// Which chord it is.
    pub quality: Quality,
    /// The member that nobody has.
    pub missing: Option<Role>,
    /// The member in the bass.
    pub bass: Role,
}

/// Which chord.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Quality {
    /// C E G.
    Major,
    /// C E♭ G.
    Minor,
    /// C E♭ G♭.
    Diminished,
    /// C E G♯.
    Augmented,
    /// C E G B♭.
    DominantSeventh,
    /// C E G B.
    MajorSeventh,
    /// C E♭ G B♭.
    MinorSeventh,
    /// C E♭ G♭ B♭.
    HalfDiminishedSeventh,
    /// C E♭ G♭ B♭♭.
    DiminishedSeventh,
    /// C E♭ G B.
    MinorMajorSeventh,
    /// C E G♯ B.
    AugmentedMajorSeventh,
    /// C E G♯ B♭.
    AugmentedSeventh,
    /// C G B♭: dominant or minor, the third is missing.
    Seventh,
    /// C E G B♭ D.
    DominantNinth,
    /// C E G B♭ D♭.
    DominantMinorNinth,
    /// C F G.
    SuspendedFourth,
    /// C F G B♭.
    SeventhSuspendedFourth,
    /// C E A♯.
    ItalianSixth,
    /// C E F♯ A♯.
    FrenchSixth,
    /// C E G A♯.
    GermanSixth,
}

/// What a pitch class is in a harmony.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// The root.
    Root,
    /// The lower note of an augmented sixth, which has no root.
    Lower,
    /// The third.
    Third,
    /// The suspended fourth, or the augmented one of a French sixth.
    Fourth,
    /// The fifth.
    Fifth,
    /// The augmented sixth.
    Sixth,
    /// The seventh.
    Seventh,
    /// The ninth.
    Ninth,
    /// The bass under a chord it does not belong to.
    Pedal,
    /// A note of what has no root: one note, an interval, no chord.
    Other,
}

impl Role {
    /// Letters above the root, within the octave.
    pub(super) const fn letters(self) -> i32 {
        match self {
            Self::Root | Self::Lower | Self::Pedal | Self::Other => 0,
            Self::Ninth => 1,
            Self::Third => 2,
            Self::Fourth => 3,
            Self::Fifth => 4,
            Self::Sixth => 5,
            Self::Seventh => 6,
        }
    }
}

impl Chord {
    /// Position: 0 with the root in the bass, 1 with the third, 2 with the fifth, 3 with the seventh. `None` for an
    /// augmented sixth and over a pedal.
    #[must_use]
    pub fn inversion(&self) -> Option<u8> {
        let sixth =
            matches!(self.quality, Quality::ItalianSixth | Quality::FrenchSixth | Quality::GermanSixth);
        match self.bass {
            _ if sixth => None,
            Role::Root => Some(0),
            Role::Third => Some(1),
            Role::Fifth => Some(2),
            Role::Seventh => Some(3),
            _ => None,
        }
    }
}
