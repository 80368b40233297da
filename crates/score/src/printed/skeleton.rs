//! The sounding reduction of a score: the course of its harmonies as bare chords on a grand staff, stemless, each where it
//! begins and tied where a bar line falls into it.
//!
//! Spelled as its harmony is; what several sound on one key of the keyboard stands once. On the upper staff each letter
//! stands where it sounds highest, on the lower one where it sounds lowest: the bass is the true one. What lies beyond three
//! lines over or under its staff is brought nearer by octaves.

use super::{PrintedBar, PrintedEvent, PrintedNote, PrintedStaff, memory};
use crate::harmony::ScoreHarmony;
use crate::reduction::Hand;
use crate::score::{Bar, Moment, NoteId, NoteValue, Quarters, Score, StaffId};
use crookwise_theory::{Clef, Pitch, Signature};

/// The highest sound of the upper staff (C6) and the lowest of the lower one (C2), by their MIDI numbers.
const REACH: (i32, i32) = (36, 84);

/// Prints the harmonies of a score on an upper and a lower staff; `staff_of` names the staff on which a note stands.
#[must_use]
pub fn skeleton(
    score: &Score,
    harmonies: &[ScoreHarmony],
    staff_of: &dyn Fn(NoteId) -> Option<StaffId>,
) -> [PrintedStaff; 2] {
    let chords: Vec<Vec<PrintedNote>> = harmonies.iter().map(|own| notes(own, staff_of)).collect();
    [(Hand::Upper, Clef::TREBLE), (Hand::Lower, Clef::BASS)].map(|(hand, clef)| {
        let of_hand = |note: &&PrintedNote| Hand::of(note.pitch) == hand;
        let chords: Vec<Vec<PrintedNote>> =
            chords.iter().map(|chord| once(chord.iter().filter(of_hand).cloned(), hand)).collect();
        let bars = score.bars().iter().map(|bar| {
            let movement = score.movement_at(Moment::measured(bar.start));
            let mut printed = PrintedBar {
                clef,
                signature: movement.map_or(Signature(0), crookwise_theory::Key::signature),
                clefs: Vec::new(),
                voices: vec![voice(bar, harmonies, &chords)],
                signs: Vec::new(),
                players: None,
            };
            memory::remember(&mut printed);
            printed
        });
        PrintedStaff { label: String::new(), bars: bars.collect() }
    })
}

/// The notes of a harmony from low to high, each key of the keyboard once.
fn notes(own: &ScoreHarmony, staff_of: &dyn Fn(NoteId) -> Option<StaffId>) -> Vec<PrintedNote> {
    let mut notes: Vec<PrintedNote> = Vec::new();
    for (letter, id) in own.harmony.letters.iter().zip(&own.notes) {
        let pitch = brought_near(letter.pitch);
        let at = notes.partition_point(|other| other.pitch.semitones() < pitch.semitones());
        let Some(staff) = staff_of(*id) else { continue };
        if notes.get(at).is_none_or(|other| !other.pitch.same_key(pitch)) {
            let note = PrintedNote {
                staff,
                id: *id,
                pitch,
                accidental: None,
                tied: false,
                tied_on: false,
                unpitched: false,
                made: None,
            };
            notes.insert(at, note);
        }
    }
    notes
}

/// Within reach of the two staves.
fn brought_near(pitch: Pitch) -> Pitch {
    let (low, high) = REACH;
    let octaves = match pitch.midi() {
        midi if midi < low => (low - midi + 11).div_euclid(12),
        midi if midi > high => (high - midi).div_euclid(12),
        _ => 0,
    };
    Pitch { octave: pitch.octave.saturating_add(octaves), ..pitch }
}

/// Each letter once: on the upper staff where it is highest, on the lower where it is lowest.
fn once(notes: impl DoubleEndedIterator<Item = PrintedNote>, hand: Hand) -> Vec<PrintedNote> {
    let mut kept: Vec<PrintedNote> = Vec::new();
    let is_same = |one: &PrintedNote, other: &PrintedNote| {
        (one.pitch.step, one.pitch.alter) == (other.pitch.step, other.pitch.alter)
    };
    let mut keep = |note: PrintedNote| {
        if !kept.iter().any(|other| is_same(other, &note)) {
            kept.push(note);
        }
    };
    match hand {
        Hand::Upper => notes.rev().for_each(&mut keep),
        Hand::Lower => notes.for_each(&mut keep),
    }
    crookwise_theory::order::put_in_order(&mut kept, |note| (note.pitch.diatonic(), note.pitch.alter));
    kept
}

/// What of the harmonies lies in a bar.
fn voice(bar: &Bar, harmonies: &[ScoreHarmony], chords: &[Vec<PrintedNote>]) -> Vec<PrintedEvent> {
    let end = bar.start.plus(bar.length).unwrap_or(bar.start);
    let first = harmonies.partition_point(|own| own.to <= bar.start);
    let mut events = Vec::new();
    for (own, chord) in harmonies.iter().zip(chords).skip(first) {
        if own.from >= end {
            break;
        }
        let (from, to) = (own.from.max(bar.start), own.to.min(end));
        let mut notes = chord.clone();
        for note in &mut notes {
            note.tied = own.from < bar.start;
            note.tied_on = own.to > end;
        }
        events.push(PrintedEvent {
            at: from.minus(bar.start).unwrap_or_default(),
            length: to.minus(from).unwrap_or_default(),
            value: Some(NoteValue::Whole),
            whole_bar: notes.is_empty() && from == bar.start && to == end,
            notes,
            ..PrintedEvent::default()
        });
    }
    // A staff on which no chord begins is empty, not full of short rests.
    if events.iter().all(PrintedEvent::is_rest) {
        events = vec![PrintedEvent {
            at: Quarters::ZERO,
            length: bar.length,
            value: Some(NoteValue::Whole),
            whole_bar: true,
            ..PrintedEvent::default()
        }];
    }
    events.retain(|event| event.whole_bar || !event.is_rest());
    events
}
