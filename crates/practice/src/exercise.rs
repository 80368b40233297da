//! The specification of an exercise: plain data, chosen by a teacher and carried by a link.

use crate::edition::Edition;
use crate::kind::Kind;
use crookwise_score::{Choice, Passage, Settings};
use crookwise_theory::Key;

/// Most questions an exercise may have.
pub const MOST_QUESTIONS: u8 = 60;
/// Most staves an exercise may ask for.
pub const MOST_ASKED: usize = 16;
/// Most keys an exercise may name.
pub const MOST_KEYS: usize = 30;

/// Letters of the longest title.
pub const LONGEST_TITLE: usize = 60;

/// An exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Exercise {
    /// What its maker calls it, as it is typed; empty where it has no title of its own. It changes nothing that is asked and
    /// is not among the bytes of [`Exercise::pack`]: it travels beside them.
    pub title: String,
    /// The rules by which its questions are drawn.
    pub edition: Edition,
    /// What is asked; each kind gets its turn.
    pub kinds: Vec<Kind>,
    /// The staves it is asked on, in score order. Left empty where the material is a passage with its own staves.
    pub staves: Vec<AskedStaff>,
    /// Where the notes come from.
    pub material: Material,
    /// Which notes are asked for.
    pub range: NoteRange,
    /// Keys of the movement; empty for the keys in which the staff is usually met.
    pub keys: Vec<Key>,
    /// The label of the instrument in the reader's hands, for [`Kind::InHand`] and [`Kind::WrongNote`].
    pub in_hand: Option<String>,
    /// What is shown beside the question.
    pub helps: Helps,
    /// Whether answers are chosen among a few instead of given freely.
    pub choices: bool,
    /// How many questions, 1 to [`MOST_QUESTIONS`].
    pub questions: u8,
    /// How long there is to answer.
    pub time: Time,
    /// What an answer must get right.
    pub marking: Marking,
    /// The seed of all chance: equal seeds give equal questions everywhere.
    pub seed: u32,
}

/// A staff to ask about.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct AskedStaff {
    /// The label as the score prints it.
    pub label: String,
    /// A reading of the label chosen against the usual one.
    pub choice: Option<Choice>,
    /// How it is printed: clef, old or new bass notation, system, signature, natural or valves.
    pub settings: Settings,
    /// The label of the crook it changes to in the course of a question (*muta in*).
    pub muta: Option<String>,
    /// Whether two players share the staff. A label that names two crooks gives each his own.
    pub pair: bool,
}

/// Where the notes come from.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Material {
    /// Single notes, weighted as real parts use them.
    #[default]
    Notes,
    /// Phrases made of the trade's patterns, in these styles; all of them where none is named.
    Phrases(Vec<Style>),
    /// The columns of a passage, on its own staves.
    Passage(Box<Passage>),
}

/// A family of patterns.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Style {
    /// Fanfare triads: partials 4 5 6 8.
    Fanfare,
    /// Horn fifths: third, fifth, sixth.
    HornFifths,
    /// The dominant: partials 6 and 9.
    Dominant,
    /// Pedals on C and G.
    Pedal,
    /// Octaves of a pair.
    Octaves,
    /// Melody in the clarino register, partials 8 to 12.
    Melody,
    /// Notes made with the hand, beside open ones.
    Hand,
}

/// Which notes are asked for, on top of what the staff can play.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum NoteRange {
    /// What parts use.
    #[default]
    Usual,
    /// Open notes from one partial to another, both included; natural brass only.
    Partials(u8, u8),
    /// Written notes from one key of the keyboard to another, both included, by MIDI number.
    Written(u8, u8),
}

/// What is shown beside the question.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Helps {
    /// The interval from paper to sound.
    pub interval: bool,
    /// The clef to imagine.
    pub clef: bool,
    /// What written C sounds.
    pub sounding_c: bool,
    /// The ladder of partials.
    pub series: bool,
    /// The name of the printed note.
    pub name: bool,
    /// The label in plain words.
    pub label: bool,
}

/// How long there is to answer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Time {
    /// As long as it takes.
    #[default]
    Free,
    /// Seconds for each question.
    Each(u16),
    /// Seconds for all of them.
    All(u16),
}

/// What an answer must get right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Marking {
    /// Another spelling of the same key of the keyboard is right too.
    pub enharmonics: bool,
    /// The octave must be right.
    pub octave: bool,
}

impl Style {
    /// Every style, in the order of their numbers from 0.
    pub const ALL: [Self; 7] = [
        Self::Fanfare,
        Self::HornFifths,
        Self::Dominant,
        Self::Pedal,
        Self::Octaves,
        Self::Melody,
        Self::Hand,
    ];
}

impl Default for Marking {
    fn default() -> Self {
        Self { enharmonics: false, octave: true }
    }
}

impl Default for Exercise {
    fn default() -> Self {
        Self {
            title: String::new(),
            edition: Edition::NOW,
            kinds: vec![Kind::Sounds],
            staves: Vec::new(),
            material: Material::Notes,
            range: NoteRange::Usual,
            keys: Vec::new(),
            in_hand: None,
            helps: Helps::default(),
            choices: false,
            questions: 10,
            time: Time::Free,
            marking: Marking::default(),
            seed: 1,
        }
    }
}

impl Exercise {
    /// Its own title, where it has one.
    ///
    /// ```
    /// use crookwise_practice::Exercise;
    /// let exercise = Exercise { title: " Monday ".into(), ..Exercise::default() };
    /// assert_eq!(exercise.own_title(), Some("Monday"));
    /// assert_eq!(Exercise::default().own_title(), None);
    /// ```
    #[must_use]
    pub fn own_title(&self) -> Option<&str> {
        Some(self.title.trim()).filter(|title| !title.is_empty())
    }

    /// Whether the other asks the same, whatever it is called.
    #[must_use]
    pub fn asks_the_same(&self, other: &Self) -> bool {
        let untitled = |one: &Self| Self { title: String::new(), ..one.clone() };
        self == other || untitled(self) == untitled(other)
    }
}

/// A title on one line, without control characters, not longer than may be. Blanks at its ends stay: somebody may be typing.
#[must_use]
pub fn clean_title(title: &str) -> String {
    title.chars().filter(|letter| !letter.is_control()).take(LONGEST_TITLE).collect()
}

impl AskedStaff {
    /// A staff with a label and nothing else told.
    #[must_use]
    pub fn of(label: &str) -> Self {
        Self { label: label.to_owned(), ..Self::default() }
    }
}
