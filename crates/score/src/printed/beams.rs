//! Beams where the score has none of its own: by the beat, and eighths by the half bar or the bar as the time signature has
//! it (common practice).

use super::PrintedEvent;
use crate::score::{Beams, NoteValue, Quarters, TimeSignature};

/// How many flags a value has.
#[must_use]
pub(super) fn flags(value: Option<NoteValue>) -> u8 {
    match value {
        Some(NoteValue::Eighth) => 1,
        Some(NoteValue::N16) => 2,
        Some(NoteValue::N32) => 3,
        Some(NoteValue::N64) => 4,
        Some(value) if value < NoteValue::N64 => 5,
        _ => 0,
    }
}

/// A note or a rest of a voice, as far as beams ask.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Beamed {
    /// When, from the beginning of the bar.
    pub at: Quarters,
    /// When it ends.
    pub end: Quarters,
    /// Its value.
    pub value: Option<NoteValue>,
    /// Whether it is a rest.
    pub is_rest: bool,
}

/// The beams of what a voice has in a bar, by the beat of a time signature.
#[must_use]
pub fn by_the_beat(voice: &[Beamed], time: Option<TimeSignature>) -> Vec<Beams> {
    let mut beams = vec![Beams::default(); voice.len()];
    let flags: Vec<u8> = voice.iter().map(|own| flags(own.value)).collect();
    let (beat, wide) = beats(time);
    let mut from = 0;
    while from < voice.len() {
        let to = end_of_group(voice, from, beat, wide);
        if to > from + 1 {
            join(&flags, &mut beams, from, to);
        }
        from = to.max(from + 1);
    }
    beams
}

/// Beams the events of a voice, unless the score has beams for them; grace notes that follow each other by themselves.
pub(super) fn beam(voice: &mut [PrintedEvent], time: Option<TimeSignature>) {
    for graces in voice.iter_mut().map(|event| &mut event.graces) {
        let flags: Vec<u8> = graces.iter().map(|grace| flags(grace.value)).collect();
        let can = graces.iter().all(|grace| grace.beams == Beams::default()) && !flags.contains(&0);
        if can && flags.len() > 1 {
            let mut beams = vec![Beams::default(); flags.len()];
            join(&flags, &mut beams, 0, flags.len());
            give(graces, beams);
        }
    }
    let has_own = voice.iter().any(|event| event.beams != Beams::default());
    if has_own {
        return;
    }
    let beamed = |event: &PrintedEvent| Beamed {
        at: event.at,
        end: event.end(),
        value: event.value,
        is_rest: event.is_rest(),
    };
    let all: Vec<Beamed> = voice.iter().map(beamed).collect();
    give(voice, by_the_beat(&all, time));
}

fn give(events: &mut [PrintedEvent], beams: Vec<Beams>) {
    for (event, own) in events.iter_mut().zip(beams) {
        event.beams = own;
    }
}

/// The beat, and the stretch over which eighths alone are joined.
fn beats(time: Option<TimeSignature>) -> (Quarters, Quarters) {
    let quarters =
        |numerator: i64, denominator: i64| Quarters::new(numerator, denominator).unwrap_or(Quarters::ZERO);
    match time.map(|time| (i64::from(time.beats), i64::from(time.value.max(1)))) {
        // Three eighths and their multiples are one beat each.
        Some((beats, value)) if value >= 8 && beats % 3 == 0 => (quarters(12, value), quarters(12, value)),
        Some((3, 4)) => (Quarters::whole(1), Quarters::whole(3)),
        Some((2, 4) | (4, 4) | (2, 2) | (4, 2)) => (Quarters::whole(1), Quarters::whole(2)),
        Some((_, value)) => (quarters(4, value), quarters(4, value)),
        None => (Quarters::whole(1), Quarters::whole(1)),
    }
}

/// The number of a stretch of such a length in which a time lies.
fn stretch(at: Quarters, length: Quarters) -> i64 {
    let ((over, under), (by, of)) = (at.fraction(), length.fraction());
    let (over, under) = (i128::from(over) * i128::from(of), i128::from(under) * i128::from(by).max(1));
    i64::try_from(over.div_euclid(under.max(1))).unwrap_or(0)
}

/// Where the group that begins here ends: notes with flags that follow each other within one beat, or within the wider
/// stretch where all in it are eighths.
fn end_of_group(voice: &[Beamed], from: usize, beat: Quarters, wide: Quarters) -> usize {
    let Some(first) = voice.get(from) else { return from + 1 };
    if first.is_rest || flags(first.value) == 0 {
        return from + 1;
    }
    let run = |length: Quarters, most: u8| {
        let mut to = from;
        let mut end = first.at;
        while let Some(event) = voice.get(to) {
            let belongs = !event.is_rest
                && (1..=most).contains(&flags(event.value))
                && event.at == end
                && stretch(event.at, length) == stretch(first.at, length);
            if !belongs {
                break;
            }
            end = event.end;
            to += 1;
        }
        to
    };
    let of_beat = run(beat, u8::MAX);
    let of_eighths = run(wide, 1);
    // A wider run only where it ends where its stretch ends, or with the notes.
    of_beat.max(of_eighths)
}

/// Joins what stands at `from..to` by beams, as each has flags.
fn join(flags: &[u8], beams: &mut [Beams], from: usize, to: usize) {
    let counts = flags.get(from..to).unwrap_or_default();
    for (place, own) in beams.iter_mut().skip(from).take(counts.len()).enumerate() {
        let count = |at: Option<usize>| at.and_then(|at| counts.get(at)).copied().unwrap_or(0);
        let (before, after) = (count(place.checked_sub(1)), count(Some(place + 1)));
        for beam in 0..count(Some(place)) {
            let bit = 1 << beam;
            match (before > beam, after > beam) {
                (true, true) => own.through |= bit,
                (false, true) => own.begin |= bit,
                (true, false) => own.end |= bit,
                (false, false) if place == 0 => own.hook_right |= bit,
                (false, false) => own.hook_left |= bit,
            }
        }
    }
}
