//! What stands over and under staves: words, loudness, tempo, rehearsal letters, jumps.

use super::cursor::{Cursor, Tag};
use super::measure::PartReader;
use super::note::VOICE;
use super::numbers::{divisions, fraction, whole};
use super::raw::{RawItem, RawTime};
use crate::error::FileError;
use crookwise_score::score::{Direction, Jump};
use std::sync::Arc;

impl PartReader<'_> {
    pub fn direction(&mut self, cursor: &mut Cursor<'_>) -> Result<(), FileError> {
        let (mut staff, mut offset) = (1, None);
        let mut found = Vec::new();
        while let Some(tag) = cursor.child()? {
            match tag.name() {
                "direction-type" => self.direction_type(cursor, &mut found)?,
                "staff" => staff = whole::<u8>(&cursor.text()?).filter(|staff| *staff > 0).unwrap_or(1),
                "offset" => offset = fraction(&cursor.text()?),
                "sound" => self.sound(cursor, &tag, &mut found)?,
                VOICE | "footnote" | "level" | "listening" => cursor.skip()?,
                name => {
                    self.not_understood(name);
                    cursor.skip()?;
                }
            }
        }
        if found.iter().any(|direction| matches!(direction, Direction::Tempo(_))) {
            found = found.into_iter().filter_map(without_open_brackets).collect();
        }
        let by = offset.and_then(|offset| divisions(offset, self.divisions));
        let at = by.map_or_else(|| self.clock.now(), |by| self.clock.beside(by));
        self.directions(at, staff, found);
        Ok(())
    }

    /// A `sound` that stands by itself in a bar.
    pub fn sound_alone(&mut self, cursor: &mut Cursor<'_>, tag: &Tag<'_>) -> Result<(), FileError> {
        let mut found = Vec::new();
        self.sound(cursor, tag, &mut found)?;
        self.directions(self.clock.now(), 1, found);
        Ok(())
    }

    fn directions(&mut self, at: RawTime, staff: u8, found: Vec<Direction>) {
        let items = found.into_iter().map(|direction| RawItem::Direction { at, staff, direction });
        self.part.items.extend(items);
    }

    fn direction_type(
        &mut self,
        cursor: &mut Cursor<'_>,
        found: &mut Vec<Direction>,
    ) -> Result<(), FileError> {
        while let Some(tag) = cursor.child()? {
            match tag.name() {
                "words" => {
                    let words = cursor.text()?;
                    if !words.is_empty() {
                        found.push(Direction::Words(one_line(&words)));
                    }
                }
                "rehearsal" => found.push(Direction::Rehearsal(one_line(&cursor.text()?))),
                "dynamics" => found.extend(dynamics(cursor)?.into_iter().map(Direction::Dynamic)),
                "wedge" => {
                    found.extend(match tag.get("type").as_deref() {
                        Some("crescendo") => Some(Direction::Crescendo),
                        Some("diminuendo") => Some(Direction::Diminuendo),
                        Some("stop") => Some(Direction::HairpinEnds),
                        _ => None,
                    });
                    cursor.skip()?;
                }
                "octave-shift" => {
                    let octaves = match tag.number::<i8>("size").unwrap_or(8) {
                        15 => 2,
                        22 => 3,
                        _ => 1,
                    };
                    // "down": what is printed lies below what is read (8va).
                    found.extend(match tag.get("type").as_deref() {
                        Some("down") => Some(Direction::Ottava(octaves)),
                        Some("up") => Some(Direction::Ottava(-octaves)),
                        Some("stop") => Some(Direction::Ottava(0)),
                        _ => None,
                    });
                    cursor.skip()?;
                }
                "metronome" => found.extend(metronome(cursor)?),
                "segno" => self.jump(cursor, Jump::Segno)?,
                "coda" => self.jump(cursor, Jump::Coda)?,
                // Lines without a meaning in pitch or time.
                "bracket" | "dashes" => cursor.skip()?,
                name => {
                    self.not_understood(name);
                    cursor.skip()?;
                }
            }
        }
        Ok(())
    }

    fn jump(&mut self, cursor: &mut Cursor<'_>, jump: Jump) -> Result<(), FileError> {
        self.jumps(jump);
        cursor.skip()
    }

    /// A place players jump to or from, once a bar.
    pub fn jumps(&mut self, jump: Jump) {
        if let Some(bar) = self.part.bars.last_mut()
            && !bar.signs.jumps.contains(&jump)
        {
            bar.signs.jumps.push(jump);
        }
    }

    fn sound(
        &mut self,
        cursor: &mut Cursor<'_>,
        tag: &Tag<'_>,
        found: &mut Vec<Direction>,
    ) -> Result<(), FileError> {
        if let Some(tempo) = tag.get("tempo").and_then(|tempo| fraction(&tempo)).and_then(thousandths) {
            // It says the same as a metronome beside it, in quarter notes.
            found.retain(|other| !matches!(other, Direction::Tempo(_)));
            found.push(Direction::Tempo(tempo));
        }
        let jumps = [
            ("dacapo", Jump::DaCapo),
            ("dalsegno", Jump::DalSegno),
            ("segno", Jump::Segno),
            ("coda", Jump::Coda),
            ("tocoda", Jump::ToCoda),
            ("fine", Jump::Fine),
        ];
        for (name, jump) in jumps {
            if tag.get(name).is_some_and(|value| value != "no") {
                self.jumps(jump);
            }
        }
        cursor.skip()
    }
}

/// What stands beside a mark of the metronome ("Presto. [", "]") without the brackets that held it, which would stand open since
/// the mark is no text.
fn without_open_brackets(direction: Direction) -> Option<Direction> {
    let Direction::Words(words) = &direction else { return Some(direction) };
    let closed = words.trim_start_matches([']', ')']).trim_end_matches(['[', '(']).trim();
    match closed {
        "" => None,
        closed => Some(Direction::Words(closed.into())),
    }
}

fn thousandths((number, of): (i64, i64)) -> Option<u32> {
    let tempo = number.checked_mul(1000)? / of;
    u32::try_from(tempo).ok().filter(|tempo| (1_000..=2_000_000).contains(tempo))
}

/// A tempo in quarter notes a minute, where a value equals a number.
fn metronome(cursor: &mut Cursor<'_>) -> Result<Option<Direction>, FileError> {
    let (mut unit, mut dots, mut number, mut units) = (None, 0_u32, None, 0);
    while let Some(tag) = cursor.child()? {
        match tag.name() {
            "beat-unit" => {
                unit = super::note::value(&cursor.text()?);
                units += 1;
            }
            "beat-unit-dot" => {
                dots += 1;
                cursor.skip()?;
            }
            "per-minute" => number = fraction(&cursor.text()?),
            _ => cursor.skip()?,
        }
    }
    let tempo = || {
        let (quarters, of) = unit?.quarters();
        let dots = dots.min(4);
        let (number, per) = number?;
        let number = number.checked_mul(quarters)?.checked_mul((2 << dots) - 1)?;
        thousandths((number, per.checked_mul(of)?.checked_mul(1 << dots)?))
    };
    Ok((units == 1).then(tempo).flatten().map(Direction::Tempo))
}

/// The signs of loudness in an element.
pub(super) fn dynamics(cursor: &mut Cursor<'_>) -> Result<Vec<Arc<str>>, FileError> {
    let mut found = Vec::new();
    while let Some(tag) = cursor.child()? {
        if tag.name() == "other-dynamics" {
            found.push(one_line(&cursor.text()?));
        } else {
            found.push(tag.name().into());
            cursor.skip()?;
        }
    }
    Ok(found)
}

/// Letters of the longest words that are kept.
const LONGEST_WORDS: usize = 300;

/// White space as single spaces.
pub(super) fn one_line(text: &str) -> Arc<str> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let line = words.join(" ");
    match line.char_indices().nth(LONGEST_WORDS) {
        Some((end, _)) => line.get(..end).unwrap_or_default().into(),
        None => line.into(),
    }
}
