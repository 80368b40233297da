//! The reader: one pass over the events of a file, part after part. A [`Cursor`] goes from element to
//! element; each file here reads the elements it is named for into the plain data of `raw`; `assemble` makes the
//! score of it.

mod assemble;
mod attributes;
mod barline;
mod clock;
mod cursor;
mod direction;
mod header;
mod measure;
mod notations;
mod note;
mod numbers;
mod raw;

pub(crate) use assemble::{Assembled, assemble};
pub(crate) use numbers::whole;
pub use raw::RawCounts;
pub(crate) use raw::RawScore;

use crate::error::FileError;
use crate::remark::{Oddity, Remarks};
use cursor::Cursor;
use measure::PartReader;
use raw::RawPart;
use std::sync::Arc;

/// Reads the text of a file. Where it breaks off after some bars, those are given, and the remark says where.
pub(crate) fn read(text: &str, remarks: &mut Remarks) -> Result<RawScore, FileError> {
    let mut cursor = Cursor::new(text);
    let mut score = RawScore::default();
    let root = cursor.child()?.ok_or(FileError::NotAScore)?;
    match root.name() {
        "score-partwise" => {}
        "score-timewise" => return Err(FileError::Timewise),
        other => return Err(FileError::OtherXml(other.chars().take(60).collect())),
    }
    let mut missing = Oddity::NoMusic;
    match within_score(&mut cursor, &mut score, remarks) {
        Err(FileError::Broken(broken)) if score.parts.iter().any(|part| part.bars.len() > 1) => {
            remarks.add(Oddity::BreaksOff(broken.to_string()), None, &Arc::default());
            missing = Oddity::NotReached;
        }
        other => other?,
    }
    for (at, _) in score.parts.iter().enumerate().filter(|(_, part)| part.bars.is_empty()) {
        remarks.add(missing.clone(), Some(at), &Arc::default());
    }
    if score.parts.iter().all(|part| part.bars.is_empty()) {
        return Err(FileError::NoMusic);
    }
    Ok(score)
}

fn within_score(
    cursor: &mut Cursor<'_>,
    score: &mut RawScore,
    remarks: &mut Remarks,
) -> Result<(), FileError> {
    while let Some(tag) = cursor.child()? {
        match tag.name() {
            "part" => {
                let id = tag.get("id").unwrap_or_default().into_owned();
                part(cursor, score, &id, remarks)?;
            }
            "movement-title" => header::said(cursor, &mut score.heading.movement)?,
            "movement-number" => header::said(cursor, &mut score.heading.movement_number)?,
            "work" => header::work(cursor, &mut score.heading)?,
            "identification" => header::identification(cursor, score)?,
            "defaults" => header::defaults(cursor, score)?,
            "part-list" => header::part_list(cursor, score)?,
            _ => cursor.skip()?,
        }
    }
    Ok(())
}

fn part(
    cursor: &mut Cursor<'_>,
    score: &mut RawScore,
    id: &str,
    remarks: &mut Remarks,
) -> Result<(), FileError> {
    let known = score.parts.iter().position(|part| part.id == id && part.bars.is_empty());
    let at = known.unwrap_or(score.parts.len());
    if known.is_none() {
        if at >= header::MOST_PARTS {
            return cursor.skip();
        }
        remarks.add(Oddity::UnlistedPart, Some(at), &Arc::default());
        score.parts.push(RawPart { id: id.to_owned(), staves: 1, ..RawPart::default() });
    }
    match score.parts.get_mut(at) {
        Some(part) => PartReader::new(at, part, remarks).bars(cursor),
        None => cursor.skip(),
    }
}
