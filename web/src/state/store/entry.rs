//! An entry: a text that is kept, with a first line that says what it is and which version wrote it.

use crookwise_share::LinkError;

/// What an entry is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum What {
    /// What stands on the desk of a window.
    Desk,
    /// A page under a name.
    Page,
    /// The record of practice.
    Record,
    /// An exercise under way.
    Exercise,
    /// Answers that the record does not have yet, written as a record.
    Answers,
    /// The reader's wishes.
    Preferences,
    /// Pages as a file, or lines of one.
    Pages,
    /// An exercise in the list of named ones.
    Named,
    /// A course over weeks.
    Weeks,
    /// That an exercise was done.
    Done,
    /// Codes of a class.
    Codes,
    /// A score that was opened.
    Score,
    /// How scores were left.
    Left,
    /// What stands in Crooks.
    Crooks,
}

/// Why an entry cannot be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Unread {
    /// It is not as it was written.
    Damaged,
    /// A newer version wrote it.
    Newer,
}

impl From<LinkError> for Unread {
    /// Of a link that is kept.
    fn from(error: LinkError) -> Self {
        match error {
            LinkError::Version(_) => Self::Newer,
            _ => Self::Damaged,
        }
    }
}

impl What {
    /// All of them.
    pub const ALL: [Self; 14] = [
        Self::Desk,
        Self::Page,
        Self::Record,
        Self::Exercise,
        Self::Answers,
        Self::Preferences,
        Self::Pages,
        Self::Named,
        Self::Weeks,
        Self::Done,
        Self::Codes,
        Self::Score,
        Self::Left,
        Self::Crooks,
    ];

    /// The word in the first line, and in names.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Desk => "desk",
            Self::Page => "page",
            Self::Record => "record",
            Self::Exercise => "exercise",
            Self::Answers => "answers",
            Self::Preferences => "preferences",
            Self::Pages => "pages",
            Self::Named => "named",
            Self::Weeks => "weeks",
            Self::Done => "done",
            Self::Codes => "codes",
            Self::Score => "score",
            Self::Left => "left",
            Self::Crooks => "crooks",
        }
    }

    /// What a word means.
    #[must_use]
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|what| what.word() == word)
    }

    /// The version that is written.
    const fn version(self) -> u32 {
        match self {
            Self::Exercise | Self::Weeks => 2,
            _ => 1,
        }
    }
}

/// An entry with this in it.
#[must_use]
pub fn write(what: What, body: &str) -> String {
    format!("crookwise {} {}\n{body}", what.word(), what.version())
}

/// What is in an entry: what earlier versions wrote is read by the same reader.
///
/// # Errors
/// Where its first line is not as this version or an earlier one writes it.
pub fn read(what: What, text: &str) -> Result<&str, Unread> {
    let (head, body) = text.split_once('\n').unwrap_or((text, ""));
    let mut words = head.split_whitespace();
    let known = words.next() == Some("crookwise") && words.next() == Some(what.word());
    let version = words.next().and_then(|version| version.parse::<u32>().ok()).filter(|_| known);
    match version {
        Some(version) if words.next().is_none() && (1..=what.version()).contains(&version) => Ok(body),
        Some(version) if version > what.version() => Err(Unread::Newer),
        _ => Err(Unread::Damaged),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_entry_says_what_it_is_and_which_version_wrote_it() {
        for what in What::ALL {
            let text = write(what, "one\ntwo");
            assert_eq!(read(what, &text), Ok("one\ntwo"));
            assert_eq!(What::of_word(what.word()), Some(what));
            let version = format!(" {}\n", what.version());
            assert_eq!(read(what, &text.replacen(&version, " 3\n", 1)), Err(Unread::Newer));
            assert_eq!(read(what, &text.replacen(&version, " 1\n", 1)), Ok("one\ntwo"));
            for damaged in ["", "crookwise", "crookwise desk", "crookwise other 1\n", "rubbish \u{202e}\n1"] {
                assert_eq!(read(what, damaged), Err(Unread::Damaged));
            }
            assert_eq!(read(what, &text.replacen(&version, " 0\n", 1)), Err(Unread::Damaged));
        }
        assert_eq!(read(What::Page, &write(What::Desk, "")), Err(Unread::Damaged));
    }
}
