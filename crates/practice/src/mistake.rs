//! What can go wrong in reading and writing, by name, and the mark an answer gets.
//!
//! The list follows what teachers meet (common practice). Each mistake has a number and a word that results keep for
//! ever.

/// A typical mistake.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mistake {
    /// The interval was taken the wrong way: a trumpet in D like a horn in D.
    Direction,
    /// The right letter in another octave.
    Octave,
    /// A third for a sixth, or a sixth for a third.
    ThirdForSixth,
    /// Major for minor or the other way round: a clarinet in A by a major third.
    Quality,
    /// E for E-flat ("Es"), or the other way round.
    EForEs,
    /// B natural ("H") for B-flat (German "B"), or the other way round.
    BForH,
    /// The clarinet in A read as the one in B-flat, or the other way round.
    OtherClarinet,
    /// Read by an imagined clef, but the printed accidental was not shifted.
    AccidentalNotShifted,
    /// Read by an imagined clef, but its signature was forgotten.
    ClefSignature,
    /// Old bass-clef notation forgotten, or taken where the new one was meant.
    OldBassNotation,
    /// The movement's signature was read into a staff that has none.
    SignatureImagined,
    /// The signature that stands on the staff was overlooked.
    SignatureOverlooked,
    /// The change of crook was missed, or made too early.
    CrookChange,
    /// Cor anglais or basset horn treated as a horn, or the other way round.
    TakenForHorn,
    /// The right key of the keyboard with another letter: C-sharp for D-flat.
    Spelling,
    /// A partial that lies between the keys was taken literally: 7, 11, 13 and 14.
    PartialLiterally,
    /// Drums printed as C and G taken at pitch, or drums at pitch transposed.
    DrumsInCAndG,
    /// "a 2" counted as two different notes.
    ATwo,
    /// Read in another clef than the one that stands there: the alto clef of the viola beside the horns.
    ClefMisread,
    /// Read as if it sounded as printed.
    NotTransposed,
    /// Alto for basso, or the other way round.
    AltoForBasso,
    /// Read with the crook of the other player on the staff.
    OtherPlayersCrook,
    /// The degree was counted above the crook's C instead of in the movement's key.
    CrookForKey,
    /// The right chord, but another note lies lowest.
    OtherBass,
    /// The right key, but another instrument: "trompa" taken for a trumpet, "clarino" for a clarinet.
    OtherInstrument,
    /// A fourth for a fifth, or a fifth for a fourth.
    FourthForFifth,
    /// Of two players only one note was given.
    NoteMissing,
}

impl Mistake {
    /// Every mistake, in the order of their numbers from 1.
    pub const ALL: [Self; 27] = [
        Self::Direction,
        Self::Octave,
        Self::ThirdForSixth,
        Self::Quality,
        Self::EForEs,
        Self::BForH,
        Self::OtherClarinet,
        Self::AccidentalNotShifted,
        Self::ClefSignature,
        Self::OldBassNotation,
        Self::SignatureImagined,
        Self::SignatureOverlooked,
        Self::CrookChange,
        Self::TakenForHorn,
        Self::Spelling,
        Self::PartialLiterally,
        Self::DrumsInCAndG,
        Self::ATwo,
        Self::ClefMisread,
        Self::NotTransposed,
        Self::AltoForBasso,
        Self::OtherPlayersCrook,
        Self::CrookForKey,
        Self::OtherBass,
        Self::OtherInstrument,
        Self::FourthForFifth,
        Self::NoteMissing,
    ];

    /// Every mistake by how much it tells: what only this staff invites comes before what any staff does. A
    /// teacher's estimate: common practice.
    const BY_TELLING: [Self; 27] = [
        Self::ATwo,
        Self::NoteMissing,
        Self::CrookChange,
        Self::OtherPlayersCrook,
        Self::OldBassNotation,
        Self::AltoForBasso,
        Self::EForEs,
        Self::BForH,
        Self::OtherClarinet,
        Self::DrumsInCAndG,
        Self::PartialLiterally,
        Self::CrookForKey,
        Self::TakenForHorn,
        Self::OtherInstrument,
        Self::OtherBass,
        Self::NotTransposed,
        Self::ThirdForSixth,
        Self::FourthForFifth,
        Self::SignatureOverlooked,
        Self::Direction,
        Self::Quality,
        Self::SignatureImagined,
        Self::ClefMisread,
        Self::AccidentalNotShifted,
        Self::ClefSignature,
        Self::Spelling,
        Self::Octave,
    ];

    /// Its place among all by how much it tells; 0 tells most.
    fn place(self) -> usize {
        Self::BY_TELLING.iter().position(|one| *one == self).unwrap_or(Self::BY_TELLING.len())
    }

    /// Its number in results, from 1. It never changes.
    #[must_use]
    pub const fn code(self) -> u8 {
        self as u8 + 1
    }

    /// Whether questions and choices are made of it. Links draw their questions from these, so what was named later is
    /// only named.
    pub(crate) const fn is_planted(self) -> bool {
        self.code() <= Self::OtherInstrument.code()
    }

    /// The mistake of that number.
    #[must_use]
    pub fn from_code(code: u8) -> Option<Self> {
        Self::ALL.get(usize::from(code.checked_sub(1)?)).copied()
    }

    /// Its word in the JavaScript package. It never changes.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Direction => "direction",
            Self::Octave => "octave",
            Self::ThirdForSixth => "thirdForSixth",
            Self::Quality => "quality",
            Self::EForEs => "eForEs",
            Self::BForH => "bForH",
            Self::OtherClarinet => "otherClarinet",
            Self::AccidentalNotShifted => "accidentalNotShifted",
            Self::ClefSignature => "clefSignature",
            Self::OldBassNotation => "oldBassNotation",
            Self::SignatureImagined => "signatureImagined",
            Self::SignatureOverlooked => "signatureOverlooked",
            Self::CrookChange => "crookChange",
            Self::TakenForHorn => "takenForHorn",
            Self::Spelling => "spelling",
            Self::PartialLiterally => "partialLiterally",
            Self::DrumsInCAndG => "drumsInCAndG",
            Self::ATwo => "aTwo",
            Self::ClefMisread => "clefMisread",
            Self::NotTransposed => "notTransposed",
            Self::AltoForBasso => "altoForBasso",
            Self::OtherPlayersCrook => "otherPlayersCrook",
            Self::CrookForKey => "crookForKey",
            Self::OtherBass => "otherBass",
            Self::OtherInstrument => "otherInstrument",
            Self::FourthForFifth => "fourthForFifth",
            Self::NoteMissing => "noteMissing",
        }
    }
}

/// What explains a wrong answer: one mistake, or two made together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Explanation {
    /// The mistake.
    pub mistake: Mistake,
    /// The other one, where only both together lead to the answer.
    pub with: Option<Mistake>,
}

impl Explanation {
    /// A mistake that leads to the answer by itself.
    pub(crate) const fn single(mistake: Mistake) -> Self {
        Self { mistake, with: None }
    }

    /// How much it tells; less tells more.
    pub(crate) fn place(self) -> usize {
        self.mistake.place().min(self.with.map_or(usize::MAX, Mistake::place))
    }
}

/// The mark of an answer.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Mark {
    /// Whether a musician would accept it.
    pub right: bool,
    /// What explains a wrong answer, each by itself, what tells most first: two at most. Empty where nothing typical
    /// does.
    pub explained: Vec<Explanation>,
}

impl Mark {
    /// Every mistake named, each once, in the order of the explanations.
    #[must_use]
    pub fn mistakes(&self) -> Vec<Mistake> {
        let mut named = Vec::new();
        for mistake in self.explained.iter().flat_map(|one| [Some(one.mistake), one.with]).flatten() {
            if !named.contains(&mistake) {
                named.push(mistake);
            }
        }
        named
    }
}
