//! A score goes out again: its parts at sounding pitch, or written for another instrument or crook. The file it came
//! from is the source: only what must change is written anew (pitches, keys, transpositions, accidentals, stems, chord
//! symbols, the name), and every other byte passes through as it came, understood or not.

mod accidentals;
mod edits;
mod pieces;
mod state;
mod walk;

use crate::encoding;
use crate::error::FileError;
use crate::import::{Import, import_text};
use crate::unpack::unpack;
use core::fmt;
use crookwise_score::score::Part;
use crookwise_theory::label::{DecodeOptions, StaffLabel, decode};
use crookwise_theory::{Sounding, Transposition};
use std::borrow::Cow;

/// At which pitch parts go out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ExportPitch {
    /// As they sound, without a transposition.
    Sounding,
    /// As the file has them.
    AsWritten,
    /// Written for the instrument or crook of this label.
    WrittenFor(String),
}

/// What goes out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ExportOptions {
    /// At which pitch.
    pub pitch: ExportPitch,
    /// Which parts, by their place in the file; `None` for all.
    pub parts: Option<Vec<usize>>,
}

/// Why nothing goes out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ExportError {
    /// The file cannot be read.
    File(FileError),
    /// There is no part of that place: which, and how many there are.
    NoSuchPart(usize, usize),
    /// No part was chosen.
    NoPart,
    /// The label names no instrument that is written for.
    Label(String),
}

impl fmt::Display for ExportError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::File(error) => error.fmt(f),
            Self::NoSuchPart(part, parts) => {
                write!(f, "There is no part of number {part}: this score has {parts}, counted from 0")
            }
            Self::NoPart => f.write_str("Choose at least one part"),
            Self::Label(label) => write!(f, "“{label}” names no instrument that parts are written for"),
        }
    }
}

impl core::error::Error for ExportError {}

impl From<FileError> for ExportError {
    fn from(error: FileError) -> Self {
        Self::File(error)
    }
}

/// What a score sounds: for each part of the file its notes in their order there.
pub type Sounds<'a> = dyn Fn(&Import) -> Vec<Vec<Sounding>> + 'a;

/// What a score sounds by the transpositions of its own file.
#[must_use]
pub fn by_file(read: &Import) -> Vec<Vec<Sounding>> {
    let sounds = |part: Option<&Part>| {
        part.map_or_else(Vec::new, Part::by_file).iter().map(|note| note.sounding).collect()
    };
    read.parts.iter().map(|own| sounds(read.score.part(own.id))).collect()
}

/// Writes a file anew as MusicXML in UTF-8. What sounds is what the file says by its own transposition.
///
/// # Errors
/// Where it cannot be read, or what is asked for is not there.
pub fn export(bytes: &[u8], options: &ExportOptions) -> Result<Vec<u8>, ExportError> {
    export_as(bytes, options, &by_file)
}

/// The same where who asks knows better what sounds: a label, an octave or a bass notation that was corrected.
///
/// # Errors
/// As [`export`].
pub fn export_as(bytes: &[u8], options: &ExportOptions, sounds: &Sounds<'_>) -> Result<Vec<u8>, ExportError> {
    let source = unpack(bytes)?;
    let text: Cow<'_, str> = encoding::decode(&source)?;
    let read = import_text(&text)?;
    let chosen = chosen(&read, options)?;
    let target = target(options)?;
    let plans: Vec<Plan> = match target {
        None => (0..read.parts.len())
            .map(|at| if chosen.contains(&at) { Plan::AsItIs } else { Plan::LeaveOut })
            .collect(),
        Some(target) => {
            let parts = sounds(&read).into_iter().zip(read.pitched).enumerate();
            parts
                .map(|(at, (sounding, pitched))| match chosen.contains(&at) {
                    true => Plan::Write(Rewrite { sounding, pitched, target: target.clone() }),
                    false => Plan::LeaveOut,
                })
                .collect()
        }
    };
    Ok(walk::rewritten(&text, &plans)?.into_bytes())
}

/// What becomes of a part.
#[derive(Debug)]
enum Plan {
    LeaveOut,
    AsItIs,
    Write(Rewrite),
}

/// A part written anew.
#[derive(Debug)]
struct Rewrite {
    /// What sounds, in the order of the file.
    sounding: Vec<Sounding>,
    /// Which notes of the file have a pitch.
    pitched: Vec<bool>,
    target: Target,
}

/// For whom parts are written.
#[derive(Clone, Debug)]
struct Target {
    /// From written to sounding.
    transposition: Transposition,
    /// The name of the part; `None` where it keeps its own.
    name: Option<String>,
    /// Whether it prints key signatures.
    signatures: bool,
}

fn chosen(read: &Import, options: &ExportOptions) -> Result<Vec<usize>, ExportError> {
    let all = || (0..read.parts.len()).collect();
    let chosen = options.parts.clone().unwrap_or_else(all);
    if chosen.is_empty() {
        return Err(ExportError::NoPart);
    }
    match chosen.iter().find(|part| **part >= read.parts.len()) {
        Some(part) => Err(ExportError::NoSuchPart(*part, read.parts.len())),
        None => Ok(chosen),
    }
}

fn target(options: &ExportOptions) -> Result<Option<Target>, ExportError> {
    match &options.pitch {
        ExportPitch::AsWritten => Ok(None),
        ExportPitch::Sounding => {
            Ok(Some(Target { transposition: Transposition::NONE, name: None, signatures: true }))
        }
        ExportPitch::WrittenFor(label) => {
            let decoded = decode(label, DecodeOptions::default());
            let staff: Option<&StaffLabel> = decoded.staves.first().filter(|staff| staff.is_pitched());
            let staff = staff.ok_or_else(|| ExportError::Label(label.chars().take(60).collect()))?;
            Ok(Some(Target {
                transposition: staff.transposition,
                name: Some(label.clone()),
                signatures: staff.natural_family().is_none() && staff.instrument.has_signature,
            }))
        }
    }
}
