//! Wanted notes in a few bytes each. What is as it was with the note before is not said again: when it begins, how long it lasts,
//! whose it is, how much it counts.
//!
//! In front stands the unit of time in ticks. Each note has a head of one byte, the place of its letter told from that of the
//! note before, and what the head says.

use super::number::{Reader, write, write_signed};
use crookwise_planner::{MOST_NOTES, MOST_PLAYERS, Ticks, WantedNote};
use crookwise_theory::{Pitch, Sounding, Step};

/// It begins with the note before.
const BEGINS_ALIKE: u8 = 1;
/// It lasts as long as that.
const LASTS_ALIKE: u8 = 1 << 1;
/// It is for the same player.
const SAME_PLAYER: u8 = 1 << 2;
/// It counts as much.
const COUNTS_ALIKE: u8 = 1 << 3;
/// Any octave of it will do.
const ANY_OCTAVE: u8 = 1 << 4;
/// Above these bits stands the alteration, counted from three flats.
const ALTER: u32 = 5;
const FLATS: i32 = 3;
/// An alteration beyond three follows by itself.
const FAR: i32 = 7;

/// The widest pitches and the latest times that a link may name.
const OCTAVES: core::ops::RangeInclusive<i64> = -2..=12;
const MOST_ALTERED: i64 = 9;
const LATEST: f64 = 1e6;

/// Where the note before stands, as far as the next one is told from it.
struct Before {
    from: i64,
    length: i64,
    place: i64,
    player: u64,
    hundredths: u64,
}

/// Before the first note.
const START: Before = Before { from: 0, length: 1, place: 28, player: 0, hundredths: 100 };

pub(super) fn pack(notes: &[WantedNote]) -> Vec<u8> {
    let times = notes.iter().flat_map(|note| [note.from.0, note.to.0]);
    let unit = times.fold(0, |unit, time| gcd(unit, time.unsigned_abs())).max(1);
    let mut out = Vec::new();
    write(unit, &mut out);
    let unit = i64::try_from(unit).unwrap_or(1);
    let mut before = START;
    for note in notes {
        let Pitch { step, alter, octave } = note.sounding.0;
        let now = Before {
            from: note.from.0 / unit,
            length: note.to.0 / unit - note.from.0 / unit,
            place: i64::from(octave) * 7 + i64::from(step.index()),
            player: note.player.map_or(0, |player| player as u64 + 1),
            hundredths: (note.weight * 100.0).round() as u64,
        };
        let near = if alter.abs() <= FLATS { alter + FLATS } else { FAR };
        let flag = |is: bool, flag: u8| if is { flag } else { 0 };
        out.push(
            flag(now.from == before.from, BEGINS_ALIKE)
                | flag(now.length == before.length, LASTS_ALIKE)
                | flag(now.player == before.player, SAME_PLAYER)
                | flag(now.hundredths == before.hundredths, COUNTS_ALIKE)
                | flag(note.any_octave, ANY_OCTAVE)
                | (near as u8) << ALTER,
        );
        write_signed(now.place - before.place, &mut out);
        if near == FAR {
            write_signed(i64::from(alter), &mut out);
        }
        if now.from != before.from {
            write_signed(now.from - before.from, &mut out);
        }
        if now.length != before.length {
            write_signed(now.length, &mut out);
        }
        if now.player != before.player {
            write(now.player, &mut out);
        }
        if now.hundredths != before.hundredths {
            write(now.hundredths, &mut out);
        }
        before = now;
    }
    out
}

/// The notes that were packed; `None` where these bytes are none that [`pack`] writes.
pub(super) fn unpack(bytes: &[u8]) -> Option<Vec<WantedNote>> {
    let mut reader = Reader { left: bytes };
    let unit = i64::try_from(reader.number()?).ok().filter(|unit| *unit > 0)?;
    let (mut before, mut notes) = (START, Vec::new());
    while !reader.left.is_empty() {
        if notes.len() == MOST_NOTES {
            return None;
        }
        let (note, now) = one(&mut reader, &before, unit)?;
        notes.push(note);
        before = now;
    }
    Some(notes)
}

fn one(reader: &mut Reader<'_>, before: &Before, unit: i64) -> Option<(WantedNote, Before)> {
    let head = reader.byte()?;
    let is = |flag: u8| head & flag != 0;
    let place = before.place.checked_add(reader.signed()?)?;
    let alter = match i32::from(head >> ALTER) {
        FAR => reader.signed()?,
        near => i64::from(near - FLATS),
    };
    let from = if is(BEGINS_ALIKE) { before.from } else { before.from.checked_add(reader.signed()?)? };
    let length = if is(LASTS_ALIKE) { before.length } else { reader.signed()? };
    let player = if is(SAME_PLAYER) { before.player } else { reader.number()? };
    let hundredths = if is(COUNTS_ALIKE) { before.hundredths } else { reader.number()? };
    let is_pitch = OCTAVES.contains(&place.div_euclid(7)) && alter.abs() <= MOST_ALTERED;
    let is_fine =
        is_pitch && player <= MOST_PLAYERS as u64 && hundredths <= 100_000 && from >= 0 && length > 0;
    let to = from.checked_add(length)?.checked_mul(unit).map(Ticks).filter(|to| to.quarters() <= LATEST)?;
    if !is_fine {
        return None;
    }
    // Within the bounds that were looked at.
    let sounding =
        Pitch::new(Step::from_index(place.rem_euclid(7) as i32), alter as i32, place.div_euclid(7) as i32);
    let note = WantedNote {
        from: Ticks(from.checked_mul(unit)?),
        to,
        sounding: Sounding(sounding),
        player: usize::try_from(player).ok()?.checked_sub(1),
        weight: hundredths as f64 / 100.0,
        any_octave: is(ANY_OCTAVE),
    };
    Some((note, Before { from, length, place, player, hundredths }))
}

const fn gcd(mut a: u64, mut b: u64) -> u64 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}
