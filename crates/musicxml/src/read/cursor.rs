//! The events of a file, element by element. Nothing here calls itself, and no memory grows with the depth of a file.

use crate::error::{Broken, FileError, How};
use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};
use std::borrow::Cow;

/// Elements within elements, at most. MusicXML has some ten.
const DEEPEST: usize = 100;

/// Goes through a file.
pub(super) struct Cursor<'a> {
    reader: Reader<&'a [u8]>,
    text: &'a str,
    depth: usize,
    /// An element without content was met: its end is still to come.
    ends: bool,
    /// Whether names have the prefix of a namespace, by the first of them.
    prefixed: bool,
}

/// The beginning of an element.
pub(super) struct Tag<'a> {
    tag: BytesStart<'a>,
    prefixed: bool,
}

impl<'a> Cursor<'a> {
    pub fn new(text: &'a str) -> Self {
        let mut reader = Reader::from_str(text);
        let config = reader.config_mut();
        config.trim_text(true);
        // Ends that do not fit their beginnings make a broken file.
        config.check_end_names = true;
        Self { reader, text, depth: 0, ends: false, prefixed: false }
    }

    /// Where it stands, in bytes from the beginning.
    pub fn position(&self) -> usize {
        usize::try_from(self.reader.buffer_position()).unwrap_or(usize::MAX)
    }

    /// The next element within the present one; `None` at its end, which is then behind.
    pub fn child(&mut self) -> Result<Option<Tag<'a>>, FileError> {
        if core::mem::take(&mut self.ends) {
            self.depth = self.depth.saturating_sub(1);
            return Ok(None);
        }
        loop {
            match self.event()? {
                Event::Start(tag) => {
                    self.deeper()?;
                    return Ok(Some(self.tag(tag)));
                }
                Event::Empty(tag) => {
                    self.deeper()?;
                    self.ends = true;
                    return Ok(Some(self.tag(tag)));
                }
                Event::End(_) => {
                    self.depth = self.depth.saturating_sub(1);
                    return Ok(None);
                }
                Event::Eof if self.depth == 0 => return Ok(None),
                Event::Eof => return Err(self.broken(How::CutOff)),
                _ => {}
            }
        }
    }

    fn tag(&mut self, tag: BytesStart<'a>) -> Tag<'a> {
        if self.depth == 1 {
            self.prefixed = tag.name().into_inner().contains(':');
        }
        Tag { tag, prefixed: self.prefixed }
    }

    /// Passes over the rest of the present element.
    pub fn skip(&mut self) -> Result<(), FileError> {
        if core::mem::take(&mut self.ends) {
            self.depth = self.depth.saturating_sub(1);
            return Ok(());
        }
        let mut within = 0_usize;
        loop {
            match self.event()? {
                Event::Start(_) => within += 1,
                Event::End(_) if within == 0 => {
                    self.depth = self.depth.saturating_sub(1);
                    return Ok(());
                }
                Event::End(_) => within -= 1,
                Event::Eof => return Err(self.broken(How::CutOff)),
                _ => {}
            }
        }
    }

    /// The text of the present element, which is then behind; elements in it are passed over.
    pub fn text(&mut self) -> Result<Cow<'a, str>, FileError> {
        let mut text = Cow::Borrowed("");
        if core::mem::take(&mut self.ends) {
            self.depth = self.depth.saturating_sub(1);
            return Ok(text);
        }
        let mut within = 0_usize;
        loop {
            match self.event()? {
                Event::Text(_) | Event::CData(_) | Event::GeneralRef(_) if within > 0 => {}
                Event::Text(part) if text.is_empty() => text = part.into_inner(),
                Event::Text(part) => text.to_mut().push_str(&part),
                Event::CData(part) => text.to_mut().push_str(&part.into_inner()),
                Event::GeneralRef(entity) => {
                    // White space beside an entity belongs to the text, and was trimmed.
                    let end = self.position();
                    let start = end.saturating_sub(entity.len() + 2);
                    let white = |at: usize| self.text.as_bytes().get(at).is_some_and(u8::is_ascii_whitespace);
                    let text = text.to_mut();
                    if white(start.wrapping_sub(1)) && !text.is_empty() && !text.ends_with(' ') {
                        text.push(' ');
                    }
                    match (entity.resolve_char_ref(), quick_xml::escape::resolve_predefined_entity(&entity)) {
                        (Ok(Some(letter)), _) => text.push(letter),
                        (_, Some(known)) => text.push_str(known),
                        // Entities of a file's own are not unfolded: they can unfold without end.
                        _ => text.push(char::REPLACEMENT_CHARACTER),
                    }
                    if white(end) {
                        text.push(' ');
                    }
                }
                Event::Start(_) => within += 1,
                Event::End(_) if within == 0 => {
                    self.depth = self.depth.saturating_sub(1);
                    if text.ends_with(' ') {
                        text = Cow::Owned(text.trim_end().to_owned());
                    }
                    return Ok(text);
                }
                Event::End(_) => within -= 1,
                Event::Eof => return Err(self.broken(How::CutOff)),
                _ => {}
            }
        }
    }

    /// The same with a space where white space stands before or behind it.
    pub fn spaced_text(&mut self) -> Result<String, FileError> {
        let start = self.position();
        let text = self.text()?;
        let raw = self.text.get(start..).and_then(|rest| rest.split('<').next()).unwrap_or_default();
        let space = |is: bool| if is && !text.is_empty() { " " } else { "" };
        let (before, behind) = (raw.starts_with(char::is_whitespace), raw.ends_with(char::is_whitespace));
        Ok(format!("{}{text}{}", space(before), space(behind)))
    }

    fn event(&mut self) -> Result<Event<'a>, FileError> {
        self.reader.read_event().map_err(|error| {
            let how = match error {
                quick_xml::Error::Syntax(_) => How::CutOff,
                quick_xml::Error::IllFormed(quick_xml::errors::IllFormedError::MissingEndTag(_)) => {
                    How::CutOff
                }
                _ => How::Malformed,
            };
            self.broken(how)
        })
    }

    fn deeper(&mut self) -> Result<(), FileError> {
        self.depth += 1;
        if self.depth > DEEPEST { Err(self.broken(How::TooDeep)) } else { Ok(()) }
    }

    fn broken(&self, how: How) -> FileError {
        let at = self.position().min(self.text.len());
        let before = self.text.as_bytes().get(..at).unwrap_or_default();
        let line = before.iter().filter(|byte| **byte == b'\n').count() + 1;
        FileError::Broken(Broken { line, how })
    }
}

impl Tag<'_> {
    /// The name of the element, without the prefix of a namespace.
    pub fn name(&self) -> &str {
        let name = self.tag.name().into_inner();
        if self.prefixed { name.rsplit_once(':').map_or(name, |(_, name)| name) } else { name }
    }

    /// The value of an attribute.
    pub fn get(&self, key: &str) -> Option<Cow<'_, str>> {
        let mut attributes = self.tag.attributes();
        let found =
            attributes.with_checks(false).flatten().find(|attribute| attribute.key.into_inner() == key)?;
        match quick_xml::escape::unescape(&found.value) {
            Ok(Cow::Owned(plain)) => Some(Cow::Owned(plain)),
            _ => Some(found.value),
        }
    }

    /// Whether an attribute has a value.
    pub fn is(&self, key: &str, value: &str) -> bool {
        self.get(key).is_some_and(|found| found == value)
    }

    /// The value of an attribute that counts.
    pub fn number<T: core::str::FromStr>(&self, key: &str) -> Option<T> {
        self.get(key)?.trim().parse().ok()
    }
}
