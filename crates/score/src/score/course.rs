//! What a staff of a score means at any moment: its labels decoded, its changes counted, for each of its players.

use super::{Moment, PartStaff, PlayedBy, Score, ScoreNote};
use crate::change::Change;
use crate::place::Place;
use crate::resolve::{Course, Decoder, ResolvedStaff, in_its_order};
use crate::staff::Staff;
use crookwise_theory::order::put_in_order;

/// A staff in its course through a score.
#[derive(Clone, Debug)]
pub struct StaffCourse {
    /// The moments at which something changes; the first is the beginning.
    turns: Vec<Moment>,
    resolved: ResolvedStaff,
}

impl StaffCourse {
    /// A staff of a score, its labels read by `decoder`.
    #[must_use]
    pub fn of(score: &Score, staff: &PartStaff, decoder: &mut Decoder<'_>) -> Self {
        let beginning = Moment::without_length(super::Quarters::ZERO, 0);
        let changes = staff.changes().iter().map(|change| change.at);
        let mut turns: Vec<Moment> =
            [beginning].into_iter().chain(changes).chain(score.keys.iter().map(|(at, _)| *at)).collect();
        put_in_order(&mut turns, |turn| *turn);
        turns.dedup();
        let column = |at: Moment| turns.partition_point(|turn| *turn < at);
        let mut own = Staff::new(&staff.label, 0);
        own.choice = staff.choice;
        own.settings = staff.settings;
        own.crooks.clone_from(&staff.crooks);
        own.players = staff.players;
        for change in staff.changes() {
            let to = change.to.clone();
            crate::change::put(
                &mut own.changes,
                Change { column: column(change.at), player: change.player, to },
            );
        }
        let keys: Vec<_> = score.keys.iter().map(|(at, key)| (column(*at), *key)).collect();
        let course = Course {
            staff: &own,
            letters: in_its_order(staff.letters()),
            movement: score.movement,
            keys: &keys,
        };
        let resolved = ResolvedStaff::in_course(&course, decoder);
        Self { turns, resolved }
    }

    /// What holds for a player at a moment; `None` where the label names no staff.
    #[must_use]
    pub fn place_at(&self, at: Moment, player: usize) -> Option<&Place> {
        let after = self.turns.partition_point(|turn| *turn <= at);
        self.resolved.place_at(after.saturating_sub(1), player)
    }

    /// The same for who plays a note. Where the score says no more than its voice, that is the player of its number; the
    /// places of a staff differ between its players only where their crooks do.
    #[must_use]
    pub fn place_of(&self, note: &ScoreNote) -> Option<&Place> {
        self.place_at(note.start, player_of(note))
    }

    /// Whether the changes of label at a moment are understood; one that is not changes nothing.
    #[must_use]
    pub fn is_understood_at(&self, at: Moment) -> bool {
        let turn = self.turns.partition_point(|turn| *turn < at);
        let is_odd = self.resolved.misunderstood().iter().any(|(column, _)| *column == turn);
        self.resolved.staff(0).is_some() && !is_odd
    }
}

/// The player of a note, from 0, as far as the score says.
#[must_use]
fn player_of(note: &ScoreNote) -> usize {
    match note.by {
        PlayedBy::One(player) => player,
        PlayedBy::All => 0,
        PlayedBy::Voice => usize::from(note.voice.max(1)) - 1,
    }
}
