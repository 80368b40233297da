//! A score goes out again: its parts at sounding pitch, or written for another instrument or crook. The file it came
//! from is the source: only what must change is written anew (pitches, keys, transpositions, accidentals, stems, chord
//! symbols, the name), and every other byte passes through as it came, understood or not.

mod accidentals;
mod corrected;
mod edits;
mod pieces;
mod state;
mod walk;

use crate::encoding;
use crate::error::FileError;
use crate::import::{Import, import_text};
use crate::labels::Named;
use crate::unpack::unpack;
use core::fmt;
use corrected::Correct;
pub use corrected::Corrected;
use crookwise_score::Score;
use crookwise_score::score::{Moment, Part, Quarters};
use crookwise_theory::label::{DecodeOptions, StaffLabel, decode};
use crookwise_theory::{Family, Signature, Sounding, Transposition};
use std::borrow::Cow;
use std::rc::Rc;

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
    /// All that was chosen are drums, which are written for no other instrument.
    OnlyDrums,
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
            Self::OnlyDrums => {
                f.write_str("Drums are written for no other instrument: choose a part that plays notes")
            }
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

/// The same where who asks knows better what sounds.
///
/// # Errors
/// As [`export`].
pub fn export_as(bytes: &[u8], options: &ExportOptions, sounds: &Sounds<'_>) -> Result<Vec<u8>, ExportError> {
    write(bytes, options, &|read| (sounds(read), None))
}

/// The same where labels, their readings or a bass notation were corrected: these govern what sounds, and stand in what goes out
/// as it is written too.
///
/// # Errors
/// As [`export`].
pub fn export_corrected(
    bytes: &[u8],
    options: &ExportOptions,
    corrected: &dyn Fn(&Import) -> Option<Corrected>,
) -> Result<Vec<u8>, ExportError> {
    write(bytes, options, &|read| {
        let corrected = corrected(read);
        (corrected.as_ref().map_or_else(|| by_file(read), |corrected| corrected.sounds(read)), corrected)
    })
}

/// What a score sounds, and what of it was corrected.
type Heard<'a> = dyn Fn(&Import) -> (Vec<Vec<Sounding>>, Option<Corrected>) + 'a;

fn write(bytes: &[u8], options: &ExportOptions, heard: &Heard<'_>) -> Result<Vec<u8>, ExportError> {
    let source = unpack(bytes)?;
    let text: Cow<'_, str> = encoding::decode(&source)?;
    let read = import_text(&text)?;
    let chosen = chosen(&read, options)?;
    let target = target(options)?;
    let (sounds, corrected) = heard(&read);
    let as_it_is = |at: usize, sounding: Vec<Sounding>| {
        let correct = corrected.as_ref().and_then(|corrected| corrected.of_part(&read, at));
        let pitched = read.pitched.get(at).cloned().unwrap_or_default();
        correct.map_or(Plan::AsItIs, |correct| Plan::Correct { sounding, pitched, correct })
    };
    let label = |at: usize| {
        let own = corrected.as_ref().and_then(|corrected| corrected.name(&read, at));
        let part = read.parts.get(at).and_then(|part| read.score.part(part.id));
        own.unwrap_or_else(|| part.map_or_else(String::new, |part| part.name.to_string()))
    };
    let Some(target) = target else {
        let plan =
            |(at, sounding)| if chosen.contains(&at) { as_it_is(at, sounding) } else { Plan::LeaveOut };
        let plans: Vec<Plan> = sounds.into_iter().enumerate().map(plan).collect();
        return Ok(walk::rewritten(&text, &plans)?.into_bytes());
    };
    let labels: Vec<String> = (0..read.parts.len()).map(label).collect();
    let mut names = match &target.label {
        None => Vec::new(),
        Some(name) => {
            let moved: Vec<usize> = (0..read.parts.len())
                .filter(|at| chosen.contains(at) && labels.get(*at).is_some_and(|label| !is_drum(label)))
                .collect();
            if moved.is_empty() {
                return Err(ExportError::OnlyDrums);
            }
            let labels: Vec<&str> =
                moved.iter().filter_map(|at| labels.get(*at)).map(String::as_str).collect();
            moved.iter().copied().zip(corrected::names(name, &labels)).collect::<Vec<(usize, String)>>()
        }
    };
    let signatures = signatures(&read.score, &target);
    let mut plans = Vec::new();
    for (at, (sounding, label)) in sounds.into_iter().zip(labels).enumerate() {
        let named = names.iter().position(|(part, _)| *part == at).map(|place| names.remove(place).1);
        plans.push(if !chosen.contains(&at) {
            Plan::LeaveOut
        } else if target.label.is_some() && named.is_none() {
            as_it_is(at, sounding)
        } else {
            let own = || corrected.as_ref().and_then(|corrected| corrected.name(&read, at));
            let pitched = read.pitched.get(at).cloned().unwrap_or_default();
            // What has no pitch has no key either.
            let signatures = signatures.clone().filter(|_| pitched.contains(&true));
            let name = named.or_else(own);
            Plan::Write(Rewrite { sounding, pitched, label, name, signatures, target: target.clone() })
        });
    }
    Ok(walk::rewritten(&text, &plans)?.into_bytes())
}

/// Whether a label names drums, with pitch or without: they are written for nobody else.
fn is_drum(label: &str) -> bool {
    Named::of(label).staff().is_some_and(|staff| staff.instrument.family == Family::Percussion)
}

/// The movement's signature as the target prints it, at the beginning and at the end of every bar; `None` where it prints none,
/// or the movement's is not known.
fn signatures(score: &Score, target: &Target) -> Option<Signatures> {
    let by = -target.transposition.0;
    let at = |moment: Moment| {
        let key = score.movement_at(moment)?;
        Some(key.signature().transposed(by).practical())
    };
    let bar = |start: Quarters, length: Quarters| {
        let end = start.plus(length).unwrap_or(start);
        Some((at(Moment::measured(start))?, at(Moment::without_length(end, 0))?))
    };
    target.signatures.then_some(())?;
    score.bars().iter().map(|own| bar(own.start, own.length)).collect()
}

/// Signatures at the beginning and at the end of every bar.
type Signatures = Rc<[(Signature, Signature)]>;

/// What becomes of a part.
#[derive(Debug)]
enum Plan {
    LeaveOut,
    AsItIs,
    Correct { sounding: Vec<Sounding>, pitched: Vec<bool>, correct: Correct },
    Write(Rewrite),
}

/// A part written anew.
#[derive(Debug)]
struct Rewrite {
    /// What sounds, in the order of the file.
    sounding: Vec<Sounding>,
    /// Which notes of the file have a pitch.
    pitched: Vec<bool>,
    /// What it was written for.
    label: String,
    /// Its name; `None` where it keeps its own.
    name: Option<String>,
    /// The signatures that it prints; `None` where its own ones are written for the target.
    signatures: Option<Signatures>,
    target: Target,
}

/// For whom parts are written.
#[derive(Clone, Debug)]
struct Target {
    /// From written to sounding.
    transposition: Transposition,
    /// The label that is written for; `None` for nobody.
    label: Option<String>,
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
            Ok(Some(Target { transposition: Transposition::NONE, label: None, signatures: true }))
        }
        ExportPitch::WrittenFor(label) => {
            let decoded = decode(label, DecodeOptions::default());
            let staff: Option<&StaffLabel> = decoded.staves.first().filter(|staff| staff.is_pitched());
            let staff = staff.ok_or_else(|| ExportError::Label(label.chars().take(60).collect()))?;
            Ok(Some(Target {
                transposition: staff.transposition,
                label: Some(label.clone()),
                signatures: staff.natural_family().is_none() && staff.instrument.has_signature,
            }))
        }
    }
}
