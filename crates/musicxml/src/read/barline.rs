//! Bar lines: repeats, endings, how they are drawn.

use super::cursor::Cursor;
use super::direction::one_line;
use super::measure::PartReader;
use crate::error::FileError;
use crookwise_score::score::{BarLine, Jump};

impl PartReader<'_> {
    pub fn barline(&mut self, cursor: &mut Cursor<'_>, is_left: bool) -> Result<(), FileError> {
        while let Some(tag) = cursor.child()? {
            let Some(bar) = self.part.bars.last_mut() else {
                cursor.skip()?;
                continue;
            };
            let signs = &mut bar.signs;
            match tag.name() {
                "bar-style" => {
                    let line = match &*cursor.text()? {
                        "light-light" => BarLine::Double,
                        "light-heavy" | "heavy-light" | "heavy" | "heavy-heavy" => BarLine::Final,
                        "dashed" | "dotted" => BarLine::Dashed,
                        "none" => BarLine::None,
                        _ => BarLine::Thin,
                    };
                    if !is_left {
                        signs.line = line;
                    }
                }
                "repeat" => {
                    if tag.is("direction", "forward") {
                        signs.repeat_from = true;
                    } else {
                        signs.repeat_to = Some(tag.number("times").unwrap_or(2));
                    }
                    cursor.skip()?;
                }
                "ending" => {
                    if tag.is("type", "start") {
                        signs.ending = tag.get("number").map(|number| one_line(&number));
                    } else {
                        signs.ending_ends = true;
                    }
                    cursor.skip()?;
                }
                "segno" => {
                    self.jumps(Jump::Segno);
                    cursor.skip()?;
                }
                "coda" => {
                    self.jumps(Jump::Coda);
                    cursor.skip()?;
                }
                // Its signs stand in the notes it is over.
                "fermata" | "wavy-line" | "footnote" | "level" => cursor.skip()?,
                name => {
                    self.not_understood(name);
                    cursor.skip()?;
                }
            }
        }
        Ok(())
    }
}
