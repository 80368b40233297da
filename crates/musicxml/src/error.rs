//! Why a file is not read.

use core::fmt;

/// Why a file is not read, or not to its end.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FileError {
    /// There is nothing in it.
    Empty,
    /// It is larger than is read: how many million bytes are.
    TooLarge(u64),
    /// A MIDI file: it has no spelling of its notes and no labels.
    Midi,
    /// Neither an archive nor XML.
    NotAScore,
    /// An archive that cannot be opened.
    Archive,
    /// An archive in which no score is named.
    NoScoreInside,
    /// Letters in a way that is not read, by the name that the file gives.
    Letters(String),
    /// Bytes that are no letters in the way the file says they are.
    WrongLetters,
    /// XML of something else, by the name of its first element.
    OtherXml(String),
    /// A score by measures instead of parts.
    Timewise,
    /// A score without parts or without bars.
    NoMusic,
    /// The XML itself is broken.
    Broken(Broken),
}

/// Where the XML of a file is broken, and how.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Broken {
    /// The line, from 1.
    pub line: usize,
    /// How.
    pub how: How,
}

/// How the XML of a file is broken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum How {
    /// It ends in the middle.
    CutOff,
    /// An element ends that did not begin, or something that is no XML stands there.
    Malformed,
    /// Elements within elements without end.
    TooDeep,
}

impl fmt::Display for FileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("This file is empty"),
            Self::TooLarge(most) => {
                write!(f, "This file is larger than {most} million letters when unpacked; no score needs so many")
            }
            Self::Midi => f.write_str(
                "This is a MIDI file: it tells keys and times, but neither how a note is spelled nor what stands at the head of a \
                 staff. Export the score as MusicXML from the program it was made with, and open that",
            ),
            Self::NotAScore => f.write_str("This is not a score in MusicXML (.musicxml, .xml or .mxl)"),
            Self::Archive => f.write_str("This compressed file is damaged and cannot be unpacked"),
            Self::NoScoreInside => f.write_str("There is no score in this compressed file"),
            Self::Letters(name) => {
                write!(f, "The letters of this file are written as “{name}”; UTF-8, UTF-16 and ISO-8859-1 are read")
            }
            Self::WrongLetters => f.write_str("The letters of this file are not written as it says they are"),
            Self::OtherXml(name) => write!(f, "This is XML, but no score: it begins with “{name}”"),
            Self::Timewise => f.write_str(
                "This score is written bar by bar (score-timewise); export it part by part (score-partwise), as nearly \
                 every program does",
            ),
            Self::NoMusic => f.write_str("This score has no bar of music"),
            Self::Broken(broken) => broken.fmt(f),
        }
    }
}

impl fmt::Display for Broken {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let line = self.line;
        match self.how {
            How::CutOff => write!(f, "The file breaks off in line {line}"),
            How::Malformed => write!(f, "The file is damaged in line {line}"),
            How::TooDeep => write!(f, "The file nests without end in line {line}"),
        }
    }
}

impl core::error::Error for FileError {}
impl core::error::Error for Broken {}
