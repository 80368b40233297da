//! The kinds of questions. Each has a number and a word that links and results keep for ever.

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// What sounds here?
    Sounds,
    /// What must be written, so that this sounds?
    Writes,
    /// Which note is it on the instrument in hand?
    InHand,
    /// What does the label say?
    Label,
    /// Which partial is it?
    Partial,
    /// How is it made: open, with the hand, with the lip?
    Made,
    /// Which degree of the movement's key is it?
    Degree,
    /// Which clef is to be imagined, with which change of signature?
    Clef,
    /// Which chord do the staves make?
    Chord,
    /// Which note of the transposed copy is wrong?
    WrongNote,
    /// Heard: which staff was played wrong?
    WrongStaff,
    /// Heard: which of the two is the natural partial?
    Natural,
    /// What do all players of the staff sound?
    Players,
}

impl Kind {
    /// Every kind, in the order of their numbers from 1.
    pub const ALL: [Self; 13] = [
        Self::Sounds,
        Self::Writes,
        Self::InHand,
        Self::Label,
        Self::Partial,
        Self::Made,
        Self::Degree,
        Self::Clef,
        Self::Chord,
        Self::WrongNote,
        Self::WrongStaff,
        Self::Natural,
        Self::Players,
    ];

    /// Its number in links and results, from 1. It never changes.
    #[must_use]
    pub const fn code(self) -> u8 {
        self as u8 + 1
    }

    /// The kind of that number.
    #[must_use]
    pub fn from_code(code: u8) -> Option<Self> {
        Self::ALL.get(usize::from(code.checked_sub(1)?)).copied()
    }

    /// Its word in the JavaScript package. It never changes.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Sounds => "sounds",
            Self::Writes => "writes",
            Self::InHand => "inHand",
            Self::Label => "label",
            Self::Partial => "partial",
            Self::Made => "made",
            Self::Degree => "degree",
            Self::Clef => "clef",
            Self::Chord => "chord",
            Self::WrongNote => "wrongNote",
            Self::WrongStaff => "wrongStaff",
            Self::Natural => "natural",
            Self::Players => "players",
        }
    }

    /// Whether one staff is asked about, not all of a page together.
    #[must_use]
    pub const fn is_of_one_staff(self) -> bool {
        !matches!(self, Self::Chord | Self::WrongStaff)
    }

    /// Whether the question is heard: [`crate::Question::heard`] says what is to be played.
    #[must_use]
    pub const fn is_heard(self) -> bool {
        matches!(self, Self::WrongStaff | Self::Natural)
    }
}
