//! What holds from a place on: divisions, key, time, clefs, transposition.

use super::cursor::Cursor;
use super::measure::PartReader;
use super::numbers::{fraction, whole};
use super::raw::{RawChange, RawItem, RawTranspose};
use crate::error::FileError;
use crate::remark::Oddity;
use crookwise_score::score::TimeSignature;
use crookwise_theory::{Clef, ClefSign, MusicXmlTranspose};

impl PartReader<'_> {
    pub fn attributes(&mut self, cursor: &mut Cursor<'_>) -> Result<(), FileError> {
        while let Some(tag) = cursor.child()? {
            let staff = tag.number::<u8>("number");
            match tag.name() {
                "divisions" => match fraction(&cursor.text()?).filter(|(number, _)| *number > 0) {
                    Some(divisions) => self.divisions = divisions,
                    None => self.remark(Oddity::OddDivisions),
                },
                "key" => {
                    if let Some(key) = self.key(cursor)? {
                        self.change(staff, key);
                    }
                }
                "time" => self.time(cursor)?,
                "staves" => {
                    let staves = whole::<u8>(&cursor.text()?).unwrap_or(1);
                    self.part.staves = self.part.staves.max(staves.clamp(1, MOST_STAVES));
                }
                "clef" => {
                    if let Some(clef) = self.clef(cursor)? {
                        self.change(Some(staff.unwrap_or(1)), clef);
                    }
                }
                "transpose" => {
                    let transpose = transpose(cursor)?;
                    self.change(staff, RawChange::Transpose(transpose));
                }
                "measure-style" => self.measure_style(cursor)?,
                // How many parts a staff stands for, how it is drawn, and how parts of this one would be printed.
                "part-symbol" | "instruments" | "staff-details" | "for-part" | "directive" | "footnote"
                | "level" => cursor.skip()?,
                name => {
                    self.not_understood(name);
                    cursor.skip()?;
                }
            }
        }
        Ok(())
    }

    fn change(&mut self, staff: Option<u8>, to: RawChange) {
        let at = self.clock.now();
        self.part.items.push(RawItem::Change { at, staff, to });
    }

    fn key(&mut self, cursor: &mut Cursor<'_>) -> Result<Option<RawChange>, FileError> {
        let (mut fifths, mut minor) = (None, None);
        while let Some(tag) = cursor.child()? {
            match tag.name() {
                "fifths" => fifths = whole::<i32>(&cursor.text()?).filter(|fifths| fifths.abs() <= 7),
                "mode" => {
                    minor = match &*cursor.text()? {
                        "minor" | "aeolian" => Some(true),
                        "major" | "ionian" => Some(false),
                        _ => None,
                    }
                }
                _ => cursor.skip()?,
            }
        }
        if fifths.is_none() {
            self.remark(Oddity::OddKey);
        }
        Ok(fifths.map(|fifths| RawChange::Key(fifths, minor)))
    }

    fn time(&mut self, cursor: &mut Cursor<'_>) -> Result<(), FileError> {
        let (mut beats, mut value, mut unmeasured) = (Some(0_u16), None, false);
        while let Some(tag) = cursor.child()? {
            match tag.name() {
                // "3+2" and several pairs are added up.
                "beats" => {
                    let sum = |sum: Option<u16>, part: &str| sum?.checked_add(whole(part)?);
                    beats = cursor.text()?.split('+').fold(beats, sum);
                }
                "beat-type" => value = whole::<u16>(&cursor.text()?).filter(|value| value.is_power_of_two()),
                "senza-misura" => {
                    unmeasured = true;
                    cursor.skip()?;
                }
                _ => cursor.skip()?,
            }
        }
        match beats.filter(|beats| *beats > 0).zip(value) {
            Some((beats, value)) => {
                let time = TimeSignature { beats, value };
                if let Some(bar) = self.part.bars.last_mut() {
                    bar.time = Some(time);
                }
            }
            None if unmeasured => {}
            None => self.remark(Oddity::OddTime),
        }
        Ok(())
    }

    fn clef(&mut self, cursor: &mut Cursor<'_>) -> Result<Option<RawChange>, FileError> {
        let (mut sign, mut line, mut octave) = (None, None, 0);
        let mut without_pitch = false;
        while let Some(tag) = cursor.child()? {
            match tag.name() {
                "sign" => match &*cursor.text()? {
                    "G" => sign = Some((ClefSign::G, 2)),
                    "F" => sign = Some((ClefSign::F, 4)),
                    "C" => sign = Some((ClefSign::C, 3)),
                    WITHOUT_PITCH | "none" => without_pitch = true,
                    _ => {}
                },
                "line" => line = whole::<u8>(&cursor.text()?),
                "clef-octave-change" => octave = whole::<i8>(&cursor.text()?).unwrap_or(0),
                _ => cursor.skip()?,
            }
        }
        if without_pitch {
            return Ok(None);
        }
        let clef = sign.and_then(|(sign, usual)| Clef::new(sign, line.unwrap_or(usual), octave).ok());
        if clef.is_none() {
            self.remark(Oddity::OddClef);
        }
        Ok(clef.map(RawChange::Clef))
    }

    fn measure_style(&mut self, cursor: &mut Cursor<'_>) -> Result<(), FileError> {
        while let Some(tag) = cursor.child()? {
            match tag.name() {
                "multiple-rest" => {
                    let bars = whole::<u16>(&cursor.text()?).unwrap_or(0);
                    if let Some(bar) = self.part.bars.last_mut() {
                        bar.signs.rests_together = bars;
                    }
                }
                "measure-repeat" => {
                    let begins = tag.is("type", "start");
                    let bars = whole::<u16>(&cursor.text()?).unwrap_or(1);
                    self.like_before = if begins { bars } else { 0 };
                    if let Some(bar) = self.part.bars.last_mut() {
                        bar.signs.like_before = self.like_before;
                    }
                }
                "beat-repeat" | "slash" => {
                    let name = tag.name().to_owned();
                    self.not_understood(&name);
                    cursor.skip()?;
                }
                _ => cursor.skip()?,
            }
        }
        Ok(())
    }
}

/// The sign of a staff for drums.
const WITHOUT_PITCH: &str = "percussion";

/// Staves of one part, at most.
const MOST_STAVES: u8 = 16;

fn transpose(cursor: &mut Cursor<'_>) -> Result<RawTranspose, FileError> {
    let (mut diatonic, mut chromatic, mut octave_change, mut doubled) = (None, None, None, false);
    // Beyond what any instrument does it is a slip, and no reckoning is to overflow.
    let within = |number: &i32| number.abs() <= 200;
    while let Some(tag) = cursor.child()? {
        match tag.name() {
            "diatonic" => diatonic = whole::<i32>(&cursor.text()?).filter(within),
            // Quarter tones are between what is read here: the nearer whole number.
            "chromatic" => {
                let number = fraction(&cursor.text()?).map(|(number, of)| number / of);
                chromatic = number.and_then(|number| i32::try_from(number).ok()).filter(within);
            }
            "octave-change" => octave_change = whole::<i32>(&cursor.text()?).filter(within),
            "double" => {
                doubled = !tag.is("above", "yes");
                cursor.skip()?;
            }
            _ => cursor.skip()?,
        }
    }
    Ok(RawTranspose {
        numbers: MusicXmlTranspose {
            diatonic: diatonic.unwrap_or(0),
            chromatic: chromatic.unwrap_or(0),
            octave_change: octave_change.unwrap_or(0),
        },
        letters: diatonic.is_some() || chromatic.unwrap_or(0) == 0,
        doubled_below: doubled,
    })
}
