//! A part, bar by bar.

use super::clock::{Clock, LONGEST};
use super::cursor::{Cursor, Tag};
use super::direction::one_line;
use super::numbers::{divisions, fraction};
use super::raw::{RawBar, RawPart};
use crate::error::FileError;
use crate::remark::{Oddity, Remarks};
use crookwise_score::score::{BarSigns, Quarters};
use std::sync::Arc;

/// Reads a part.
pub(super) struct PartReader<'r> {
    /// The place of the part in the list.
    pub at: usize,
    pub part: &'r mut RawPart,
    pub remarks: &'r mut Remarks,
    /// Divisions of a quarter note, as a fraction.
    pub divisions: (i64, i64),
    pub clock: Clock,
    /// Bars of the figure that is being repeated by signs.
    pub like_before: u16,
    /// The number of the bar.
    number: Arc<str>,
}

impl<'r> PartReader<'r> {
    pub fn new(at: usize, part: &'r mut RawPart, remarks: &'r mut Remarks) -> Self {
        Self {
            at,
            part,
            remarks,
            divisions: (1, 1),
            clock: Clock::new(0),
            like_before: 0,
            number: Arc::default(),
        }
    }

    pub fn remark(&mut self, what: Oddity) {
        self.remarks.add(what, Some(self.at), &self.number);
    }

    pub fn not_understood(&mut self, name: &str) {
        self.remark(Oddity::NotUnderstood(name.chars().take(60).collect::<String>().into()));
    }

    /// Reads all bars of the part, each as it comes: where the file breaks off, those before are there.
    pub fn bars(&mut self, cursor: &mut Cursor<'_>) -> Result<(), FileError> {
        while let Some(tag) = cursor.child()? {
            if tag.name() == "measure" {
                self.bar(cursor, &tag)?;
            } else {
                cursor.skip()?;
            }
        }
        Ok(())
    }

    fn bar(&mut self, cursor: &mut Cursor<'_>, tag: &Tag<'_>) -> Result<(), FileError> {
        let bar = u32::try_from(self.part.bars.len()).unwrap_or(u32::MAX);
        self.number = tag.get("number").map_or_else(Arc::default, |number| one_line(&number));
        self.clock = Clock::new(bar);
        let signs = BarSigns { like_before: self.like_before, ..BarSigns::default() };
        let number = Arc::clone(&self.number);
        self.part.bars.push(RawBar { number, length: Quarters::ZERO, time: None, signs });
        let before = self.part.counts.pitched;
        let read = self.within_bar(cursor);
        if let Some(bar) = self.part.bars.last_mut() {
            bar.length = self.clock.reached();
        }
        if self.like_before > 0 && self.part.counts.pitched == before {
            self.remark(Oddity::NotWrittenOut);
        }
        read
    }

    fn within_bar(&mut self, cursor: &mut Cursor<'_>) -> Result<(), FileError> {
        while let Some(tag) = cursor.child()? {
            match tag.name() {
                "note" => self.note(cursor)?,
                "attributes" => self.attributes(cursor)?,
                "backup" => {
                    let by = self.step_in_time(cursor)?;
                    if !self.clock.back(by) {
                        self.remark(Oddity::BeforeBar);
                    }
                }
                "forward" => {
                    let by = self.step_in_time(cursor)?;
                    self.clock.forward(by);
                }
                "direction" => self.direction(cursor)?,
                "barline" => {
                    let is_left = tag.is("location", "left");
                    self.barline(cursor, is_left)?;
                }
                "sound" => self.sound_alone(cursor, &tag)?,
                // How it is set on the page.
                "print" | "link" | "bookmark" | "grouping" | "listening" => cursor.skip()?,
                name => {
                    self.not_understood(name);
                    cursor.skip()?;
                }
            }
        }
        Ok(())
    }

    fn step_in_time(&mut self, cursor: &mut Cursor<'_>) -> Result<Quarters, FileError> {
        let mut by = None;
        while let Some(tag) = cursor.child()? {
            match tag.name() {
                "duration" => by = fraction(&cursor.text()?).and_then(|by| divisions(by, self.divisions)),
                _ => cursor.skip()?,
            }
        }
        let sane = |by: &Quarters| *by >= Quarters::ZERO && *by <= Quarters::whole(LONGEST);
        if by.filter(sane).is_none() {
            self.remark(Oddity::OddDuration);
        }
        Ok(by.filter(sane).unwrap_or(Quarters::ZERO))
    }
}
