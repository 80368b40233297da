//! What a score is made of: parts, their staves, what stands on them, bars.

use super::look::Look;
use super::quarters::{Moment, Quarters};
use super::signs::{BarSigns, TimedDirection, Told};
use crate::change::ChangeTo;
use crate::staff::{Choice, Settings};
use crookwise_theory::{Printed, Tonic};
use std::sync::Arc;

/// A part, by a number that it keeps whatever comes or goes around it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PartId(pub(super) u32);

/// A staff, by a number that it keeps whatever comes or goes around it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct StaffId(pub(super) u32);

/// A note or rest, by a number that it keeps whatever comes or goes around it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct NoteId(pub(super) u32);

impl NoteId {
    /// The number.
    #[must_use]
    pub const fn number(self) -> u32 {
        self.0
    }
}

/// A part: what stands together under one name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// Its number.
    pub id: PartId,
    /// As the score names it.
    pub name: Arc<str>,
    /// Its staves from the top.
    pub staves: Vec<PartStaff>,
}

/// A staff in its course through the score.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PartStaff {
    /// Its number.
    pub id: StaffId,
    /// What the score prints in front of it.
    pub label: Arc<str>,
    /// A reading of the label chosen against the usual one.
    pub choice: Option<Choice>,
    /// How it is printed at its beginning.
    pub settings: Settings,
    /// Crooks of single players that differ from the label's, by player.
    pub crooks: Vec<Option<Choice>>,
    /// How many players it has, 1 to [`MOST_PLAYERS`](crate::MOST_PLAYERS).
    pub players: usize,
    /// What stands over and under it, by when it does.
    pub directions: Vec<TimedDirection>,
    /// What the file says of its transposition, by from when it holds; empty for none, and for scores of no file.
    pub told: Vec<Told>,
    pub(super) changes: Vec<TimedChange>,
    pub(super) notes: Vec<(NoteId, ScoreNote)>,
}

/// What changes on a staff from a moment on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TimedChange {
    /// From when.
    pub at: Moment,
    /// For which player, from 0; `None` for all.
    pub player: Option<usize>,
    /// What.
    pub to: ChangeTo,
}

/// Who plays what stands on a staff of several players.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PlayedBy {
    /// This player, from 0.
    One(usize),
    /// All together ("a 2").
    All,
    /// The score does not say: players are taken by voice, and from the top where notes stand on one stem.
    Voice,
}

/// A note or a rest on a staff, where it has a number beside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ScoreNote {
    /// The note as printed; `None` for a rest.
    pub printed: Option<Printed>,
    /// Its voice on the staff, from 1 as scores count them.
    pub voice: u8,
    /// Who plays it.
    pub by: PlayedBy,
    /// When it begins.
    pub start: Moment,
    /// When it ends, which is no longer part of it.
    pub end: Moment,
    /// Whether it is tied to the same note before: it goes on and is not struck anew.
    pub tied: bool,
    /// Whether it is a grace note; it takes no time of its own.
    pub grace: bool,
    /// The tuplet it is printed in.
    pub tuplet: Option<Tuplet>,
    /// The bar it stands in, counted from 0. A note that is longer than its bar, and a grace note before a bar line, stand
    /// in the bar in which they are printed.
    pub bar: u32,
    /// How it looks.
    pub look: Look,
}

/// So many notes in the time of so many: a triplet is 3 in the time of 2. Lengths are as they sound and have it in
/// them already; it is here for printing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Tuplet {
    /// Notes printed.
    pub notes: u16,
    /// Notes of whose time it takes.
    pub in_time_of: u16,
}

/// A time signature: so many of such a note value a bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct TimeSignature {
    /// Above: how many.
    pub beats: u16,
    /// Below: 4 is a quarter note.
    pub value: u16,
}

/// A bar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bar {
    /// As it is numbered in print; upbeats and endings have numbers of their own.
    pub number: Arc<str>,
    /// When it begins.
    pub start: Quarters,
    /// How long it is.
    pub length: Quarters,
    /// The time signature that begins with it.
    pub time: Option<TimeSignature>,
    /// Repeats, endings and the line at its end.
    pub signs: BarSigns,
}

impl ScoreNote {
    /// Whether it is struck: neither a grace note nor one that goes on from the note before.
    #[must_use]
    pub const fn is_struck(&self) -> bool {
        !self.grace && !self.tied
    }

    /// Whether the part plays it: a cue is another part's, printed small for who counts, and silent (MusicXML 4.0, `cue`).
    #[must_use]
    pub const fn is_played(&self) -> bool {
        !self.look.cue
    }

    /// How long it is in quarter notes; zero for grace notes and for what was laid without lengths.
    #[must_use]
    pub fn length(&self) -> Option<Quarters> {
        self.end.time.minus(self.start.time)
    }
}

impl PartStaff {
    /// Its notes and rests with their numbers, by when they begin.
    #[must_use]
    pub fn notes(&self) -> &[(NoteId, ScoreNote)] {
        &self.notes
    }

    /// Every letter that is printed on it, each once, in the order in which they first come.
    #[must_use]
    pub fn letters(&self) -> Vec<Tonic> {
        let mut letters = Vec::new();
        for (_, note) in &self.notes {
            if let Some(letter) = note.printed.map(|printed| printed.0.tonic())
                && !letters.contains(&letter)
            {
                letters.push(letter);
            }
        }
        letters
    }

    /// What changes on it, by when it does.
    #[must_use]
    pub fn changes(&self) -> &[TimedChange] {
        &self.changes
    }
}
