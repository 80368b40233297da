//! The staves of a score as places are looked for in them: notes with what is tied to them, and what sounds in each bar.

use super::loudness::Loudness;
use crate::score::{NoteId, Quarters, Score, Sounded, StaffId};
use crookwise_theory::{CrookFamily, Pitch};

/// All staves.
pub(super) struct Staves<'a> {
    pub score: &'a Score,
    /// The brass, in score order.
    pub brass: Vec<Line>,
    /// All others, in score order.
    pub others: Vec<Line>,
}

/// A staff.
#[derive(Debug)]
pub(super) struct Line {
    pub staff: StaffId,
    pub family: Option<CrookFamily>,
    pub is_drum: bool,
    /// Its notes by when they begin; grace notes are left out, tied ones belong to the one they go on from.
    pub notes: Vec<Tone>,
    /// Whether it sounds in a bar.
    pub sounds: Vec<bool>,
    /// How loud it is marked.
    pub loudness: Loudness,
}

/// A note.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tone {
    pub id: NoteId,
    pub start: Quarters,
    pub end: Quarters,
    pub bar: usize,
    pub last_bar: usize,
    pub written: Pitch,
    pub pitch: Pitch,
}

impl<'a> Staves<'a> {
    pub fn of(score: &'a Score, sounded: &[Sounded<'_>]) -> Self {
        let mut staves = Self { score, brass: Vec::new(), others: Vec::new() };
        for staff in score.staves() {
            let own: Vec<&Sounded<'_>> = sounded.iter().filter(|note| note.staff == staff.id).collect();
            let Some(first) = own.first() else { continue };
            let mut line = Line {
                staff: staff.id,
                family: own.iter().find_map(|note| note.family),
                is_drum: first.is_drum,
                notes: tones(score, &own),
                sounds: vec![false; score.bars().len()],
                loudness: Loudness::of(staff),
            };
            for tone in &line.notes {
                if let Some(bars) = line.sounds.get_mut(tone.bar..=tone.last_bar) {
                    bars.fill(true);
                }
            }
            if first.is_brass { staves.brass.push(line) } else { staves.others.push(line) }
        }
        staves
    }

    /// How many staves besides the brass sound in a bar.
    pub fn others_in(&self, bar: usize) -> usize {
        self.others.iter().filter(|line| line.sounds.get(bar) == Some(&true)).count()
    }

    /// How many bars.
    pub fn bars(&self) -> usize {
        self.score.bars().len()
    }

    /// How long these bars are, in quarter notes.
    pub fn length(&self, from: usize, to: usize) -> f64 {
        let bars = self.score.bars().get(from..to).unwrap_or_default();
        bars.iter().map(|bar| bar.length.decimal()).sum()
    }
}

fn tones(score: &Score, own: &[&Sounded<'_>]) -> Vec<Tone> {
    let mut tones: Vec<Tone> = Vec::new();
    for note in own.iter().filter(|note| !note.note.grace) {
        let (start, end) = note.span();
        let last_bar = score.bar_at(start.plus(small(start, end)).unwrap_or(start));
        let before =
            tones.iter_mut().rev().take(8).find(|tone| tone.pitch == note.pitch && tone.end == start);
        if let (true, Some(before)) = (note.note.tied, before) {
            before.end = end;
            before.last_bar = last_bar.max(before.last_bar);
            continue;
        }
        let bar = score.bar_at(start);
        let (written, pitch) = (note.written.0, note.pitch);
        tones.push(Tone { id: note.id, start, end, bar, last_bar: last_bar.max(bar), written, pitch });
    }
    tones
}

/// Nearly the whole length of a note, so that one that ends with its bar lies in no other.
fn small(start: Quarters, end: Quarters) -> Quarters {
    let length = end.minus(start).unwrap_or(Quarters::ZERO);
    let (numerator, denominator) = length.fraction();
    Quarters::new(numerator.saturating_mul(999), denominator.saturating_mul(1000)).unwrap_or(Quarters::ZERO)
}

/// The rest between two notes in quarter notes.
pub(super) fn rest(before: &Tone, after: &Tone) -> f64 {
    after.start.minus(before.end).map_or(0.0, Quarters::decimal)
}

impl Line {
    /// Its notes that begin in these bars, both included.
    pub fn within(&self, from: usize, to: usize) -> &[Tone] {
        let start = self.notes.partition_point(|tone| tone.bar < from);
        let end = self.notes.partition_point(|tone| tone.bar <= to);
        self.notes.get(start..end).unwrap_or_default()
    }

    /// The note that sounds at a time, and began then or before.
    pub fn at(&self, time: Quarters) -> Option<&Tone> {
        let after = self.notes.partition_point(|tone| tone.start <= time);
        self.notes.get(after.saturating_sub(4)..after)?.iter().rev().find(|tone| tone.end > time)
    }

    /// Whether it strikes a note while that sounds, in any octave.
    pub fn strikes(&self, tone: &Tone) -> bool {
        let from = self.notes.partition_point(|other| other.start < tone.start);
        let later = self.notes.get(from..).unwrap_or_default().iter();
        later.take_while(|other| other.start < tone.end).any(|other| same_key(other.pitch, tone.pitch))
    }

    /// How many times it goes to another pitch in these bars.
    pub fn moves(&self, from: usize, to: usize) -> usize {
        self.within(from, to).windows(2).filter(|two| two[0].pitch != two[1].pitch).count()
    }
}

/// How many different pitches.
pub(super) fn pitches(tones: &[Tone]) -> usize {
    let mut seen: Vec<Pitch> = Vec::new();
    for tone in tones {
        if !seen.contains(&tone.pitch) {
            seen.push(tone.pitch);
        }
    }
    seen.len()
}

/// Whether two sounds are one in some octave.
pub(super) fn same_key(one: Pitch, other: Pitch) -> bool {
    (one.semitones() - other.semitones()) % 12 == 0
}
