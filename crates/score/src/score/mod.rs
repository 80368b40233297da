//! A score: parts with their staves, players, voices, bars, exact onsets and lengths. A [`Passage`](crate::Passage) is a
//! window on it ([`Score::window`]), and a passage that a reader has laid is a small score ([`Score::of_passage`]).
//!
//! Times are exact ([`Quarters`]); clef, signature, label (and so the crook), time signature and key may change anywhere.
//! Parts, staves and notes keep their numbers whatever comes or goes around them.

mod by_file;
mod course;
mod look;
mod modes;
mod of_passage;
mod old_bass;
mod parts;
mod quarters;
mod signs;
mod sounding;
mod window;

pub use by_file::NoteByFile;
pub use course::StaffCourse;
pub use look::{Beams, Look, Mark, Marks, NoteValue, Stem, Tremolo, TremoloKind};
pub use old_bass::OldBass;
pub use parts::{
    Bar, NoteId, Part, PartId, PartStaff, PlayedBy, ScoreNote, StaffId, TimeSignature, TimedChange, Tuplet,
};
pub use quarters::{Moment, Quarters};
pub use signs::{BarLine, BarSigns, Direction, GroupSign, Jump, PartGroup, TimedDirection, Told};
pub use sounding::Sounded;
pub use window::{Window, WindowError, player_of_voice};

use crate::bar_number::BarNumber;
use crate::change::ChangeTo;
use crate::staff::MOST_PLAYERS;
use core::fmt;
use crookwise_theory::Key;
use crookwise_theory::order::put_in_order;
use std::sync::Arc;

/// A score.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Score {
    /// Its title, where it has one.
    pub title: Arc<str>,
    /// Who wrote it; empty where that is not said.
    pub composer: Arc<str>,
    /// The key of the movement at its beginning, where known.
    pub movement: Option<Key>,
    /// Parts that are bracketed together.
    pub groups: Vec<PartGroup>,
    keys: Vec<(Moment, Key)>,
    bars: Vec<Bar>,
    parts: Vec<Part>,
    /// Where a reader laid columns, and the bars that begin with them: they are there whatever happens in them, and no
    /// others are.
    laid: Option<Vec<(Moment, Option<BarNumber>)>>,
    /// The number of the next part, staff or note.
    next: u32,
}

/// Why something cannot stand in a score.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ScoreError {
    /// There is no such part, staff, player or note.
    Nowhere,
    /// It would end before it begins, or a bar or a length would be nothing.
    NoLength,
    /// Times so fine or so late cannot be reckoned exactly.
    TooFine,
    /// A staff has 1 to [`MOST_PLAYERS`] players.
    Players,
    /// Clef and signature change for the whole staff.
    NotOfAPlayer,
}

impl fmt::Display for ScoreError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Nowhere => f.write_str("There is no such part, staff or player in this score"),
            Self::NoLength => f.write_str("What stands in a score lasts some time"),
            Self::TooFine => f.write_str("These lengths are too fine to be reckoned exactly"),
            Self::Players => write!(f, "A staff has one to {MOST_PLAYERS} players"),
            Self::NotOfAPlayer => f.write_str("Clef and signature change for the whole staff"),
        }
    }
}

impl core::error::Error for ScoreError {}

impl Score {
    /// Its parts in score order.
    #[must_use]
    pub fn parts(&self) -> &[Part] {
        &self.parts
    }

    /// Its bars from the first on.
    #[must_use]
    pub fn bars(&self) -> &[Bar] {
        &self.bars
    }

    /// Its staves in score order.
    pub fn staves(&self) -> impl Iterator<Item = &PartStaff> {
        self.parts.iter().flat_map(|part| &part.staves)
    }

    /// A part by its number.
    #[must_use]
    pub fn part(&self, id: PartId) -> Option<&Part> {
        self.parts.iter().find(|part| part.id == id)
    }

    /// A staff by its number.
    #[must_use]
    pub fn staff(&self, id: StaffId) -> Option<&PartStaff> {
        self.staves().find(|staff| staff.id == id)
    }

    /// When its last bar ends.
    #[must_use]
    pub fn end(&self) -> Quarters {
        let end = self.bars.last().and_then(|bar| bar.start.plus(bar.length));
        end.unwrap_or(Quarters::ZERO)
    }

    /// The movement's key at a moment.
    #[must_use]
    pub fn movement_at(&self, at: Moment) -> Option<Key> {
        let after = self.keys.partition_point(|(from, _)| *from <= at);
        after.checked_sub(1).and_then(|last| self.keys.get(last)).map(|(_, key)| *key).or(self.movement)
    }

    /// The movement's keys one after the other, each with the time from which it holds.
    pub fn keys(&self) -> impl Iterator<Item = (Quarters, Key)> {
        let first = self.movement.map(|key| (Quarters::ZERO, key));
        first.into_iter().chain(self.keys.iter().map(|(at, key)| (at.time, *key)))
    }

    /// Adds a part at the bottom.
    pub fn add_part(&mut self, name: &str) -> PartId {
        let id = PartId(self.number());
        self.parts.push(Part { id, name: name.into(), staves: Vec::new() });
        id
    }

    /// Takes a part away with all that stands on it; the others keep their numbers.
    ///
    /// # Errors
    /// Where there is none of that number.
    pub fn remove_part(&mut self, part: PartId) -> Result<(), ScoreError> {
        let at = self.parts.iter().position(|other| other.id == part).ok_or(ScoreError::Nowhere)?;
        self.parts.remove(at);
        Ok(())
    }

    /// Adds a staff at the bottom of a part.
    ///
    /// # Errors
    /// Where there is no such part, or a staff cannot have so many players.
    pub fn add_staff(&mut self, part: PartId, label: &str, players: usize) -> Result<StaffId, ScoreError> {
        if !(1..=MOST_PLAYERS).contains(&players) {
            return Err(ScoreError::Players);
        }
        let id = StaffId(self.number());
        let part = self.parts.iter_mut().find(|other| other.id == part).ok_or(ScoreError::Nowhere)?;
        part.staves.push(PartStaff {
            id,
            label: label.into(),
            choice: None,
            settings: crate::Settings::default(),
            crooks: Vec::new(),
            players,
            directions: Vec::new(),
            told: Vec::new(),
            changes: Vec::new(),
            notes: Vec::new(),
        });
        Ok(id)
    }

    /// A staff that can be set and labelled.
    pub fn staff_mut(&mut self, id: StaffId) -> Option<&mut PartStaff> {
        self.parts.iter_mut().flat_map(|part| &mut part.staves).find(|staff| staff.id == id)
    }

    /// Adds a bar at the end.
    ///
    /// # Errors
    /// Where it has no length, or its end cannot be reckoned exactly.
    pub fn add_bar(
        &mut self,
        number: &str,
        length: Quarters,
        time: Option<TimeSignature>,
    ) -> Result<(), ScoreError> {
        if length <= Quarters::ZERO {
            return Err(ScoreError::NoLength);
        }
        let start = self.end();
        start.plus(length).ok_or(ScoreError::TooFine)?;
        self.bars.push(Bar { number: number.into(), start, length, time, signs: BarSigns::default() });
        Ok(())
    }

    /// A bar that signs can be put to, counted from 0.
    pub fn bar_mut(&mut self, bar: usize) -> Option<&mut BarSigns> {
        self.bars.get_mut(bar).map(|bar| &mut bar.signs)
    }

    /// The movement has this key from a time on: at the beginning its first one.
    pub fn set_key(&mut self, from: Quarters, key: Key) {
        if from <= Quarters::ZERO {
            self.movement = Some(key);
        } else {
            self.change_key(Moment::measured(from), key);
        }
    }

    /// Changes the key of the movement from a moment on.
    pub fn change_key(&mut self, at: Moment, key: Key) {
        let place = self.keys.partition_point(|(from, _)| *from < at);
        match self.keys.get_mut(place) {
            Some(there) if there.0 == at => there.1 = key,
            _ => self.keys.insert(place, (at, key)),
        }
    }

    /// Changes clef, signature or label of a staff from a moment on. One of the same kind for the same player at that
    /// moment goes.
    ///
    /// # Errors
    /// Where there is no such staff or player, and for a clef or a signature of a single player.
    pub fn change(&mut self, staff: StaffId, change: TimedChange) -> Result<(), ScoreError> {
        let staff = self.staff_mut(staff).ok_or(ScoreError::Nowhere)?;
        if change.player.is_some_and(|player| player >= staff.players) {
            return Err(ScoreError::Nowhere);
        }
        if change.player.is_some() && !matches!(change.to, ChangeTo::Label(_)) {
            return Err(ScoreError::NotOfAPlayer);
        }
        let from = staff.changes.partition_point(|old| old.at < change.at);
        let to = staff.changes.partition_point(|old| old.at <= change.at);
        let same = |old: &TimedChange| old.player == change.player && old.to.kind() == change.to.kind();
        let at_once = staff.changes.get(from..to).unwrap_or_default();
        let place = match at_once.iter().position(same) {
            Some(old) => {
                staff.changes.remove(from + old);
                to - 1
            }
            None => to,
        };
        staff.changes.insert(place, change);
        Ok(())
    }

    /// Lets nothing change on a staff but this.
    ///
    /// # Errors
    /// As [`Score::change`], at the first that cannot be; those before it stand.
    pub fn change_only(
        &mut self,
        staff: StaffId,
        changes: impl IntoIterator<Item = TimedChange>,
    ) -> Result<(), ScoreError> {
        self.staff_mut(staff).ok_or(ScoreError::Nowhere)?.changes.clear();
        changes.into_iter().try_for_each(|change| self.change(staff, change))
    }

    /// Puts a note or a rest on a staff. Times in order are taken in quickest.
    ///
    /// # Errors
    /// Where there is no such staff or player, or it ends before it begins.
    pub fn add_note(&mut self, staff: StaffId, note: ScoreNote) -> Result<NoteId, ScoreError> {
        if note.end <= note.start {
            return Err(ScoreError::NoLength);
        }
        let id = NoteId(self.number());
        let staff = self.staff_mut(staff).ok_or(ScoreError::Nowhere)?;
        if matches!(note.by, PlayedBy::One(player) if player >= staff.players) {
            return Err(ScoreError::Nowhere);
        }
        let place = match staff.notes.last() {
            Some((_, last)) if last.start > note.start => {
                staff.notes.partition_point(|(_, other)| other.start <= note.start)
            }
            _ => staff.notes.len(),
        };
        staff.notes.insert(place, (id, note));
        Ok(id)
    }

    /// Puts many notes and rests on staves at once, numbered in the order in which they are given: as [`Score::add_note`] for
    /// each, and quick in whatever order of time they come. What has no place is left out: how many.
    pub fn add_notes(&mut self, notes: impl IntoIterator<Item = (StaffId, ScoreNote)>) -> usize {
        let mut left_out = 0;
        let mut touched: Vec<StaffId> = Vec::new();
        for (staff, note) in notes {
            let number = self.number();
            let is_of =
                |by: PlayedBy, players: usize| !matches!(by, PlayedBy::One(player) if player >= players);
            match self.staff_mut(staff) {
                Some(own) if note.end > note.start && is_of(note.by, own.players) => {
                    own.notes.push((NoteId(number), note));
                    if !touched.contains(&staff) {
                        touched.push(staff);
                    }
                }
                _ => left_out += 1,
            }
        }
        for staff in touched {
            if let Some(own) = self.staff_mut(staff) {
                put_in_order(&mut own.notes, |(_, note)| note.start);
            }
        }
        left_out
    }

    /// Says who plays each note and rest of a staff, in their order.
    ///
    /// # Errors
    /// Where there is no such staff or player, or not one for each.
    pub fn seat_notes(&mut self, staff: StaffId, by: &[PlayedBy]) -> Result<(), ScoreError> {
        let staff = self.staff_mut(staff).ok_or(ScoreError::Nowhere)?;
        let is_there = |by: &PlayedBy| !matches!(by, PlayedBy::One(player) if *player >= staff.players);
        if by.len() != staff.notes.len() || !by.iter().all(is_there) {
            return Err(ScoreError::Nowhere);
        }
        for ((_, note), by) in staff.notes.iter_mut().zip(by) {
            note.by = *by;
        }
        Ok(())
    }

    /// Takes a note or a rest away; all others keep their numbers.
    ///
    /// # Errors
    /// Where there is none of that number on that staff.
    pub fn remove_note(&mut self, staff: StaffId, note: NoteId) -> Result<(), ScoreError> {
        let staff = self.staff_mut(staff).ok_or(ScoreError::Nowhere)?;
        let at = staff.notes.iter().position(|(id, _)| *id == note).ok_or(ScoreError::Nowhere)?;
        staff.notes.remove(at);
        Ok(())
    }

    /// A number that nothing in this score has had.
    fn number(&mut self) -> u32 {
        self.next = self.next.wrapping_add(1);
        self.next
    }
}
