//! A note or rest.

use super::clock::LONGEST;
use super::cursor::{Cursor, Tag};
use super::measure::PartReader;
use super::notations;
use super::numbers::{divisions, fraction, whole};
use super::raw::{RawItem, RawNote};
use crate::error::FileError;
use crate::remark::Oddity;
use crookwise_score::score::{Look, NoteValue, Quarters, Stem, Tuplet};
use crookwise_theory::{Pitch, Step};

/// The element with the number of a voice.
pub(super) const VOICE: &str = "voice";

/// What a note says of itself.
#[derive(Default)]
pub(super) struct Said {
    pitch: Option<Pitch>,
    is_rest: bool,
    is_pitched: bool,
    duration: Option<Option<(i64, i64)>>,
    pub tied: bool,
    grace: bool,
    tuplet: Option<Tuplet>,
    pub staff: u8,
    voice: u8,
    pub look: Look,
}

impl PartReader<'_> {
    pub fn note(&mut self, cursor: &mut Cursor<'_>) -> Result<(), FileError> {
        let mut said = Said { staff: 1, voice: 1, ..Said::default() };
        while let Some(tag) = cursor.child()? {
            match tag.name() {
                "pitch" => self.pitch(cursor, &mut said)?,
                "duration" => said.duration = Some(fraction(&cursor.text()?)),
                VOICE => said.voice = whole(&cursor.text()?).unwrap_or(1),
                "type" => said.look.value = value(&cursor.text()?),
                "stem" => said.look.stem = stem(&cursor.text()?),
                "staff" => said.staff = whole(&cursor.text()?).filter(|staff| *staff > 0).unwrap_or(1),
                "beam" => beam(cursor, &tag, &mut said.look)?,
                "dot" => {
                    said.look.dots = said.look.dots.saturating_add(1);
                    cursor.skip()?;
                }
                "chord" => {
                    said.look.on_stem = true;
                    cursor.skip()?;
                }
                "rest" => {
                    said.is_rest = true;
                    said.look.whole_bar = tag.is("measure", "yes");
                    cursor.skip()?;
                }
                "grace" => {
                    said.grace = true;
                    said.look.slash = tag.is("slash", "yes");
                    cursor.skip()?;
                }
                "cue" => {
                    said.look.cue = true;
                    cursor.skip()?;
                }
                "tie" => {
                    said.tied |= tag.is("type", "stop");
                    said.look.tied_on |= tag.is("type", "start");
                    cursor.skip()?;
                }
                "accidental" => said.look.accidental = accidental(&cursor.text()?),
                "time-modification" => said.tuplet = tuplet(cursor)?,
                "unpitched" => unpitched(cursor, &mut said)?,
                "notations" => notations::read(self, cursor, &mut said)?,
                // How it is drawn or played by a machine, and what is sung.
                "instrument" | "notehead" | "notehead-text" | "play" | "listen" | "footnote" | "level"
                | "lyric" => {
                    cursor.skip()?;
                }
                name => {
                    self.not_understood(name);
                    cursor.skip()?;
                }
            }
        }
        self.place(said);
        Ok(())
    }

    fn pitch(&mut self, cursor: &mut Cursor<'_>, said: &mut Said) -> Result<(), FileError> {
        let (mut step, mut alter, mut octave) = (None, Some((0, 1)), None);
        while let Some(tag) = cursor.child()? {
            match tag.name() {
                "step" => step = cursor.text()?.chars().next().and_then(Step::from_letter),
                "alter" => alter = fraction(&cursor.text()?),
                "octave" => {
                    octave = whole::<i32>(&cursor.text()?).filter(|octave| (-1..=12).contains(octave));
                }
                _ => cursor.skip()?,
            }
        }
        said.is_pitched = true;
        let (Some(step), Some((up, of)), Some(octave)) = (step, alter, octave) else {
            self.remark(Oddity::OddPitch);
            return Ok(());
        };
        if up % of != 0 {
            self.remark(Oddity::Microtone);
        }
        match nearest(up, of) {
            Some(alter) => said.pitch = Some(Pitch::new(step, alter, octave)),
            None => self.remark(Oddity::OddPitch),
        }
        Ok(())
    }

    /// Puts a note where it belongs in time.
    fn place(&mut self, mut said: Said) {
        let length = if said.grace { Quarters::ZERO } else { self.length(&said) };
        let grace = said.grace || length == Quarters::ZERO;
        let at = match (said.look.on_stem, grace) {
            (true, _) => self.clock.on_stem(length),
            (false, true) => self.clock.grace(),
            (false, false) => self.clock.note(length),
        };
        let counts = &mut self.part.counts;
        let is_pitched = said.is_pitched && !said.is_rest;
        counts.pitched += u32::from(is_pitched);
        counts.rests += u32::from(said.is_rest);
        counts.unpitched += u32::from(said.look.unpitched);
        counts.on_stem += u32::from(said.look.on_stem);
        counts.graces += u32::from(said.grace);
        counts.cues += u32::from(said.look.cue);
        self.part.pitched.push(said.pitch.is_some() && !said.is_rest && !said.look.unpitched);
        if said.is_rest {
            said.pitch = None;
        } else if said.pitch.is_none() {
            if !said.is_pitched {
                self.remark(Oddity::OddPitch);
            }
            return;
        }
        self.part.staves = self.part.staves.max(said.staff);
        self.part.items.push(RawItem::Note(RawNote {
            at,
            length,
            staff: said.staff,
            voice: said.voice,
            pitch: said.pitch,
            tied: said.tied,
            grace,
            tuplet: said.tuplet,
            look: said.look,
        }));
    }

    /// How long a note is: what it says, else what its value says.
    fn length(&mut self, said: &Said) -> Quarters {
        let oddity = match said.duration {
            Some(Some(duration)) => {
                let length = divisions(duration, self.divisions);
                let sane = |length: &Quarters| {
                    *length > Quarters::ZERO
                        && *length <= Quarters::whole(LONGEST)
                        && length.fraction().1 <= FINEST
                };
                if let Some(length) = length.filter(sane) {
                    return length;
                }
                // A rest or a note of no length stands there as a grace note does.
                if duration.0 == 0 {
                    return Quarters::ZERO;
                }
                Oddity::OddDuration
            }
            Some(None) => Oddity::OddDuration,
            None => Oddity::NoDuration,
        };
        self.remark(oddity);
        printed_length(said).unwrap_or(Quarters::ZERO)
    }
}

/// The nearer semitone, from the middle away from the natural.
fn nearest(up: i64, of: i64) -> Option<i32> {
    let half = up.signum().saturating_mul(of / 2);
    i32::try_from(up.saturating_add(half) / of).ok().filter(|alter| (-12..=12).contains(alter))
}

/// The finest part of a quarter note that is taken for true.
const FINEST: i64 = 1 << 20;

/// What value, dots and tuplet say of a length.
fn printed_length(said: &Said) -> Option<Quarters> {
    let (quarters, of) = said.look.value?.quarters();
    let dots = u32::from(said.look.dots.min(4));
    // Each dot adds half of what stands before it: 2 - 1/2^dots.
    let (numerator, denominator) = (quarters * ((2 << dots) - 1), of * (1 << dots));
    match said.tuplet {
        Some(tuplet) => {
            Quarters::new(numerator * i64::from(tuplet.in_time_of), denominator * i64::from(tuplet.notes))
        }
        None => Quarters::new(numerator, denominator),
    }
}

pub(super) fn value(name: &str) -> Option<NoteValue> {
    Some(match name {
        "quarter" => NoteValue::Quarter,
        "eighth" => NoteValue::Eighth,
        "16th" => NoteValue::N16,
        "half" => NoteValue::Half,
        "whole" => NoteValue::Whole,
        "32nd" => NoteValue::N32,
        "64th" => NoteValue::N64,
        "128th" => NoteValue::N128,
        "256th" => NoteValue::N256,
        "512th" => NoteValue::N512,
        "1024th" => NoteValue::N1024,
        "breve" => NoteValue::Breve,
        "long" => NoteValue::Long,
        "maxima" => NoteValue::Maxima,
        _ => return None,
    })
}

fn stem(name: &str) -> Option<Stem> {
    match name {
        "up" => Some(Stem::Up),
        "down" => Some(Stem::Down),
        "double" => Some(Stem::Double),
        "none" => Some(Stem::None),
        _ => None,
    }
}

/// The accidental printed, as semitones; those between semitones are not.
fn accidental(name: &str) -> Option<i8> {
    match name {
        "natural" => Some(0),
        "sharp" | "natural-sharp" => Some(1),
        "flat" | "natural-flat" => Some(-1),
        "double-sharp" | "sharp-sharp" => Some(2),
        "flat-flat" => Some(-2),
        "triple-sharp" => Some(3),
        "triple-flat" => Some(-3),
        _ => None,
    }
}

fn beam(cursor: &mut Cursor<'_>, tag: &Tag<'_>, look: &mut Look) -> Result<(), FileError> {
    let level = tag.number::<u32>("number").unwrap_or(1).clamp(1, 8) - 1;
    let bit = 1_u8 << level;
    match &*cursor.text()? {
        "begin" => look.beams.begin |= bit,
        "continue" => look.beams.through |= bit,
        "end" => look.beams.end |= bit,
        "forward hook" => look.beams.hook_right |= bit,
        "backward hook" => look.beams.hook_left |= bit,
        _ => {}
    }
    Ok(())
}

fn tuplet(cursor: &mut Cursor<'_>) -> Result<Option<Tuplet>, FileError> {
    let (mut notes, mut in_time_of) = (None, None);
    while let Some(tag) = cursor.child()? {
        match tag.name() {
            "actual-notes" => notes = whole::<u16>(&cursor.text()?),
            "normal-notes" => in_time_of = whole::<u16>(&cursor.text()?),
            _ => cursor.skip()?,
        }
    }
    let tuplet = notes.zip(in_time_of).filter(|(notes, time)| *notes > 0 && *time > 0);
    Ok(tuplet.map(|(notes, in_time_of)| Tuplet { notes, in_time_of }))
}

/// Where a note without a pitch stands: as if there were a treble clef (MusicXML 4.0, `unpitched`).
fn unpitched(cursor: &mut Cursor<'_>, said: &mut Said) -> Result<(), FileError> {
    let (mut step, mut octave) = (Step::B, 4);
    while let Some(tag) = cursor.child()? {
        match tag.name() {
            "display-step" => {
                step = cursor.text()?.chars().next().and_then(Step::from_letter).unwrap_or(step);
            }
            "display-octave" => {
                octave = whole(&cursor.text()?).filter(|high| (0..=9).contains(high)).unwrap_or(octave);
            }
            _ => cursor.skip()?,
        }
    }
    said.look.unpitched = true;
    said.pitch = Some(Pitch::natural(step, octave));
    Ok(())
}
