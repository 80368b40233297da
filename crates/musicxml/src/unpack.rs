//! From the bytes of a file to the bytes of its score: a compressed file (`.mxl`) is an archive whose
//! `META-INF/container.xml` names the score (MusicXML 4.0, "Compressed MusicXML files").

use crate::error::FileError;
use quick_xml::Reader;
use quick_xml::events::Event;
use std::borrow::Cow;
use std::io::{Cursor, Read as _};
use zip::ZipArchive;

/// Bytes of the largest score that is read. The largest known (36 staves, 943 bars) has 26 million.
pub const LARGEST: u64 = 200_000_000;
/// Bytes of the largest container that is looked at.
const LARGEST_CONTAINER: u64 = 100_000;

/// The score in a file.
///
/// # Errors
/// Where there is none, or it is too large.
pub fn unpack(bytes: &[u8]) -> Result<Cow<'_, [u8]>, FileError> {
    if bytes.is_empty() {
        return Err(FileError::Empty);
    }
    if bytes.starts_with(b"MThd") || (bytes.starts_with(b"RIFF") && bytes.get(8..12) == Some(b"RMID")) {
        return Err(FileError::Midi);
    }
    if bytes.starts_with(b"PK") {
        return archive(bytes).map(Cow::Owned);
    }
    if bytes.len() as u64 > LARGEST {
        return Err(too_large());
    }
    if looks_like_xml(bytes) { Ok(Cow::Borrowed(bytes)) } else { Err(FileError::NotAScore) }
}

fn too_large() -> FileError {
    FileError::TooLarge(LARGEST / 1_000_000)
}

/// Whether the first letter is "<", in any of the encodings that are read.
fn looks_like_xml(bytes: &[u8]) -> bool {
    let rest =
        [&b"\xEF\xBB\xBF"[..], b"\xFF\xFE", b"\xFE\xFF"].iter().find_map(|mark| bytes.strip_prefix(*mark));
    let first = rest.unwrap_or(bytes).iter().find(|byte| !byte.is_ascii_whitespace() && **byte != 0);
    first == Some(&b'<')
}

fn archive(bytes: &[u8]) -> Result<Vec<u8>, FileError> {
    let mut archive = ZipArchive::new(Cursor::new(bytes)).map_err(|_| FileError::Archive)?;
    let named = match archive.by_name("META-INF/container.xml") {
        Ok(file) => {
            let mut text = Vec::new();
            file.take(LARGEST_CONTAINER).read_to_end(&mut text).map_err(|_| FileError::Archive)?;
            named_by(&text)
        }
        Err(_) => None,
    };
    // Without a container that names one it is the first file that can be a score.
    let name = named.filter(|name| archive.index_for_name(name).is_some()).or_else(|| {
        let can_be = |name: &String| {
            let ending = name.rsplit('.').next().unwrap_or_default();
            !name.starts_with("META-INF/")
                && ["musicxml", "xml"].iter().any(|known| ending.eq_ignore_ascii_case(known))
        };
        archive.file_names().flatten().map(|name| name.as_ref().to_owned()).find(can_be)
    });
    let file = archive.by_name(&name.ok_or(FileError::NoScoreInside)?).map_err(|_| FileError::Archive)?;
    // What an archive says of a size may be a lie: only what comes out counts.
    let mut score = Vec::with_capacity(usize::try_from(file.size().min(LARGEST / 4)).unwrap_or_default());
    file.take(LARGEST + 1).read_to_end(&mut score).map_err(|_| FileError::Archive)?;
    if score.len() as u64 > LARGEST {
        return Err(too_large());
    }
    match looks_like_xml(&score) {
        true => Ok(score),
        false if score.is_empty() => Err(FileError::Empty),
        false => Err(FileError::NotAScore),
    }
}

/// The score that a container names: the root file of the kind of music, which is the first one, or the first that says no kind.
fn named_by(container: &[u8]) -> Option<String> {
    let text = crate::encoding::decode(container).ok()?;
    let mut reader = Reader::from_str(&text);
    let mut first = None;
    loop {
        match reader.read_event().ok()? {
            Event::Start(tag) | Event::Empty(tag) if tag.local_name().as_ref() == "rootfile" => {
                let path = tag.try_get_attribute("full-path").ok()?.map(|path| path.value.into_owned());
                let kind = tag.try_get_attribute("media-type").ok()?;
                let is_music = kind
                    .is_none_or(|kind| kind.value.contains("musicxml") || kind.value.contains("xml+music"));
                if let (Some(path), true) = (&path, is_music) {
                    return Some(path.clone());
                }
                first = first.or(path);
            }
            Event::Eof => return first,
            _ => {}
        }
    }
}
