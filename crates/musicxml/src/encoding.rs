//! The letters of a file: UTF-8, UTF-16 in either order, ISO-8859-1 and its cousin Windows-1252, by the mark at the
//! beginning or by what the file says. A library of all the world's encodings is four times as large as the rest of the
//! reader, and files of music have these.

use crate::error::FileError;
use std::borrow::Cow;

/// The text of a file.
///
/// # Errors
/// Where it says another way of writing letters, or its bytes are not what it says.
pub fn decode(bytes: &[u8]) -> Result<Cow<'_, str>, FileError> {
    match bytes {
        [0xEF, 0xBB, 0xBF, rest @ ..] => utf8(rest),
        [0xFF, 0xFE, rest @ ..] => utf16(rest, u16::from_le_bytes).map(Cow::Owned),
        [0xFE, 0xFF, rest @ ..] => utf16(rest, u16::from_be_bytes).map(Cow::Owned),
        // Without a mark "<" tells the order (XML 1.0, appendix F).
        [b'<', 0, ..] => utf16(bytes, u16::from_le_bytes).map(Cow::Owned),
        [0, b'<', ..] => utf16(bytes, u16::from_be_bytes).map(Cow::Owned),
        _ => match declared(bytes) {
            None => utf8(bytes),
            Some(name) => named(bytes, name),
        },
    }
}

fn named<'a>(bytes: &'a [u8], name: &str) -> Result<Cow<'a, str>, FileError> {
    let is = |names: &[&str]| names.iter().any(|known| known.eq_ignore_ascii_case(name));
    if is(&["utf-8", "utf8", "us-ascii", "ascii"]) {
        utf8(bytes)
    } else if is(&["utf-16", "utf16"]) {
        // It says two bytes a letter, and has one: what it says was left behind when it was written anew.
        utf8(bytes)
    } else if is(&["iso-8859-1", "latin1", "latin-1", "iso_8859-1", "windows-1252", "cp1252"]) {
        Ok(Cow::Owned(bytes.iter().map(|byte| windows_1252(*byte)).collect()))
    } else {
        Err(FileError::Letters(name.chars().take(40).collect()))
    }
}

fn utf8(bytes: &[u8]) -> Result<Cow<'_, str>, FileError> {
    core::str::from_utf8(bytes).map(Cow::Borrowed).map_err(|_| FileError::WrongLetters)
}

fn utf16(bytes: &[u8], unit: fn([u8; 2]) -> u16) -> Result<String, FileError> {
    let (pairs, rest) = bytes.as_chunks::<2>();
    if !rest.is_empty() {
        return Err(FileError::WrongLetters);
    }
    let letters = char::decode_utf16(pairs.iter().map(|pair| unit(*pair)));
    letters.collect::<Result<String, _>>().map_err(|_| FileError::WrongLetters)
}

/// The encoding that the XML declaration names.
fn declared(bytes: &[u8]) -> Option<&str> {
    let head = bytes.get(..bytes.len().min(200))?;
    let start = head.iter().position(|byte| !byte.is_ascii_whitespace())?;
    let head = head.get(start..)?.strip_prefix(b"<?xml")?;
    let end = head.windows(2).position(|two| two == b"?>")?;
    let head = core::str::from_utf8(head.get(..end)?).ok()?;
    let (_, after) = head.split_once("encoding")?;
    let after = after.trim_start().strip_prefix('=')?.trim_start();
    let quote = after.chars().next().filter(|letter| matches!(letter, '"' | '\''))?;
    after.get(1..)?.split(quote).next()
}

/// ISO-8859-1, with the letters that Windows puts where it has none (the WHATWG's "windows-1252").
fn windows_1252(byte: u8) -> char {
    const HIGH: [char; 32] = [
        '€', '\u{81}', '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', '\u{8D}', 'Ž', '\u{8F}',
        '\u{90}', '‘', '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', '\u{9D}', 'ž', 'Ÿ',
    ];
    match byte {
        0x80..=0x9F => HIGH.get(usize::from(byte - 0x80)).copied().unwrap_or(char::REPLACEMENT_CHARACTER),
        other => char::from(other),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_by_mark_and_by_word() {
        assert_eq!(decode(b"\xEF\xBB\xBF<a/>").unwrap(), "<a/>");
        assert_eq!(decode(b"\xFF\xFE<\0\xF6\0").unwrap(), "<ö");
        assert_eq!(decode(b"\xFE\xFF\0<\0\xF6").unwrap(), "<ö");
        assert_eq!(decode(b"<\0a\0").unwrap(), "<a");
        assert_eq!(
            decode(b"<?xml version='1.0' encoding='ISO-8859-1'?>H\xF6rner").unwrap().chars().last(),
            Some('r')
        );
        assert!(
            decode(b"<?xml version='1.0' encoding = \"iso-8859-1\" ?>H\xF6rner").unwrap().contains("Hörner")
        );
        assert!(
            decode("<?xml version=\"1.0\" encoding=\"UTF-8\"?>Hörner".as_bytes()).unwrap().contains("Hörner")
        );
        assert_eq!(
            decode(b"<?xml version='1.0' encoding='EBCDIC'?>"),
            Err(FileError::Letters("EBCDIC".into()))
        );
        assert_eq!(decode(b"<a>\xFF</a>"), Err(FileError::WrongLetters));
        assert_eq!(decode(b"\xFF\xFE<"), Err(FileError::WrongLetters));
        assert_eq!(decode(b"\xFF\xFE\x00\xD8<\0"), Err(FileError::WrongLetters));
    }
}
