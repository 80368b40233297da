//! Why a link cannot be opened.

use core::fmt;
use crookwise_score::{MOST_COLUMNS, MOST_PLAYERS, MOST_STAVES};

/// Why a link cannot be opened, each with a sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LinkError {
    /// It does not begin as one of ours.
    Foreign,
    /// Made by a later version.
    Version(String),
    /// The checksum does not fit: something was lost or changed on the way.
    Damaged,
    /// Longer than any link made here.
    TooLong,
    /// No staff is named.
    NoStaff,
    /// More staves, players or columns than a page has.
    TooMany,
    /// A part of it is not understood.
    Field {
        /// The part's name in the link.
        name: &'static str,
        /// What stands there, cut after some characters.
        value: String,
    },
    /// A part of this name is not known, and no checksum says that it was meant; the name, cut after some characters.
    Unknown(String),
}

impl LinkError {
    pub(crate) fn field(name: &'static str, value: &str) -> Self {
        Self::Field { name, value: plain(value) }
    }

    pub(crate) fn unknown(name: &str) -> Self {
        Self::Unknown(plain(name))
    }
}

/// What a stranger wrote, to be shown: short, and without control or direction marks.
fn plain(text: &str) -> String {
    let plain = |letter: &char| {
        letter.is_ascii_alphanumeric() || matches!(letter, 'À'..='ž') || " .,;:+-_#♭♯'’()/".contains(*letter)
    };
    text.chars().filter(plain).take(24).collect()
}

/// What a part of a link says, in a musician's words.
fn said(name: &'static str) -> &'static str {
    match name {
        "staff" => "a label",
        "reads" => "what a label means",
        "played" => "natural or valves",
        "clef" => "a clef",
        "bass" => "how the bass clef is read",
        "system" => "a way of writing",
        "signature" => "a signature",
        "page" => "whether the page is written or sounding",
        "notes" => "the notes",
        "muta" | "crook" => "a change of crook or instrument",
        "key" => "the key of the movement",
        "bars" => "where the bars begin",
        "lengths" => "the lengths of the notes",
        "a4" => "the height of A",
        "from" => "the key of the temperament",
        "tuned" => "the note that is tuned",
        "warmth" => "the warmth of the air",
        "hand" => "the instrument in hand",
        "at" | "on" | "player" => "which note is selected",
        "step" => "the step of the course",
        "players" => "the players",
        "temperament" => "the temperament",
        "year" => "the year",
        "keys" => "the keys of the movement",
        "wanted" => "the notes that are wanted",
        "of" => "the title of what is wanted",
        "change" => "the rest for a change of crook",
        "cost" => "what a change costs",
        "worth" => "what each way of making a note is worth",
        "highest" => "the highest partial",
        "mended" => "the notes that were mended",
        "fixed" => "the crooks that were fixed",
        "printed" => "the crooks that are printed",
        "time" => "the time signature",
        "table" => "the key of the table",
        "crooks" | "mine" => "the crooks",
        name => name,
    }
}

impl fmt::Display for LinkError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Foreign => f.write_str("This address does not lead to a page of Crookwise"),
            Self::Version(version) => {
                write!(f, "This link was made by a later version of Crookwise ({version}); reload to get it")
            }
            Self::Damaged => f.write_str("This link is damaged: a part of it was lost or changed on the way"),
            Self::TooLong => f.write_str("This link is longer than any that Crookwise makes"),
            Self::NoStaff => f.write_str("This link names no staff"),
            Self::TooMany => write!(
                f,
                "This link asks for more than a page holds: {MOST_STAVES} staves, {MOST_PLAYERS} players a staff, {MOST_COLUMNS} columns"
            ),
            Self::Field { name, value } => {
                write!(f, "This link is not understood where it gives {}: “{value}”", said(name))
            }
            Self::Unknown(name) => write!(f, "This link has a part that is not known here: “{name}”"),
        }
    }
}

impl core::error::Error for LinkError {}
