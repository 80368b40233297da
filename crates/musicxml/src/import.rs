//! A file becomes a score.

use crate::changes::Unheeded;
use crate::encoding;
use crate::error::FileError;
use crate::read::{Assembled, RawCounts, assemble, read};
use crate::remark::{Remark, Remarks};
use crate::unpack::unpack;
use crookwise_score::Score;
use crookwise_score::score::PartId;

/// A score as it was read.
#[derive(Debug)]
pub struct Import {
    /// The score.
    pub score: Score,
    /// Its parts in the order of the file.
    pub parts: Vec<ImportedPart>,
    /// For each part, whether the notes of the file have a pitch that could be read, in their order.
    pub(crate) pitched: Vec<Vec<bool>>,
    /// What is odd in the file.
    pub remarks: Vec<Remark>,
    /// Words for another crook that the file does not heed, staff by staff.
    pub unheeded: Vec<Unheeded>,
}

/// A part as it was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ImportedPart {
    /// Its number in the score.
    pub id: PartId,
    /// Its bars in the file.
    pub bars: usize,
    /// What the file has in it.
    pub counts: RawCounts,
}

/// Reads a file: `.musicxml`, `.xml` or `.mxl`, MusicXML 2.0 to 4.0 by parts.
///
/// # Errors
/// Where it is no such file, or none of its bars can be read.
pub fn import(bytes: &[u8]) -> Result<Import, FileError> {
    let score = unpack(bytes)?;
    import_text(&encoding::decode(&score)?)
}

/// The same of a text.
///
/// # Errors
/// Where it is no score, or none of its bars can be read.
pub fn import_text(text: &str) -> Result<Import, FileError> {
    let mut remarks = Remarks::default();
    let raw = read(text, &mut remarks)?;
    let Assembled { score, parts, unheeded } = assemble(raw, &mut remarks);
    let mut imported = Vec::new();
    let mut pitched = Vec::new();
    for (id, counts, bars, own) in parts {
        imported.push(ImportedPart { id, bars, counts });
        pitched.push(own);
    }
    Ok(Import { score, parts: imported, pitched, remarks: remarks.all(), unheeded })
}
