//! A passage: staves in score order over columns that line up, with everything that may change in its course.

mod changes;

use crate::bar_number::BarNumber;
use crate::cell::{Cell, Event};
use crate::change;
use crate::length::Length;
use crate::staff::{MOST_PLAYERS, Staff};
use core::fmt;
use crookwise_theory::{Key, Printed};

/// Columns a passage may have.
pub const MOST_COLUMNS: usize = 64;
/// Staves a passage may have.
pub const MOST_STAVES: usize = 16;

/// A column: something sounds in all staves at once.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Column {
    /// How long it lasts, where that is known.
    pub length: Option<Length>,
    /// The movement's key from here on, where it changes.
    pub movement: Option<Key>,
    /// The number of the bar that begins here, where one does.
    pub bar: Option<BarNumber>,
}

/// A passage of music on a page.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Passage {
    /// The key of the movement at its beginning, where known.
    pub movement: Option<Key>,
    columns: Vec<Column>,
    staves: Vec<Staff>,
}

/// Why a passage cannot be changed that way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PassageError {
    /// It would have more columns than [`MOST_COLUMNS`].
    TooManyColumns,
    /// It would have more staves than [`MOST_STAVES`].
    TooManyStaves,
    /// A staff has 1 to [`MOST_PLAYERS`] players.
    Players,
    /// There is no such staff, column or player.
    Nowhere,
    /// There is nothing before to hold.
    NothingToHold,
    /// Clef and signature are of the staff, not of one player.
    NotOfAPlayer,
}

impl fmt::Display for PassageError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooManyColumns => write!(f, "A passage has at most {MOST_COLUMNS} columns"),
            Self::TooManyStaves => write!(f, "A page has at most {MOST_STAVES} staves"),
            Self::Players => write!(f, "A staff has one to {MOST_PLAYERS} players"),
            Self::Nowhere => f.write_str("There is nothing at that place"),
            Self::NothingToHold => f.write_str("There is no note before this one to hold"),
            Self::NotOfAPlayer => f.write_str("Clef and signature change for the whole staff"),
        }
    }
}

impl core::error::Error for PassageError {}

impl Passage {
    /// A passage of one empty staff.
    #[must_use]
    pub fn of_staff(label: &str) -> Self {
        Self { staves: vec![Staff::new(label, 0)], ..Self::default() }
    }

    /// Its columns.
    #[must_use]
    pub fn columns(&self) -> &[Column] {
        &self.columns
    }

    /// Its staves in score order.
    #[must_use]
    pub fn staves(&self) -> &[Staff] {
        &self.staves
    }

    /// A staff that can be labelled and set.
    pub fn staff_mut(&mut self, staff: usize) -> Option<&mut Staff> {
        self.staves.get_mut(staff)
    }

    /// Adds an empty staff at the bottom.
    ///
    /// # Errors
    /// Where there are as many as may be.
    pub fn add_staff(&mut self, label: &str) -> Result<usize, PassageError> {
        if self.staves.len() >= MOST_STAVES {
            return Err(PassageError::TooManyStaves);
        }
        self.staves.push(Staff::new(label, self.columns.len()));
        Ok(self.staves.len() - 1)
    }

    /// Opens an empty staff under another, or at the top for 0.
    ///
    /// # Errors
    /// Where there are as many as may be, or the place does not exist.
    pub fn insert_staff(&mut self, at: usize, label: &str) -> Result<(), PassageError> {
        self.put_staff(at, Staff::new(label, self.columns.len()))
    }

    /// Puts the same staff under a staff once more, its notes included.
    ///
    /// # Errors
    /// Where there are as many as may be, or there is no such staff.
    pub fn duplicate_staff(&mut self, staff: usize) -> Result<(), PassageError> {
        let copy = self.staves.get(staff).ok_or(PassageError::Nowhere)?.clone();
        self.put_staff(staff + 1, copy)
    }

    fn put_staff(&mut self, at: usize, staff: Staff) -> Result<(), PassageError> {
        if self.staves.len() >= MOST_STAVES {
            return Err(PassageError::TooManyStaves);
        }
        if at > self.staves.len() {
            return Err(PassageError::Nowhere);
        }
        self.staves.insert(at, staff);
        Ok(())
    }

    /// Takes a staff away.
    ///
    /// # Errors
    /// Where it does not exist or is the only one.
    pub fn remove_staff(&mut self, staff: usize) -> Result<(), PassageError> {
        if staff >= self.staves.len() || self.staves.len() < 2 {
            return Err(PassageError::Nowhere);
        }
        self.staves.remove(staff);
        Ok(())
    }

    /// Moves a staff to another place in the score.
    ///
    /// # Errors
    /// Where either does not exist.
    pub fn move_staff(&mut self, from: usize, to: usize) -> Result<(), PassageError> {
        if from >= self.staves.len() || to >= self.staves.len() {
            return Err(PassageError::Nowhere);
        }
        let staff = self.staves.remove(from);
        self.staves.insert(to, staff);
        Ok(())
    }

    /// Gives a staff 1 to 4 players; what the others played is kept where they stay.
    ///
    /// # Errors
    /// For no staff or no such number of players.
    pub fn set_players(&mut self, at: usize, players: usize) -> Result<(), PassageError> {
        if !(1..=MOST_PLAYERS).contains(&players) {
            return Err(PassageError::Players);
        }
        let staff = self.staves.get_mut(at).ok_or(PassageError::Nowhere)?;
        staff.players = players;
        staff.trim_crooks();
        change::for_players(&mut staff.changes, players);
        for cell in &mut staff.cells {
            *cell = cell.for_players(players);
        }
        self.drop_orphaned_holds(at);
        Ok(())
    }

    /// What a player does in a column.
    #[must_use]
    pub fn event(&self, staff: usize, column: usize, player: usize) -> Option<Event> {
        Some(self.staves.get(staff)?.cells.get(column)?.of(player))
    }

    /// Sets what a player does in a column; the column just after the last is made if need be.
    ///
    /// # Errors
    /// Where the place does not exist, there are too many columns, or nothing stands before to hold.
    pub fn set(
        &mut self,
        staff: usize,
        column: usize,
        player: usize,
        event: Event,
    ) -> Result<(), PassageError> {
        let players = self.staves.get(staff).ok_or(PassageError::Nowhere)?.players;
        if player >= players || column > self.columns.len() {
            return Err(PassageError::Nowhere);
        }
        if event == Event::Held && !self.can_hold(staff, column, player) {
            return Err(PassageError::NothingToHold);
        }
        if column == self.columns.len() {
            self.insert_column(column)?;
        }
        if let Some(cell) = self.staves.get_mut(staff).and_then(|staff| staff.cells.get_mut(column)) {
            cell.set(player, players, event);
        }
        self.drop_orphaned_holds(staff);
        Ok(())
    }

    /// One note for all players of a staff ("a 2").
    ///
    /// # Errors
    /// Where the place does not exist or there are too many columns.
    pub fn set_together(&mut self, staff: usize, column: usize, note: Printed) -> Result<(), PassageError> {
        if staff >= self.staves.len() || column > self.columns.len() {
            return Err(PassageError::Nowhere);
        }
        if column == self.columns.len() {
            self.insert_column(column)?;
        }
        if let Some(cell) = self.staves.get_mut(staff).and_then(|staff| staff.cells.get_mut(column)) {
            *cell = Cell::Together(Event::Note(note));
        }
        Ok(())
    }

    /// Opens a column before another, or at the end. What was written keeps its reading: changes stay with the column
    /// they stood before, and who holds a note over the place holds it through the new column. All others rest there.
    ///
    /// # Errors
    /// Where there are as many as may be, or the place does not exist.
    pub fn insert_column(&mut self, column: usize) -> Result<(), PassageError> {
        if self.columns.len() >= MOST_COLUMNS {
            return Err(PassageError::TooManyColumns);
        }
        if column > self.columns.len() {
            return Err(PassageError::Nowhere);
        }
        self.columns.insert(column, Column::default());
        for staff in &mut self.staves {
            let cell = staff.cells.get(column).map_or(Cell::REST, Cell::held_through);
            staff.cells.insert(column, cell);
            change::open_column(&mut staff.changes, column);
        }
        Ok(())
    }

    /// Takes a column out of all staves.
    ///
    /// # Errors
    /// Where it does not exist.
    pub fn remove_column(&mut self, column: usize) -> Result<(), PassageError> {
        if column >= self.columns.len() {
            return Err(PassageError::Nowhere);
        }
        let removed = self.columns.remove(column);
        // A key that began here holds from the next column on.
        if let (Some(key), Some(next)) = (removed.movement, self.columns.get_mut(column)) {
            next.movement.get_or_insert(key);
        }
        // So does a bar, unless it ended here.
        if let (Some(bar), Some(next)) = (removed.bar, self.columns.get_mut(column)) {
            next.bar.get_or_insert(bar);
        }
        for staff in &mut self.staves {
            staff.cells.remove(column);
            change::close_column(&mut staff.changes, column, self.columns.len());
        }
        for staff in 0..self.staves.len() {
            self.drop_orphaned_holds(staff);
        }
        Ok(())
    }

    /// The note a player sounds in a column and the column in which it began; `None` for a rest.
    #[must_use]
    pub fn sounding_note(&self, staff: usize, column: usize, player: usize) -> Option<(usize, Printed)> {
        let cells = &self.staves.get(staff)?.cells;
        cells.get(column)?;
        let onset =
            (0..=column).rev().find(|&at| cells.get(at).map(|cell| cell.of(player)) != Some(Event::Held))?;
        match cells.get(onset)?.of(player) {
            Event::Note(printed) => Some((onset, printed)),
            Event::Held | Event::Rest => None,
        }
    }

    /// Whether a player may hold in a column: something sounds in the one before.
    #[must_use]
    pub fn can_hold(&self, staff: usize, column: usize, player: usize) -> bool {
        column.checked_sub(1).is_some_and(|before| self.sounding_note(staff, before, player).is_some())
    }

    /// A held note with nothing before it would mean nothing: it becomes a rest.
    fn drop_orphaned_holds(&mut self, staff: usize) {
        let Some(staff) = self.staves.get_mut(staff) else { return };
        for player in 0..staff.players {
            let mut sounds = false;
            for cell in &mut staff.cells {
                match cell.of(player) {
                    Event::Note(_) => sounds = true,
                    Event::Rest => sounds = false,
                    Event::Held if sounds => {}
                    Event::Held => cell.set(player, staff.players, Event::Rest),
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn note(name: &str) -> Event {
        Event::Note(Printed(name.parse().unwrap()))
    }

    fn passage(events: &[Event]) -> Passage {
        let mut passage = Passage::of_staff("Corni in Es");
        for (column, &event) in events.iter().enumerate() {
            passage.set(0, column, 0, event).unwrap();
        }
        passage
    }

    #[test]
    fn held_notes_sound_on() {
        let passage = passage(&[note("C4"), Event::Held, Event::Held, Event::Rest]);
        assert_eq!(passage.sounding_note(0, 2, 0), Some((0, Printed("C4".parse().unwrap()))));
        assert_eq!(passage.sounding_note(0, 3, 0), None);
        assert_eq!(passage.sounding_note(0, 9, 0), None);
    }

    #[test]
    fn a_hold_needs_a_note() {
        let mut passage = passage(&[note("C4"), Event::Rest]);
        assert_eq!(passage.set(0, 2, 0, Event::Held), Err(PassageError::NothingToHold));
        assert_eq!(passage.set(0, 0, 0, Event::Held), Err(PassageError::NothingToHold));
        assert_eq!(passage.columns().len(), 2);
    }

    #[test]
    fn removing_a_note_frees_what_held_it() {
        let mut passage = passage(&[note("C4"), note("E4"), Event::Held]);
        passage.remove_column(1).unwrap();
        assert_eq!(passage.sounding_note(0, 1, 0), Some((0, Printed("C4".parse().unwrap()))));
        passage.remove_column(0).unwrap();
        assert_eq!(passage.event(0, 0, 0), Some(Event::Rest));
    }

    #[test]
    fn columns_and_players_have_bounds() {
        let mut passage = passage(&[]);
        for column in 0..MOST_COLUMNS {
            passage.set(0, column, 0, note("C4")).unwrap();
        }
        assert_eq!(passage.set(0, MOST_COLUMNS, 0, note("C4")), Err(PassageError::TooManyColumns));
        assert_eq!(passage.set(0, 0, 1, note("C4")), Err(PassageError::Nowhere));
        assert_eq!(passage.set_players(0, 5), Err(PassageError::Players));
        passage.set_players(0, 2).unwrap();
        passage.set(0, 0, 1, note("E4")).unwrap();
        assert_eq!(passage.event(0, 0, 0), Some(note("C4")));
        assert_eq!(passage.event(0, 0, 1), Some(note("E4")));
        passage.set_together(0, 0, Printed("G4".parse().unwrap())).unwrap();
        assert_eq!(passage.event(0, 0, 1), Some(note("G4")));
    }

    #[test]
    fn a_key_holds_until_the_next() {
        let mut passage = passage(&[note("C4"), note("D4"), note("E4")]);
        passage.movement = Some("C major".parse().unwrap());
        let minor: Key = "C minor".parse().unwrap();
        passage.set_movement_at(1, Some(minor)).unwrap();
        assert_eq!(passage.movement_at(0), passage.movement);
        assert_eq!(passage.movement_at(2), Some(minor));
        passage.remove_column(1).unwrap();
        assert_eq!(passage.movement_at(1), Some(minor));
    }

    #[test]
    fn a_bar_stays_with_the_column_it_stood_before() {
        let mut passage = passage(&[note("C4"), note("D4"), note("E4"), note("F4")]);
        let number = |text| BarNumber::new(text);
        passage.set_bar(0, number("66")).unwrap();
        passage.set_bar(2, number("67")).unwrap();
        assert_eq!(passage.set_bar(4, number("68")), Err(PassageError::Nowhere));
        let bars = |passage: &Passage| passage.columns().iter().map(|column| column.bar).collect::<Vec<_>>();
        passage.insert_column(2).unwrap();
        assert_eq!(bars(&passage), [number("66"), None, None, number("67"), None]);
        assert_eq!(
            [0, 2, 3, 4, 9].map(|at| passage.bar_at(at).map(|bar| bar.to_string())),
            ["66", "66", "67", "67", "67"].map(|bar| Some(bar.to_owned()))
        );
        // The bar begins with what is left of it, and goes with its last column.
        passage.remove_column(3).unwrap();
        assert_eq!(bars(&passage), [number("66"), None, None, number("67")]);
        for _ in 0..3 {
            passage.remove_column(0).unwrap();
        }
        assert_eq!(bars(&passage), [number("67")]);
        passage.remove_column(0).unwrap();
        assert_eq!(passage.bar_at(0), None);
    }

    #[test]
    fn staves_come_go_and_change_places() {
        let mut passage = passage(&[note("C4"), note("E4")]);
        passage.insert_staff(0, "Flauto").unwrap();
        passage.duplicate_staff(1).unwrap();
        let labels = |passage: &Passage| -> Vec<String> {
            passage.staves().iter().map(|staff| staff.label.clone()).collect()
        };
        assert_eq!(labels(&passage), ["Flauto", "Corni in Es", "Corni in Es"]);
        assert_eq!(passage.event(2, 1, 0), Some(note("E4")));
        assert_eq!(passage.event(0, 1, 0), Some(Event::Rest));
        passage.move_staff(0, 2).unwrap();
        assert_eq!(labels(&passage), ["Corni in Es", "Corni in Es", "Flauto"]);
        passage.remove_staff(0).unwrap();
        passage.remove_staff(0).unwrap();
        assert_eq!(passage.remove_staff(0), Err(PassageError::Nowhere));
        for _ in 1..MOST_STAVES {
            passage.duplicate_staff(0).unwrap();
        }
        assert_eq!(passage.duplicate_staff(0), Err(PassageError::TooManyStaves));
        assert_eq!(passage.insert_staff(0, "x"), Err(PassageError::TooManyStaves));
    }
}
