//! The calls of the package in plain Rust.

use crate::problem::Problem;
use crate::reply::{Decoded, Reading, Staff, Writing};
use crate::request::{Request, decode_options};
use crate::value::{Fields, Value};
use crookwise_theory::{Printed, Sounding, label, read, write};

/// What a label at the head of a staff says.
///
/// # Errors
/// Where `text` is no string or `options` hold something else than a year. A label that is not understood is not
/// an error: it has a `problem`.
pub fn decode_label(text: Value, options: &(impl Fields + ?Sized)) -> Result<Decoded, Problem> {
    let text = text.required_text("text")?;
    Ok(decoded(label::decode(&text, decode_options(options)?)))
}

/// What a label says, as a caller sees it.
pub(crate) fn decoded(decoded: label::Decoded) -> Decoded {
    let of_first = decoded.alternatives.iter().filter(|other| other.of == 0);
    let staves: Vec<Staff> = decoded.staves.iter().map(Staff::of).collect();
    Decoded {
        staff: staves.first().cloned(),
        staves,
        changes: decoded.changes.iter().map(Staff::of).collect(),
        alternatives: of_first.map(|other| Staff::of(&other.staff)).collect(),
        assumed: decoded.assumed,
        problem: decoded.problem.map(|problem| problem.to_string()),
    }
}

/// From paper to sound.
///
/// # Errors
/// As [`Request::read`].
pub fn read_note(fields: &(impl Fields + ?Sized)) -> Result<Reading, Problem> {
    let request = Request::read(fields, "printed")?;
    Ok(Reading::of(&read(&request.situation(), Printed(request.pitch))))
}

/// From sound to paper.
///
/// # Errors
/// As [`Request::read`].
pub fn write_note(fields: &(impl Fields + ?Sized)) -> Result<Writing, Problem> {
    let request = Request::read(fields, "sounding")?;
    let writing = write(&request.situation(), Sounding(request.pitch));
    Ok(Writing {
        reading: Reading::of(&writing.strict),
        also_printed: writing.also_printed.map(|printed| printed.to_string()),
    })
}
