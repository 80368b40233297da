//! One pass over the source that gathers what must change in it.

mod attributes;
mod corrected;
mod harmony;
mod listed;
mod note;
mod words;

use super::Plan;
use super::edits::Edits;
use super::pieces::{Piece, at, attribute};
use super::state::State;
use crate::error::{Broken, FileError, How};
use crate::read::whole;
use core::ops::Range;
use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};

/// The text with its parts as planned.
pub(super) fn rewritten(text: &str, plans: &[Plan]) -> Result<String, FileError> {
    // What stands before the first element is none of it, and nobody else would read it.
    let text = text.find('<').and_then(|first| text.get(first..)).unwrap_or(text);
    let mut walk = Walk {
        text,
        plans,
        edits: Edits::default(),
        listed: Vec::new(),
        at: None,
        in_bar: false,
        in_list: false,
        kept: 0,
        groups: Vec::new(),
        state: State::default(),
        begun: false,
        prefix: String::new(),
    };
    walk.all()?;
    Ok(walk.edits.applied(text))
}

struct Walk<'a> {
    text: &'a str,
    plans: &'a [Plan],
    edits: Edits,
    /// The parts of the list by their names, and whether their music has been met.
    listed: Vec<(String, bool)>,
    /// The part that is being read.
    at: Option<usize>,
    /// Whether one of its bars is.
    in_bar: bool,
    /// Whether the list of parts is.
    in_list: bool,
    /// Parts kept so far.
    kept: usize,
    /// Groups that have begun: number, where they begin, parts kept before.
    groups: Vec<(String, Range<usize>, usize)>,
    state: State,
    /// Whether an element has been met.
    begun: bool,
    /// The prefix that all names have, its colon with it; empty for none.
    prefix: String,
}

impl<'a> Walk<'a> {
    fn all(&mut self) -> Result<(), FileError> {
        let mut reader = Reader::from_str(self.text);
        loop {
            let before = at(&reader);
            let event = reader.read_event().map_err(|_| self.broken(&reader))?;
            let start = before..at(&reader);
            match event {
                Event::Decl(_) => self.edits.replace(start, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>"),
                Event::Start(tag) => self.element(&mut reader, &tag, start, false)?,
                Event::Empty(tag) => self.element(&mut reader, &tag, start, true)?,
                Event::End(tag) => match self.local(tag.name().into_inner()) {
                    "part" => self.at = None,
                    "measure" => self.in_bar = false,
                    "part-list" => self.in_list = false,
                    _ => {}
                },
                Event::Eof => return Ok(()),
                _ => {}
            }
        }
    }

    /// The name of an element without the prefix.
    fn local<'n>(&self, name: &'n str) -> &'n str {
        if self.prefix.is_empty() { name } else { name.rsplit_once(':').map_or(name, |(_, name)| name) }
    }

    /// Elements of the source without the prefix.
    fn plain(&self, text: &str) -> String {
        if self.prefix.is_empty() {
            return text.to_owned();
        }
        let begins = format!("<{}", self.prefix);
        text.replace(&begins, "<").replace(&format!("</{}", self.prefix), "</")
    }

    /// Puts elements in the place of a stretch of the source, with the prefix that its names have.
    fn put(&mut self, range: Range<usize>, elements: impl Into<String>) {
        let elements: String = elements.into();
        let elements = match self.prefix.as_str() {
            "" => elements,
            prefix => {
                let parts: Vec<String> = elements
                    .split('<')
                    .enumerate()
                    .map(|(at, part)| match (at, part.strip_prefix('/')) {
                        (0, _) => part.to_owned(),
                        (_, Some(end)) => format!("</{prefix}{end}"),
                        (_, None) => format!("<{prefix}{part}"),
                    })
                    .collect();
                parts.concat()
            }
        };
        self.edits.replace(range, elements);
    }

    /// An element that begins: one that may have to change is read to its end.
    fn element(
        &mut self,
        reader: &mut Reader<&'a [u8]>,
        tag: &BytesStart<'a>,
        start: Range<usize>,
        empty: bool,
    ) -> Result<(), FileError> {
        let name = tag.name().into_inner();
        // The first element says whether names have the prefix of a namespace.
        if !core::mem::replace(&mut self.begun, true) {
            self.prefix = name.split_once(':').map(|(prefix, _)| format!("{prefix}:")).unwrap_or_default();
        }
        let name = self.local(name);
        match name {
            "part-list" if self.at.is_none() => self.in_list = !empty,
            "score-part" if self.in_list => {
                let part = self.listed.len();
                self.listed.push((attribute(tag, "id").unwrap_or_default(), false));
                let pieces = self.pieces(reader, empty)?;
                self.score_part(part, start.start..at(reader), &pieces);
            }
            "part-group" if self.in_list => {
                self.pieces(reader, empty)?;
                self.group(tag, start.start..at(reader));
            }
            "part" if !self.in_list && self.at.is_none() => {
                let id = attribute(tag, "id").unwrap_or_default();
                // As the reader has it: a second part of one name is one that no list names.
                let known = self.listed.iter().position(|(other, met)| *other == id && !met);
                let part = known.unwrap_or_else(|| {
                    self.listed.push((id, false));
                    self.listed.len() - 1
                });
                self.at = Some(part);
                self.state = State::default();
                if matches!(self.plans.get(part), Some(Plan::LeaveOut)) {
                    self.pieces(reader, empty)?;
                    self.put(start.start..at(reader), "");
                    self.at = None;
                } else if empty {
                    self.at = None;
                }
            }
            "measure" if self.at.is_some() && !self.in_bar => {
                self.in_bar = !empty;
                if let Some((_, met)) = self.at.and_then(|part| self.listed.get_mut(part)) {
                    *met = true;
                }
                self.state.bar();
                if let Some(Plan::Correct { correct, .. }) = self.at.and_then(|part| self.plans.get(part))
                    && !empty
                {
                    self.corrected_bar(correct, start.end);
                }
            }
            // What is written for somebody is no page that sounds as printed; a page at sounding pitch needs no word for it.
            "concert-score" if self.plans.iter().any(|plan| matches!(plan, Plan::Write(_))) => {
                self.pieces(reader, empty)?;
                self.put(start.start..at(reader), "");
            }
            "note" | "attributes" | "harmony" | "direction" if self.in_bar => {
                let pieces = self.pieces(reader, empty)?;
                let whole = start.start..at(reader);
                match self.at.and_then(|part| self.plans.get(part)) {
                    Some(Plan::Write(rewrite)) => match name {
                        "note" => {
                            self.before_note(rewrite, start.start);
                            self.note(rewrite, &pieces);
                        }
                        "attributes" if empty => {}
                        "attributes" => self.attributes(rewrite, &pieces, (start.end, at(reader))),
                        "direction" => self.words(rewrite, &pieces, whole),
                        _ => self.harmony(rewrite, &pieces),
                    },
                    Some(Plan::Correct { sounding, pitched, correct }) => match name {
                        "note" => self.corrected_note((sounding, pitched), correct, &pieces, start.start),
                        "attributes" if !empty => self.corrected_attributes(correct, &pieces, at(reader)),
                        "direction" => self.corrected_words(correct, &pieces, whole),
                        _ => {}
                    },
                    _ => {}
                }
            }
            // These are gone into; whatever else there is passes through whole.
            "score-partwise" | "defaults" => {}
            _ => {
                self.pieces(reader, empty)?;
            }
        }
        Ok(())
    }

    /// The elements within one that has begun, to its end.
    fn pieces(&self, reader: &mut Reader<&'a [u8]>, empty: bool) -> Result<Vec<Piece>, FileError> {
        let mut pieces: Vec<Piece> = Vec::new();
        let mut open: Vec<usize> = Vec::new();
        let mut more = !empty;
        while more {
            let before = at(reader);
            let event = reader.read_event().map_err(|_| self.broken(reader))?;
            let now = at(reader);
            match event {
                Event::Start(tag) | Event::Empty(tag) => {
                    let name = self.local(tag.name().into_inner());
                    let above =
                        open.last().and_then(|above| pieces.get(*above)).map(|piece| piece.path.as_str());
                    // Far down there is nothing that is looked for, and paths must not grow with it.
                    let path = match above {
                        Some(above) if open.len() < 4 => format!("{above}/{name}"),
                        Some(_) => String::new(),
                        None => name.to_owned(),
                    };
                    let is_empty = self.text.get(before..now).is_some_and(|text| text.ends_with("/>"));
                    let kind = attribute(&tag, "type");
                    pieces.push(Piece {
                        path,
                        number: attribute(&tag, "number").and_then(|number| whole(&number)),
                        is_stop: kind.as_deref() == Some("stop"),
                        whole: before..now,
                        tag: before..now,
                        text: String::new(),
                    });
                    if !is_empty {
                        open.push(pieces.len() - 1);
                    }
                }
                Event::Text(text) => {
                    if let Some(piece) = open.last().and_then(|last| pieces.get_mut(*last)) {
                        piece.text.push_str(text.trim());
                    }
                }
                Event::End(_) => match open.pop().and_then(|ended| pieces.get_mut(ended)) {
                    Some(piece) => piece.whole.end = now,
                    None => more = false,
                },
                Event::Eof => return Err(self.broken(reader)),
                _ => {}
            }
        }
        Ok(pieces)
    }

    fn broken(&self, reader: &Reader<&[u8]>) -> FileError {
        let before = self.text.as_bytes().get(..at(reader)).unwrap_or_default();
        let line = before.iter().filter(|byte| **byte == b'\n').count() + 1;
        FileError::Broken(Broken { line, how: How::CutOff })
    }
}
