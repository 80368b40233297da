//! What changes in the course of a passage: key of the movement, lengths, clefs, signatures, crooks. Every action leaves
//! the passage well formed: changes in order, one of a kind for each player before a column that is there.

use super::{Passage, PassageError};
use crate::bar_number::BarNumber;
use crate::change::{self, Change, ChangeKind};
use crate::length::Length;
use crate::staff::{Choice, Staff};
use crookwise_theory::Key;

impl Passage {
    /// The movement's key in a column.
    #[must_use]
    pub fn movement_at(&self, column: usize) -> Option<Key> {
        let changed =
            self.columns.iter().take(column.saturating_add(1)).rev().find_map(|column| column.movement);
        changed.or(self.movement)
    }

    /// Changes the key of the movement from a column on; `None` takes such a change away.
    ///
    /// # Errors
    /// Where there is no such column.
    pub fn set_movement_at(&mut self, column: usize, key: Option<Key>) -> Result<(), PassageError> {
        self.columns.get_mut(column).ok_or(PassageError::Nowhere)?.movement = key;
        Ok(())
    }

    /// The number of the bar in which a column stands; `None` before the first that is known.
    #[must_use]
    pub fn bar_at(&self, column: usize) -> Option<BarNumber> {
        self.columns.iter().take(column.saturating_add(1)).rev().find_map(|column| column.bar)
    }

    /// Begins a bar before a column; `None` takes its line away.
    ///
    /// # Errors
    /// Where there is no such column.
    pub fn set_bar(&mut self, column: usize, bar: Option<BarNumber>) -> Result<(), PassageError> {
        self.columns.get_mut(column).ok_or(PassageError::Nowhere)?.bar = bar;
        Ok(())
    }

    /// Gives a column a length, or takes it away.
    ///
    /// # Errors
    /// Where there is no such column.
    pub fn set_length(&mut self, column: usize, length: Option<Length>) -> Result<(), PassageError> {
        self.columns.get_mut(column).ok_or(PassageError::Nowhere)?.length = length;
        Ok(())
    }

    /// Changes clef, signature or crook of a staff before a column. A change of the same kind for the same player goes,
    /// and a change for all takes the place of those for single players. The only player of a staff is all of them.
    ///
    /// # Errors
    /// Where there is no such staff, column or player, and for a clef or a signature of a single player.
    pub fn set_change(&mut self, staff: usize, change: Change) -> Result<(), PassageError> {
        let columns = self.columns.len();
        let staff = self.staves.get_mut(staff).ok_or(PassageError::Nowhere)?;
        if change.column >= columns || change.player.is_some_and(|player| player >= staff.players) {
            return Err(PassageError::Nowhere);
        }
        let player = change.player.filter(|_| staff.players > 1);
        if player.is_some() && change.to.kind() != ChangeKind::Label {
            return Err(PassageError::NotOfAPlayer);
        }
        change::put(&mut staff.changes, Change { player, ..change });
        Ok(())
    }

    /// Takes a change of a staff away.
    ///
    /// # Errors
    /// Where there is none of that kind for that player before that column.
    pub fn remove_change(
        &mut self,
        staff: usize,
        column: usize,
        player: Option<usize>,
        kind: ChangeKind,
    ) -> Result<(), PassageError> {
        let staff = self.staves.get_mut(staff).ok_or(PassageError::Nowhere)?;
        let player = player.filter(|_| staff.players > 1);
        let there =
            |change: &Change| change.column == column && change.player == player && change.to.kind() == kind;
        let at = staff.changes.iter().position(there).ok_or(PassageError::Nowhere)?;
        staff.changes.remove(at);
        Ok(())
    }

    /// Takes all changes of a staff away.
    ///
    /// # Errors
    /// Where there is no such staff.
    pub fn clear_changes(&mut self, staff: usize) -> Result<(), PassageError> {
        self.staves.get_mut(staff).ok_or(PassageError::Nowhere)?.changes.clear();
        Ok(())
    }

    /// Gives a player of a staff a crook of his own from the beginning; `None` follows the label.
    ///
    /// # Errors
    /// Where there is no such staff or player.
    pub fn set_crook(
        &mut self,
        staff: usize,
        player: usize,
        crook: Option<Choice>,
    ) -> Result<(), PassageError> {
        let staff = self.staves.get_mut(staff).ok_or(PassageError::Nowhere)?;
        if player >= staff.players {
            return Err(PassageError::Nowhere);
        }
        if staff.crooks.len() <= player {
            staff.crooks.resize(player + 1, None);
        }
        if let Some(slot) = staff.crooks.get_mut(player) {
            *slot = crook;
        }
        staff.trim_crooks();
        Ok(())
    }
}

impl Staff {
    /// Only players who differ from the label are listed.
    pub(crate) fn trim_crooks(&mut self) {
        self.crooks.truncate(self.players);
        while self.crooks.last().is_some_and(Option::is_none) {
            self.crooks.pop();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cell::Event;
    use crate::change::ChangeTo;
    use crookwise_theory::{Clef, Printed};

    /// Two players on one staff; `notes` a letter a column, `_` held.
    fn pair(notes: &str) -> Passage {
        let mut passage = Passage::of_staff("Corni in Es");
        passage.set_players(0, 2).unwrap();
        for (column, name) in notes.split_whitespace().enumerate() {
            let event = match name {
                "_" => Event::Held,
                "-" => Event::Rest,
                name => Event::Note(Printed(name.parse().unwrap())),
            };
            passage.set(0, column, 0, event).unwrap();
        }
        passage
    }

    fn label(column: usize, player: Option<usize>, text: &str) -> Change {
        Change { column, player, to: ChangeTo::Label(text.into()) }
    }

    fn clef(column: usize, player: Option<usize>) -> Change {
        Change { column, player, to: ChangeTo::Clef(Clef::BASS) }
    }

    /// Column, player and kind or label of every change.
    fn changes(passage: &Passage) -> String {
        let word = |change: &Change| {
            let player = change.player.map_or("all".into(), |player| player.to_string());
            match &change.to {
                ChangeTo::Label(text) => format!("{}:{player}:{text}", change.column),
                other => format!("{}:{player}:{:?}", change.column, other.kind()),
            }
        };
        passage.staves()[0].changes().iter().map(word).collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn changes_stand_in_order_and_one_of_a_kind() {
        let mut passage = pair("C4 D4 E4");
        for change in
            [label(2, Some(1), "in G"), clef(2, None), label(1, None, "in F"), label(2, None, "in D")]
        {
            passage.set_change(0, change).unwrap();
        }
        // What is for all takes the place of what was for one.
        assert_eq!(changes(&passage), "1:all:in F 2:all:in D 2:all:Clef");
        passage.set_change(0, label(2, Some(1), "in G")).unwrap();
        passage.set_change(0, label(2, Some(1), "in A")).unwrap();
        assert_eq!(changes(&passage), "1:all:in F 2:all:in D 2:1:in A 2:all:Clef");
        passage.remove_change(0, 2, None, ChangeKind::Label).unwrap();
        assert_eq!(passage.remove_change(0, 2, None, ChangeKind::Label), Err(PassageError::Nowhere));
        assert_eq!(changes(&passage), "1:all:in F 2:1:in A 2:all:Clef");
    }

    #[test]
    fn no_change_stands_where_nothing_is() {
        let mut passage = pair("C4 D4");
        assert_eq!(passage.set_change(0, label(2, None, "in F")), Err(PassageError::Nowhere));
        assert_eq!(passage.set_change(0, label(1, Some(2), "in F")), Err(PassageError::Nowhere));
        assert_eq!(passage.set_change(1, label(1, None, "in F")), Err(PassageError::Nowhere));
        assert_eq!(passage.set_change(0, clef(1, Some(0))), Err(PassageError::NotOfAPlayer));
        assert_eq!(passage.set_movement_at(2, None), Err(PassageError::Nowhere));
        assert_eq!(passage.set_length(2, None), Err(PassageError::Nowhere));
        assert_eq!(passage.set_crook(0, 2, None), Err(PassageError::Nowhere));
        assert_eq!(changes(&passage), "");
    }

    #[test]
    fn the_only_player_is_all_players() {
        let mut passage = pair("C4 D4 E4");
        passage.set_change(0, label(1, Some(0), "in F")).unwrap();
        passage.set_change(0, label(1, Some(1), "in G")).unwrap();
        passage.set_change(0, label(2, None, "in D")).unwrap();
        passage.set_players(0, 1).unwrap();
        assert_eq!(changes(&passage), "1:all:in F 2:all:in D");
        passage.set_change(0, label(1, Some(0), "in A")).unwrap();
        passage.set_change(0, clef(1, Some(0))).unwrap();
        assert_eq!(changes(&passage), "1:all:in A 1:all:Clef 2:all:in D");
        passage.set_players(0, 2).unwrap();
        assert_eq!(changes(&passage), "1:all:in A 1:all:Clef 2:all:in D");
    }

    #[test]
    fn a_change_stays_with_the_column_it_stood_before() {
        let mut passage = pair("C4 D4 E4");
        passage.set_change(0, label(1, None, "in F")).unwrap();
        passage.set_movement_at(1, Some("F major".parse().unwrap())).unwrap();
        // Before it, exactly at it, behind it.
        passage.insert_column(0).unwrap();
        assert_eq!(changes(&passage), "2:all:in F");
        passage.insert_column(2).unwrap();
        assert_eq!(changes(&passage), "3:all:in F");
        passage.insert_column(4).unwrap();
        assert_eq!(changes(&passage), "3:all:in F");
        let keys: Vec<bool> = passage.columns().iter().map(|column| column.movement.is_some()).collect();
        assert_eq!(keys, [false, false, false, true, false, false]);
    }

    #[test]
    fn removing_a_column_hands_its_changes_on() {
        let mut passage = pair("C4 D4 E4 F4");
        passage.set_change(0, label(1, None, "in F")).unwrap();
        passage.set_change(0, label(1, Some(1), "in G")).unwrap();
        passage.set_change(0, label(2, Some(1), "in A")).unwrap();
        passage.remove_column(1).unwrap();
        assert_eq!(changes(&passage), "1:all:in F 1:1:in A");
        // What follows changes for all: nothing is left of it.
        passage.set_change(0, label(2, None, "in D")).unwrap();
        passage.remove_column(1).unwrap();
        assert_eq!(changes(&passage), "1:all:in D");
        passage.remove_column(1).unwrap();
        assert_eq!(changes(&passage), "");
    }

    #[test]
    fn only_crooks_that_differ_are_listed() {
        let mut passage = pair("C4");
        let decoded = crookwise_theory::label::decode("Corno in G", Default::default());
        let crook = Some(Choice::of(&decoded.staves[0]));
        passage.set_crook(0, 1, crook).unwrap();
        assert_eq!(passage.staves()[0].crooks(), [None, crook]);
        assert_eq!(passage.staves()[0].crook(1), crook);
        passage.set_players(0, 1).unwrap();
        assert_eq!(passage.staves()[0].crooks(), []);
        passage.set_crook(0, 0, crook).unwrap();
        passage.set_crook(0, 0, None).unwrap();
        assert_eq!(passage.staves()[0].crooks(), []);
    }

    #[test]
    fn an_inserted_column_is_held_through() {
        let mut passage = pair("C4 _ E4");
        passage.insert_column(1).unwrap();
        assert_eq!(passage.event(0, 1, 0), Some(Event::Held));
        assert_eq!(passage.event(0, 2, 0), Some(Event::Held));
        assert_eq!(passage.event(0, 1, 1), Some(Event::Rest));
        assert_eq!(passage.sounding_note(0, 2, 0).map(|(onset, _)| onset), Some(0));
    }
}
