//! What stands before the music: titles, whether the page sounds as printed, the list of parts.

use super::cursor::{Cursor, Tag};
use super::direction::one_line;
use super::raw::{Heading, RawGroup, RawPart, RawScore};
use crate::error::FileError;
use crate::movement_keys;
use crookwise_score::score::GroupSign;

/// Parts of a score, at most.
pub(super) const MOST_PARTS: usize = 500;

/// A text of the heading; an empty one says nothing.
pub(super) fn said(cursor: &mut Cursor<'_>, to: &mut String) -> Result<(), FileError> {
    let text = one_line(&cursor.text()?);
    if !text.is_empty() {
        text.as_ref().clone_into(to);
    }
    Ok(())
}

/// `work`: title and number.
pub(super) fn work(cursor: &mut Cursor<'_>, heading: &mut Heading) -> Result<(), FileError> {
    while let Some(tag) = cursor.child()? {
        match tag.name() {
            "work-title" => said(cursor, &mut heading.work)?,
            "work-number" => said(cursor, &mut heading.work_number)?,
            _ => cursor.skip()?,
        }
    }
    Ok(())
}

/// `identification`, of which the composer is shown; it may tell the movement's keys.
pub(super) fn identification(cursor: &mut Cursor<'_>, score: &mut RawScore) -> Result<(), FileError> {
    while let Some(tag) = cursor.child()? {
        match tag.name() {
            "creator" if tag.is("type", "composer") && score.heading.composer.is_empty() => {
                said(cursor, &mut score.heading.composer)?;
            }
            "miscellaneous" => {
                while let Some(tag) = cursor.child()? {
                    if tag.name() == "miscellaneous-field" && tag.is("name", movement_keys::NAME) {
                        score.keys = movement_keys::read(&cursor.text()?);
                    } else {
                        cursor.skip()?;
                    }
                }
            }
            _ => cursor.skip()?,
        }
    }
    Ok(())
}

impl Heading {
    /// The title of the work with its number, and that of the movement with its own, as the file gives them:
    /// "Symphony No.5, Op.67 – 4. Allegro". What is said twice stands once.
    pub fn title(&self) -> String {
        let holds = |whole: &str, part: &str| whole.to_lowercase().contains(&part.to_lowercase());
        let work = match (self.work.as_str(), self.work_number.as_str()) {
            (work, number) if holds(work, number) => work.to_owned(),
            ("", number) => number.to_owned(),
            (work, number) => format!("{work}, {number}"),
        };
        if self.movement.is_empty() || holds(&self.work, &self.movement) {
            return work;
        }
        if !self.work.is_empty() && holds(&self.movement, &self.work) {
            return self.movement.clone();
        }
        let number = self.movement_number.trim_end_matches('.');
        let counted = !number.is_empty() && !self.movement.starts_with(number);
        let movement = if counted { format!("{number}. {}", self.movement) } else { self.movement.clone() };
        if work.is_empty() { self.movement.clone() } else { format!("{work} – {movement}") }
    }
}

/// `defaults`, which say whether the score is written at sounding pitch (MusicXML 4.0, `concert-score`).
pub(super) fn defaults(cursor: &mut Cursor<'_>, score: &mut RawScore) -> Result<(), FileError> {
    while let Some(tag) = cursor.child()? {
        score.at_pitch |= tag.name() == "concert-score";
        cursor.skip()?;
    }
    Ok(())
}

/// `part-list`.
pub(super) fn part_list(cursor: &mut Cursor<'_>, score: &mut RawScore) -> Result<(), FileError> {
    // Groups that have begun: number, first part, name, sign.
    let mut open: Vec<(String, RawGroup)> = Vec::new();
    while let Some(tag) = cursor.child()? {
        match tag.name() {
            "score-part" => {
                let part = score_part(cursor, &tag)?;
                if score.parts.len() < MOST_PARTS {
                    score.parts.push(part);
                }
            }
            "part-group" => {
                let number = tag.get("number").map_or_else(|| "1".to_owned(), std::borrow::Cow::into_owned);
                let begins = tag.is("type", "start");
                let mut group = part_group(cursor)?;
                if begins {
                    group.from = score.parts.len();
                    open.push((number, group));
                } else if let Some(at) = open.iter().rposition(|(other, _)| *other == number) {
                    close(score, open.remove(at).1);
                }
            }
            _ => cursor.skip()?,
        }
    }
    open.into_iter().for_each(|(_, group)| close(score, group));
    Ok(())
}

fn close(score: &mut RawScore, mut group: RawGroup) {
    if let Some(to) = score.parts.len().checked_sub(1).filter(|to| *to >= group.from) {
        group.to = to;
        score.groups.push(group);
    }
}

fn score_part(cursor: &mut Cursor<'_>, tag: &Tag<'_>) -> Result<RawPart, FileError> {
    let id = tag.get("id").unwrap_or_default().into_owned();
    let mut part = RawPart { id, staves: 1, ..RawPart::default() };
    let (mut instrument, mut shown) = (String::new(), String::new());
    while let Some(tag) = cursor.child()? {
        match tag.name() {
            "part-name" => part.name = one_line(&cursor.text()?).as_ref().to_owned(),
            // The name as it is printed, with signs for flats in it.
            "part-name-display" => shown = display(cursor)?,
            "score-instrument" => {
                while let Some(tag) = cursor.child()? {
                    match tag.name() {
                        "instrument-name" if instrument.is_empty() => {
                            instrument = one_line(&cursor.text()?).as_ref().to_owned();
                        }
                        _ => cursor.skip()?,
                    }
                }
            }
            _ => cursor.skip()?,
        }
    }
    if !shown.is_empty() {
        part.name = shown;
    }
    if part.name.is_empty() {
        part.name = instrument;
    }
    Ok(part)
}

/// A name of texts and accidentals.
fn display(cursor: &mut Cursor<'_>) -> Result<String, FileError> {
    let mut name = String::new();
    while let Some(tag) = cursor.child()? {
        match tag.name() {
            "display-text" => name.push_str(&cursor.spaced_text()?),
            "accidental-text" => name.push_str(match &*cursor.text()? {
                "flat" => "♭",
                "sharp" => "♯",
                "natural" => "♮",
                _ => "",
            }),
            _ => cursor.skip()?,
        }
    }
    Ok(one_line(&name).as_ref().to_owned())
}

fn part_group(cursor: &mut Cursor<'_>) -> Result<RawGroup, FileError> {
    let mut group = RawGroup { from: 0, to: 0, name: String::new(), sign: GroupSign::None };
    while let Some(tag) = cursor.child()? {
        match tag.name() {
            "group-name" => group.name = one_line(&cursor.text()?).as_ref().to_owned(),
            "group-symbol" => {
                group.sign = match &*cursor.text()? {
                    "brace" => GroupSign::Brace,
                    "bracket" => GroupSign::Bracket,
                    "line" | "square" => GroupSign::Line,
                    _ => GroupSign::None,
                }
            }
            _ => cursor.skip()?,
        }
    }
    Ok(group)
}
