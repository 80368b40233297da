//! The map of a movement: for every staff where it plays, after how long a rest it enters, where its crook changes; and how loud
//! the page is around it. What it plays there is no part of it: places worth hearing stand beside it ([`crate::places`]).
//!
//! Bars and times are those of the score as it is printed, each once; the [`Road`](crate::road::Road) says when they are played.

mod loudness;

pub use loudness::{LOUDNESS_BY_NUMBER, LOUDNESS_BY_SIGNS};

use crate::change::ChangeTo;
use crate::resolve::Decoder;
use crate::score::{NoteId, PartStaff, Quarters, Score, ScoreNote, StaffCourse, StaffId};
use loudness::Bars;

/// A movement seen from afar.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct MovementMap {
    /// Its staves in score order.
    pub rows: Vec<MapRow>,
    /// How loud each bar is, 0 where nobody plays to 100 (see [`LOUDNESS_BY_SIGNS`]).
    pub loudness: Vec<u8>,
}

/// A staff in its course.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MapRow {
    /// The staff.
    pub staff: StaffId,
    /// Where it plays, in its course.
    pub stretches: Vec<PlayedStretch>,
    /// Its changes of crook, and of label altogether.
    pub crooks: Vec<MapCrook>,
}

/// A stretch of playing: rests within it are shorter than a bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PlayedStretch {
    /// When its first note begins, in quarter notes from the beginning of the score.
    pub from: Quarters,
    /// When its last note ends, likewise.
    pub to: Quarters,
    /// The bars of both, counted from 0.
    pub bars: (usize, usize),
    /// Its first note.
    pub first: NoteId,
    /// Whole bars of rest before it.
    pub rest: usize,
}

/// A change of label on a staff.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MapCrook {
    /// When, in quarter notes from the beginning of the score.
    pub at: Quarters,
    /// The bar, counted from 0.
    pub bar: usize,
    /// For which player, from 0; `None` for all.
    pub player: Option<usize>,
    /// As it is printed.
    pub label: String,
    /// What it means ("Horn in E-flat"), where it names a staff.
    pub name: Option<String>,
}

/// An entry that was asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NextEntry {
    /// The staff.
    pub staff: StaffId,
    /// What it plays from there on.
    pub stretch: PlayedStretch,
}

impl MovementMap {
    /// The map of a score.
    #[must_use]
    pub fn of(score: &Score, decoder: &mut Decoder<'_>) -> Self {
        let mut bars = Bars::new(score);
        let mut rows = Vec::new();
        for staff in score.staves() {
            let notes = || staff.notes().iter().filter(|(_, note)| sounds(note));
            bars.staff(staff, notes().map(|(_, note)| note));
            let stretches = stretches(score, notes());
            rows.push(MapRow { staff: staff.id, stretches, crooks: crooks(score, staff, decoder) });
        }
        Self { rows, loudness: bars.done() }
    }

    /// The next entry of any of these staves after a time of the score, after at least so many whole bars of rest; the earliest, and of
    /// several the first in score order.
    #[must_use]
    pub fn next_entry(&self, staves: &[StaffId], after: Quarters, rest: usize) -> Option<NextEntry> {
        let own = self.rows.iter().filter(|row| staves.contains(&row.staff));
        let next = own.filter_map(|row| {
            let later = row.stretches.partition_point(|stretch| stretch.from <= after);
            let mut later = row.stretches.iter().skip(later);
            let stretch = *later.find(|stretch| stretch.rest >= rest)?;
            Some(NextEntry { staff: row.staff, stretch })
        });
        next.min_by_key(|entry| entry.stretch.from)
    }
}

/// Whether something is heard of a note by itself, with a pitch or without.
fn sounds(note: &ScoreNote) -> bool {
    note.printed.is_some() && note.is_played() && !note.grace
}

/// Notes of a staff in stretches.
fn stretches<'a>(score: &Score, notes: impl Iterator<Item = &'a (NoteId, ScoreNote)>) -> Vec<PlayedStretch> {
    let mut all: Vec<PlayedStretch> = Vec::new();
    for (id, note) in notes {
        let (from, to) = (note.start.time, note.end.time);
        if let Some(last) = all.last_mut() {
            let rests = from.minus(last.to).unwrap_or(Quarters::ZERO);
            let bar = score.bars().get(last.bars.1).map_or(Quarters::whole(4), |bar| bar.length);
            if rests < bar {
                if last.to < to {
                    last.to = to;
                    last.bars.1 = ends_in(score, last.bars.1, to);
                }
                continue;
            }
        }
        let bar = score.bar_at(from);
        let silent = all.last().map_or(0, |last| last.bars.1 + 1);
        let last_bar = ends_in(score, bar, to);
        let rest = bar.saturating_sub(silent);
        all.push(PlayedStretch { from, to, bars: (bar, last_bar), first: *id, rest });
    }
    all
}

/// The bar in which something ends that is in this one: a note that ends with its bar lies in no other.
fn ends_in(score: &Score, bar: usize, to: Quarters) -> usize {
    let later =
        score.bars().iter().enumerate().skip(bar.saturating_add(1)).take_while(|(_, later)| later.start < to);
    later.last().map_or(bar, |(at, _)| at)
}

fn crooks(score: &Score, staff: &PartStaff, decoder: &mut Decoder<'_>) -> Vec<MapCrook> {
    let labels = || {
        staff.changes().iter().filter_map(|change| match &change.to {
            ChangeTo::Label(label) => Some((change, label)),
            _ => None,
        })
    };
    if labels().next().is_none() {
        return Vec::new();
    }
    let course = StaffCourse::of(score, staff, decoder);
    let one = |(change, label): (&crate::score::TimedChange, &String)| MapCrook {
        at: change.at.time,
        bar: score.bar_at(change.at.time),
        player: change.player,
        label: label.clone(),
        name: course.place_at(change.at, change.player.unwrap_or(0)).map(|place| place.staff.name()),
    };
    labels().map(one).collect()
}
