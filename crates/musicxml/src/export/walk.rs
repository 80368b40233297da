//! One pass over the source that gathers what must change in it.

mod attributes;

use super::accidentals;
use super::edits::Edits;
use super::pieces::{Piece, at, attribute, chord_letter, element_of, own_pitch, transpose};
use super::state::State;
use super::{Plan, Rewrite};
use crate::error::{Broken, FileError, How};
use crate::read::whole;
use core::ops::Range;
use crookwise_theory::{Interval, Pitch, Step};
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
            }
            // What is written for somebody is no page that sounds as printed; a page at sounding pitch needs no word for it.
            "concert-score" if self.plans.iter().any(|plan| matches!(plan, Plan::Write(_))) => {
                self.pieces(reader, empty)?;
                self.put(start.start..at(reader), "");
            }
            "note" | "attributes" | "harmony" if self.in_bar => {
                let pieces = self.pieces(reader, empty)?;
                let plan = self.at.and_then(|part| self.plans.get(part));
                let Some(Plan::Write(rewrite)) = plan else { return Ok(()) };
                // A part that never says its attributes says them before its first note.
                if name == "note" && !self.state.transposed {
                    let transpose = transpose(rewrite.target.transposition, None, "");
                    if !transpose.is_empty() {
                        let said = format!("<attributes>{transpose}</attributes>");
                        self.put(start.start..start.start, said);
                    }
                    self.state.transposed = true;
                }
                match name {
                    "note" => self.note(rewrite, &pieces),
                    "attributes" if empty => {}
                    "attributes" => self.attributes(rewrite, &pieces, at(reader)),
                    _ => self.harmony(rewrite, &pieces),
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

    fn score_part(&mut self, part: usize, whole: Range<usize>, pieces: &[Piece]) {
        match self.plans.get(part) {
            Some(Plan::LeaveOut) => self.put(whole, ""),
            Some(Plan::Write(Rewrite { target, .. })) => {
                self.kept += 1;
                let Some(name) = &target.name else { return };
                for piece in pieces {
                    match piece.path.as_str() {
                        "part-name" => {
                            let name = quick_xml::escape::escape(name.as_str());
                            self.put(piece.whole.clone(), format!("<part-name>{name}</part-name>"));
                        }
                        // They name what it was written for before.
                        "part-name-display" | "part-abbreviation" | "part-abbreviation-display" => {
                            self.put(piece.whole.clone(), "");
                        }
                        _ => {}
                    }
                }
            }
            _ => self.kept += 1,
        }
    }

    /// A group of which no part is left goes.
    fn group(&mut self, tag: &BytesStart<'_>, whole: Range<usize>) {
        let number = attribute(tag, "number").unwrap_or_else(|| "1".to_owned());
        if attribute(tag, "type").as_deref() == Some("start") {
            self.groups.push((number, whole, self.kept));
        } else if let Some(begun) = self.groups.iter().rposition(|(other, ..)| *other == number) {
            let (_, begin, kept) = self.groups.remove(begun);
            if kept == self.kept {
                self.put(begin, "");
                self.put(whole, "");
            }
        }
    }

    fn note(&mut self, rewrite: &Rewrite, pieces: &[Piece]) {
        let get = |path: &str| pieces.iter().find(|piece| piece.path == path);
        let pitched = rewrite.pitched.get(self.state.elements).copied();
        self.state.elements += 1;
        // A note whose pitch could not be read is none of those, and stays as it is.
        if pitched != Some(true) {
            return;
        }
        let sounding = rewrite.sounding.get(self.state.notes);
        self.state.notes += 1;
        let Some(sounding) = sounding else { return };
        let written = rewrite.target.transposition.to_written(*sounding).0;
        // One pitch is enough, also where a broken file has more.
        let mut element = Some(element_of(written));
        for pitch in pieces.iter().filter(|piece| piece.path == "pitch") {
            self.put(pitch.whole.clone(), element.take().unwrap_or_default());
        }
        let tied = pieces.iter().any(|piece| piece.path == "tie" && piece.is_stop);
        let staff = get("staff").and_then(|staff| whole(&staff.text)).filter(|staff| *staff > 0).unwrap_or(1);
        let memories = self.state.memories(staff);
        let accidental = get("accidental");
        // One that the file need not have printed is a courtesy, and stays one.
        let needed = own_pitch(pieces).is_none_or(|own| memories.source.sign(own, tied).is_some());
        let sign = memories.target.sign(written, tied);
        let sign =
            sign.or_else(|| (accidental.is_some() && !needed).then(|| accidentals::name(written.alter)));
        match (accidental, sign) {
            (None, None) => {}
            (Some(accidental), None) => self.put(accidental.whole.clone(), ""),
            // How it is printed, in brackets or small, stays.
            (Some(accidental), Some(sign)) => {
                let tag = self.plain(self.text.get(accidental.tag.clone()).unwrap_or_default());
                let tag = tag.trim_end_matches('>').trim_end_matches('/');
                self.put(accidental.whole.clone(), format!("{tag}>{sign}</accidental>"));
            }
            // It stands behind value and dots.
            (None, Some(sign)) => {
                if let Some(last) = pieces.iter().rfind(|piece| matches!(piece.path.as_str(), "type" | "dot"))
                {
                    let place = last.whole.end..last.whole.end;
                    self.put(place, format!("<accidental>{sign}</accidental>"));
                }
            }
        }
        // Which way a stem goes depends on where the head stands now.
        if let Some(stem) = get("stem").filter(|stem| matches!(stem.text.as_str(), "up" | "down")) {
            self.put(stem.whole.clone(), "");
        }
    }

    fn harmony(&mut self, rewrite: &Rewrite, pieces: &[Piece]) {
        let by = self.state.told_for(None).0 + -rewrite.target.transposition.0;
        if by == Interval::UNISON {
            return;
        }
        for (above, step, alter) in
            [("root", "root/root-step", "root/root-alter"), ("bass", "bass/bass-step", "bass/bass-alter")]
        {
            let whole = pieces.iter().filter(|piece| piece.path == above);
            for whole in whole {
                let within = |piece: &&Piece| {
                    piece.whole.start >= whole.whole.start && piece.whole.end <= whole.whole.end
                };
                let find = |path: &str| pieces.iter().filter(within).find(|piece| piece.path == path);
                let Some(step) = find(step) else { continue };
                let letter = step.text.chars().next().and_then(Step::from_letter);
                let sign = find(alter).map_or(Some(0), |alter| alter.text.parse::<i32>().ok());
                let Some((letter, sign)) = letter.zip(sign.filter(|sign| sign.abs() <= 4)) else { continue };
                let to = (Pitch::new(letter, sign, 4) + by).tonic();
                self.put(step.whole.clone(), chord_letter(above, to));
                if let Some(alter) = find(alter) {
                    self.put(alter.whole.clone(), "");
                }
            }
        }
    }
}
