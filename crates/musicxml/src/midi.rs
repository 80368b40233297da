//! A score as a standard MIDI file (type 1; MIDI Association, "Standard MIDI Files 1.0"): the times and tempi of the score, and a
//! track for each part. Notes tied together are one. Repeats stand once, as they are printed.

use crate::export::Sounds;
use crate::import::Import;
use core::fmt;
use crookwise_score::score::{Direction, Part, Quarters, Score, ScoreNote, StaffId};
use crookwise_theory::instrument::Blown;
use crookwise_theory::label::{DecodeOptions, StaffLabel, decode};
use crookwise_theory::order::put_in_order;
use crookwise_theory::{ClefSign, CrookFamily, Family, Mode};
use midly::num::{u4, u7, u15, u24, u28};
use midly::{Format, Header, MetaMessage, MidiMessage, Smf, Timing, Track, TrackEvent, TrackEventKind};

/// Ticks of a quarter note: halves to the 32nd part, thirds, ninths, fifths and sevenths of it are exact.
const TICKS: i64 = 10_080;
/// Quarter notes a minute where the score says no tempo. Common practice of the format.
const USUAL_TEMPO: u32 = 120_000;

/// Notes of a part that begin between a note and the one it is tied to, at most.
const NEAR: usize = 200;

/// Why no MIDI file is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MidiError {
    /// No part, or one that is not there.
    NoPart,
    /// The piece is longer than such a file can count.
    TooLong,
}

impl fmt::Display for MidiError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoPart => f.write_str("Choose at least one part that this score has"),
            Self::TooLong => f.write_str("This score is longer than a MIDI file can count"),
        }
    }
}

impl core::error::Error for MidiError {}

/// Writes parts, by their place in the file (`None` for all), as MIDI.
///
/// # Errors
/// Where there is no such part, or the score is too long.
pub fn midi(read: &Import, parts: Option<&[usize]>, sounds: &Sounds<'_>) -> Result<Vec<u8>, MidiError> {
    let chosen: Vec<usize> = parts.map_or_else(|| (0..read.parts.len()).collect(), <[usize]>::to_vec);
    if chosen.is_empty() {
        return Err(MidiError::NoPart);
    }
    let sounding = sounds(read);
    let mut names: Vec<Vec<u8>> = Vec::new();
    let mut events: Vec<Vec<(u32, TrackEventKind<'static>)>> = vec![conductor(&read.score)?];
    for (channel, at) in chosen.iter().enumerate() {
        let own = read.parts.get(*at).ok_or(MidiError::NoPart)?;
        let part = read.score.part(own.id).ok_or(MidiError::NoPart)?;
        // The tenth channel is for drums without pitch.
        let channel = channel % 15;
        let channel = u8::try_from(if channel >= 9 { channel + 1 } else { channel }).unwrap_or(0);
        events.push(of_part(part, channel, sounding.get(*at).map_or(&[], Vec::as_slice))?);
        names.push(part.name.as_bytes().to_vec());
    }
    let mut tracks: Vec<Track<'_>> = events.into_iter().map(track).collect();
    for (track, name) in tracks.iter_mut().skip(1).zip(&names) {
        let kind = TrackEventKind::Meta(MetaMessage::TrackName(name));
        track.insert(0, TrackEvent { delta: u28::new(0), kind });
    }
    let timing = Timing::Metrical(u15::new(u16::try_from(TICKS).unwrap_or(u16::MAX >> 1)));
    let file = Smf { header: Header::new(Format::Parallel, timing), tracks };
    let mut bytes = Vec::new();
    // Writing into memory cannot fail.
    let _ = file.write(&mut bytes);
    Ok(bytes)
}

/// Times, keys and tempi.
fn conductor(score: &Score) -> Result<Vec<(u32, TrackEventKind<'static>)>, MidiError> {
    let mut events = Vec::new();
    for bar in score.bars() {
        if let Some(time) = bar.time {
            let beats = u8::try_from(time.beats).unwrap_or(u8::MAX);
            let value = u8::try_from(time.value.trailing_zeros()).unwrap_or(2);
            let kind = MetaMessage::TimeSignature(beats, value, 24, 8);
            events.push((ticks(bar.start)?, TrackEventKind::Meta(kind)));
        }
    }
    if let Some(key) = score.movement {
        let fifths = i8::try_from(key.signature().practical().0).unwrap_or(0);
        let kind = MetaMessage::KeySignature(fifths, key.mode == Mode::Minor);
        events.push((0, TrackEventKind::Meta(kind)));
    }
    let mut tempi: Vec<(u32, u32)> = Vec::new();
    for told in score.staves().flat_map(|staff| &staff.directions) {
        if let Direction::Tempo(tempo) = told.direction {
            let at = ticks(told.at.time)?;
            if !tempi.iter().any(|(other, _)| *other == at) {
                tempi.push((at, tempo));
            }
        }
    }
    if tempi.iter().all(|(at, _)| *at > 0) {
        tempi.push((0, USUAL_TEMPO));
    }
    for (at, tempo) in tempi {
        // Microseconds of a quarter note, from thousandths of quarter notes a minute.
        let micros = u32::try_from(60_000_000_000_u64 / u64::from(tempo.max(1))).unwrap_or(u32::MAX);
        let kind = MetaMessage::Tempo(u24::new(micros.min(0x00FF_FFFF)));
        events.push((at, TrackEventKind::Meta(kind)));
    }
    Ok(events)
}

/// The notes of a part.
fn of_part(
    part: &Part,
    channel: u8,
    sounds: &[crookwise_theory::Sounding],
) -> Result<Vec<(u32, TrackEventKind<'static>)>, MidiError> {
    let channel = u4::new(channel);
    let midi = |message| TrackEventKind::Midi { channel, message };
    let program = decode(&part.name, DecodeOptions::default()).staves.first().map_or(0, program);
    let mut events = vec![(0, midi(MidiMessage::ProgramChange { program: u7::new(program) }))];
    // Notes that sound, by staff and pitch, so that what is tied to them goes on.
    let mut held: Vec<(StaffId, u7, Quarters, u32)> = Vec::new();
    for (note, sounding) in part.by_file().iter().zip(sounds) {
        // Grace and cue notes take no time of their own, or belong to another part.
        if note.note.grace || !note.note.is_played() {
            continue;
        }
        let Some(key) = u8::try_from(sounding.0.midi()).ok().filter(|key| *key < 128).map(u7::new) else {
            continue;
        };
        let ScoreNote { start, end, tied, .. } = note.note;
        let (from, to) = (ticks(start.time)?, ticks(end.time)?);
        let goes_on = |held: &&mut (StaffId, u7, Quarters, u32)| {
            held.0 == note.staff && held.1 == key && held.2 == start.time
        };
        // What it is tied to is among the last that began.
        let before = held.iter_mut().rev().take(NEAR).find(goes_on).filter(|_| *tied);
        if let Some((_, _, ended, off)) = before {
            (*ended, *off) = (end.time, to);
            continue;
        }
        events.push((from, midi(MidiMessage::NoteOn { key, vel: u7::new(80) })));
        held.push((note.staff, key, end.time, to));
    }
    events.extend(
        held.into_iter().map(|(_, key, _, off)| (off, midi(MidiMessage::NoteOff { key, vel: u7::new(0) }))),
    );
    Ok(events)
}

/// Events in their order, what ends before what begins, and the end of the track.
fn track(mut events: Vec<(u32, TrackEventKind<'static>)>) -> Track<'static> {
    let begins = |kind: &TrackEventKind<'_>| {
        matches!(kind, TrackEventKind::Midi { message: MidiMessage::NoteOn { .. }, .. })
    };
    put_in_order(&mut events, |(at, kind)| (*at, begins(kind)));
    let mut now = 0;
    let mut track = Track::new();
    for (at, kind) in events {
        track.push(TrackEvent { delta: u28::new(at - now), kind });
        now = at;
    }
    track.push(TrackEvent { delta: u28::new(0), kind: TrackEventKind::Meta(MetaMessage::EndOfTrack) });
    track
}

fn ticks(time: Quarters) -> Result<u32, MidiError> {
    let (numerator, denominator) = time.fraction();
    let ticks = i128::from(numerator) * i128::from(TICKS) / i128::from(denominator);
    u32::try_from(ticks).ok().filter(|ticks| *ticks < 1 << 27).ok_or(MidiError::TooLong)
}

/// A sound of General MIDI level 1 for an instrument, by what kind it is.
fn program(staff: &StaffLabel) -> u8 {
    let instrument = staff.instrument;
    let is_low = instrument.clef.sign == ClefSign::F;
    match (instrument.family, instrument.crooks) {
        (_, Some(CrookFamily::Horn)) => 60,
        (_, Some(CrookFamily::Trumpet)) => 56,
        (Family::Brass, _) => 57 + u8::from(is_low && staff.transposition.0.steps < 0),
        (Family::Woodwind, _) => match instrument.blown {
            Some(Blown::Edge) => 73,
            Some(Blown::Cylinder) => 71,
            _ if is_low => 70,
            _ => 68,
        },
        (Family::Strings, _) => match instrument.clef.sign {
            ClefSign::G => 40,
            ClefSign::C => 41,
            ClefSign::F if staff.transposition.0.steps < 0 => 43,
            ClefSign::F => 42,
        },
        (Family::Percussion, _) => 47,
        (Family::Voices, _) => 52,
        (Family::PluckedAndKeyboard, _) => 0,
    }
}
