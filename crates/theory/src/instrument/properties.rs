//! What an instrument is, as the columns of its table say it: one type a column.

use crate::pitch::Tonic;

/// Whether its notes have a pitch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PitchKind {
    /// They have.
    Notes,
    /// They have, and the label names them: drums that are tuned.
    NamedDrums,
    /// They have none: cymbals, triangle, bass drum. What is printed stands for a stroke.
    None,
}

/// How brass makes its notes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Build {
    /// It is no brass.
    NotBrass,
    /// By a slide, by keys or by finger holes: neither natural nor with valves.
    Slide,
    /// With valves.
    Valves,
    /// Natural.
    Natural,
    /// The label tells, or the year: horn and trumpet.
    ByLabel,
}

/// How it is written in other clefs than its treble clef.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OtherClefs {
    /// As in the treble clef.
    Same,
    /// At sounding pitch in C and F clefs.
    AtPitchOutsideG,
    /// At sounding pitch in the F clef.
    AtPitchInF,
    /// An octave nearer to what sounds in the F clef.
    OctaveHigherInF,
}

/// The key it stands in by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OwnKey {
    /// The key its written C sounds; none where that is C.
    ByTransposition,
    /// This one.
    Said(Tonic),
    /// None, though it transposes: its strings are tuned anew.
    None,
}

/// What a key on its label says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KeyMeans {
    /// How its notes sound: only its own key and those of its forms are known.
    HowItSounds,
    /// How it is built: its notes are written as they sound.
    HowItIsBuilt,
    /// How its notes sound, as on the trumpet of that key: its key varies by work.
    AsTrumpet,
}

/// Whether its name makes a reader take it for a horn: "Corno inglese" and its kin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LikeHorn {
    /// It does not.
    No,
    /// Often.
    Often,
    /// At times.
    AtTimes,
}

/// Whether its name says its key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NamesKey {
    /// Where it is not the usual one.
    WhereUnusual,
    /// Always: "Clarinet in A".
    Always,
    /// Never: "Cor anglais".
    Never,
}

/// How woodwind is blown, and into what: it decides which partials are strong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Blown {
    /// Air against an edge: flutes and recorders.
    Edge,
    /// A reed on a cylinder: clarinets.
    Cylinder,
    /// A reed on a cone: oboes, bassoons, saxophones.
    Cone,
}

/// The plain instrument that it is one of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "each is what its name says")]
pub enum InstrumentKind {
    Flute,
    Oboe,
    Clarinet,
    BassClarinet,
    Saxophone,
    Bassoon,
    Horn,
    Trumpet,
    Cornet,
    Trombone,
    Tuba,
    Timpani,
    Violin,
    Viola,
    Cello,
    Contrabass,
}
