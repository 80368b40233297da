//! A lesson: text to read, notes to touch and hear, what to look for in scores, and works where it stands.
//!
//! An entry a line, its fields parted by `|`:
//!
//! ```text
//! # Title
//! says | source | a paragraph whose facts come from that source
//! touch | /read?staff=…&notes=… | what it sounds | a sentence beside it
//! place | /score?demo=1&bars=… | what to look and listen for at that place of a movement
//! look | what to look for in scores
//! work | D or M | a work and its movements | what stands there
//! ```
//!
//! What a link sounds is written column by column, `-` a rest and `_` a held note; staves and players are parted by
//! `/`. Further lines with `#` and empty ones are skipped.

use core::fmt;

/// A lesson.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Lesson {
    /// Its title.
    pub title: String,
    /// Paragraphs and notes to touch, in order.
    pub entries: Vec<Entry>,
    /// What to look for in real scores.
    pub look: Vec<String>,
    /// Works where it stands.
    pub works: Vec<Work>,
}

/// A piece of a lesson.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Entry {
    /// A paragraph.
    Says {
        /// Where its facts come from.
        source: Source,
        /// Its words.
        text: String,
    },
    /// Notes to touch and hear.
    Touch {
        /// The link to them, from `/read` on.
        link: String,
        /// What they sound, staff by staff and player by player; in each the columns, parted by spaces.
        sounds: Vec<String>,
        /// What to attend to.
        text: String,
    },
    /// A place of a movement.
    Place {
        /// The link to it, from `/score` on.
        link: String,
        /// What to look and listen for.
        text: String,
    },
}

/// Where a fact comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Source {
    /// What the trade does, written down nowhere in particular.
    CommonPractice,
    /// From memory, not read again.
    Memory,
    /// Counted in open scores.
    Counted,
    /// A publication.
    Published(String),
}

/// A work where something can be seen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Work {
    /// Whether it was looked up in a score; else it is from memory.
    pub verified: bool,
    /// Composer, work and movements.
    pub name: String,
    /// What stands there.
    pub what: String,
}

/// Why a text is no lesson.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LessonError {
    /// It has no title or no entry.
    Empty,
    /// The line of that number, from 1, is not understood.
    Line(usize),
}

impl fmt::Display for LessonError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("The lesson is empty."),
            Self::Line(number) => write!(f, "Line {number} of the lesson is damaged."),
        }
    }
}

impl core::error::Error for LessonError {}

impl Lesson {
    /// Reads a lesson.
    ///
    /// # Errors
    /// Where a line is no entry, or the title or every entry is missing.
    pub fn read(text: &str) -> Result<Self, LessonError> {
        let mut lesson = Self::default();
        for (number, line) in (1..).zip(text.lines().map(str::trim)) {
            if let Some(title) = line.strip_prefix('#') {
                if lesson.title.is_empty() {
                    title.trim().clone_into(&mut lesson.title);
                }
            } else if !line.is_empty() {
                let fields: Vec<&str> = line.split('|').map(str::trim).collect();
                lesson.add(&fields).ok_or(LessonError::Line(number))?;
            }
        }
        if lesson.title.is_empty() || lesson.entries.is_empty() {
            return Err(LessonError::Empty);
        }
        Ok(lesson)
    }

    /// `None` where the fields are no entry.
    fn add(&mut self, fields: &[&str]) -> Option<()> {
        if fields.iter().any(|field| field.is_empty()) {
            return None;
        }
        match *fields {
            ["says", source, text] => {
                self.entries.push(Entry::Says { source: Source::named(source), text: text.to_owned() });
            }
            ["touch", link, sounds, text] if link.starts_with("/read?") => {
                let sounds = sounds.split('/').map(|part| part.trim().to_owned()).collect();
                self.entries.push(Entry::Touch { link: link.to_owned(), sounds, text: text.to_owned() });
            }
            ["place", link, text] if link.starts_with("/score?") => {
                self.entries.push(Entry::Place { link: link.to_owned(), text: text.to_owned() });
            }
            ["look", text] => self.look.push(text.to_owned()),
            ["work", mark @ ("D" | "M"), name, what] => {
                self.works.push(Work { verified: mark == "D", name: name.to_owned(), what: what.to_owned() });
            }
            _ => return None,
        }
        Some(())
    }
}

impl Source {
    fn named(name: &str) -> Self {
        match name {
            "common practice" => Self::CommonPractice,
            "from memory" => Self::Memory,
            "counted in scores" => Self::Counted,
            other => Self::Published(other.to_owned()),
        }
    }
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::CommonPractice => "common practice",
            Self::Memory => "from memory",
            Self::Counted => "counted in scores",
            Self::Published(name) => name,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn every_kind_of_line_is_read() {
        let lesson = Lesson::read(
            "# Title\n\nsays | from memory | Words.\ntouch | /read?staff=a&notes=C4 | C4 E4 / - _ | Hear.\n\
             place | /score?demo=1&bars=3-4 | Look.\n# a remark\nlook | There.\nwork | D | A work | horns\r\nwork | M | Another | drums\n",
        )
        .unwrap();
        assert_eq!(lesson.title, "Title");
        let link = "/read?staff=a&notes=C4".to_owned();
        let sounds = vec!["C4 E4".to_owned(), "- _".to_owned()];
        assert_eq!(
            lesson.entries,
            [
                Entry::Says { source: Source::Memory, text: "Words.".to_owned() },
                Entry::Touch { link, sounds, text: "Hear.".to_owned() },
                Entry::Place { link: "/score?demo=1&bars=3-4".to_owned(), text: "Look.".to_owned() }
            ]
        );
        assert_eq!(lesson.look, ["There."]);
        let marks: Vec<bool> = lesson.works.iter().map(|work| work.verified).collect();
        assert_eq!(marks, [true, false]);
    }

    #[test]
    fn what_is_no_lesson_is_said_to_be_none() {
        assert_eq!(Lesson::read(""), Err(LessonError::Empty));
        assert_eq!(Lesson::read("# Title"), Err(LessonError::Empty));
        assert_eq!(Lesson::read("says | from memory | Words."), Err(LessonError::Empty));
        for line in [
            "hello",
            "says | Words.",
            "says |  | x",
            "touch | https://x | C4 | x",
            "place | /read?staff=a | x",
            "work | X | a | b",
            "look",
        ] {
            assert_eq!(Lesson::read(&format!("# T\n{line}")), Err(LessonError::Line(2)), "{line}");
        }
    }

    #[test]
    fn sources_are_named_as_they_are_written() {
        for name in ["common practice", "from memory", "counted in scores", "Grove 1879, vol. 1"] {
            assert_eq!(Source::named(name).to_string(), name);
        }
    }

    proptest! {
        #[test]
        fn any_text_is_read_or_refused(text in "(says|touch|place|look|work|#| \\| |\\n|/read\\?|/score\\?|D|\\PC){0,40}") {
            let _ = Lesson::read(&text);
        }
    }
}
