//! The elements within one that may have to change, and what they say.

use crate::read::whole;
use core::ops::Range;
use crookwise_theory::{Pitch, Signature, Step, Tonic, Transposition};
use quick_xml::Reader;
use quick_xml::events::BytesStart;
use std::borrow::Cow;

/// An element within another, by its path from there: "pitch/step".
pub(super) struct Piece {
    pub path: String,
    /// The staff it is for; `None` for all.
    pub number: Option<u8>,
    pub is_stop: bool,
    pub whole: Range<usize>,
    /// Its first tag.
    pub tag: Range<usize>,
    pub text: String,
}

pub(super) fn at(reader: &Reader<&[u8]>) -> usize {
    usize::try_from(reader.buffer_position()).unwrap_or(usize::MAX)
}

pub(super) fn attribute(tag: &BytesStart<'_>, name: &str) -> Option<String> {
    let mut attributes = tag.attributes();
    let found =
        attributes.with_checks(false).flatten().find(|attribute| attribute.key.into_inner() == name)?;
    let value: Cow<'_, str> = found.value;
    Some(value.into_owned())
}

pub(super) fn element_of(pitch: Pitch) -> String {
    let alter = match pitch.alter {
        0 => String::new(),
        alter => format!("<alter>{alter}</alter>"),
    };
    format!("<pitch><step>{}</step>{alter}<octave>{}</octave></pitch>", pitch.step.letter(), pitch.octave)
}

/// The pitch of a note as the file writes it; `None` where it is none, or lies between two semitones.
pub(super) fn own_pitch(pieces: &[Piece]) -> Option<Pitch> {
    let text = |path: &str| pieces.iter().find(|piece| piece.path == path).map(|piece| piece.text.as_str());
    let step = text("pitch/step")?.chars().next().and_then(Step::from_letter)?;
    let alter = text("pitch/alter").map_or(Some(0), |alter| whole(alter.trim_end_matches(".0")))?;
    Some(Pitch::new(step, alter, whole(text("pitch/octave")?)?))
}

pub(super) fn chord_letter(above: &str, tonic: Tonic) -> String {
    let alter = match tonic.alter {
        0 => String::new(),
        alter => format!("<{above}-alter>{alter}</{above}-alter>"),
    };
    format!("<{above}-step>{}</{above}-step>{alter}", tonic.step.letter())
}

/// The element of a key.
pub(super) fn key_element(signature: Signature) -> String {
    format!("<key><fifths>{}</fifths></key>", signature.0)
}

/// The element of a transposition, for one staff or for all; empty for none, unless it takes the place of another one
/// (`staff`). `double` is the element of the octave that sounds with it.
pub(super) fn transpose(by: Transposition, staff: Option<Option<u8>>, double: &str) -> String {
    if by == Transposition::NONE && staff.is_none() {
        return String::new();
    }
    let numbers = by.to_musicxml();
    let octaves = match numbers.octave_change {
        0 => String::new(),
        octaves => format!("<octave-change>{octaves}</octave-change>"),
    };
    let number = match staff.flatten() {
        Some(number) => format!(" number=\"{number}\""),
        None => String::new(),
    };
    format!(
        "<transpose{number}><diatonic>{}</diatonic><chromatic>{}</chromatic>{octaves}{double}</transpose>",
        numbers.diatonic, numbers.chromatic
    )
}

/// What a `transpose` of the file says; letters it leaves out are the usual ones, since only keys hang on them here.
pub(super) fn told(pieces: &[Piece], whole: &Range<usize>) -> Transposition {
    let number = |path: &str| {
        let own =
            pieces.iter().filter(|piece| piece.whole.start >= whole.start && piece.whole.end <= whole.end);
        let text = own.filter(|piece| piece.path == path).map(|piece| piece.text.as_str()).next()?;
        text.parse::<i32>().ok().filter(|number| number.abs() <= 200)
    };
    let chromatic = number("transpose/chromatic").unwrap_or(0);
    let octave_change = number("transpose/octave-change").unwrap_or(0);
    match number("transpose/diatonic") {
        Some(diatonic) => {
            let numbers = crookwise_theory::MusicXmlTranspose { diatonic, chromatic, octave_change };
            Transposition::from_musicxml(numbers)
        }
        None => Transposition::from_chromatic(chromatic, octave_change, None),
    }
}
