//! Who plays a note of a staff where the score says no more than its voice.

use super::super::parts::{PartStaff, PlayedBy, ScoreNote};
use super::super::quarters::Moment;
use super::graces::{belongs, end};
use crate::staff::MOST_PLAYERS;
use core::cmp::Reverse;
use core::ops::Range;
use crookwise_theory::order::put_in_order;

/// A note and who plays it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Seated<'a> {
    /// The note.
    pub note: &'a ScoreNote,
    /// When it ends, its grace notes reckoned in.
    pub end: Moment,
    /// The player, from 0; `None` for all together.
    pub player: Option<usize>,
}

/// Gives every note that sounds in these columns a player, and says for how many there was none. A voice has the player
/// of its number where he is free; notes on one stem go from the top to the players that are free; a tied note stays with
/// who began it. Common practice of reading two parts on one staff.
pub(super) fn seat<'a>(
    staff: &'a PartStaff,
    columns: &[Moment],
    bars: &Range<usize>,
) -> (Vec<Seated<'a>>, usize) {
    let mut seated: Vec<Seated<'a>> = Vec::new();
    let mut left_out = 0;
    let printed =
        staff.notes().iter().map(|(_, note)| note).filter(|note| super::is_seen(note) && belongs(note, bars));
    let (Some(first), Some(last)) = (columns.first(), columns.last()) else { return (seated, left_out) };
    let near = |note: &&ScoreNote| note.start <= *last && first.time <= note.end.time;
    let mut notes: Vec<(&ScoreNote, Moment)> = printed
        .filter(near)
        .map(|note| (note, end(staff, note, bars)))
        .filter(|(note, end)| columns.iter().any(|at| note.start <= *at && at < end))
        .collect();
    put_in_order(&mut notes, |(note, _)| {
        let height = note.printed.map_or(0, |printed| printed.0.semitones());
        (note.start, note.by == PlayedBy::Voice, !note.tied, note.voice, Reverse(height))
    });
    for (note, end) in notes {
        let player = match note.by {
            PlayedBy::One(player) => Some(Some(player)),
            PlayedBy::All => Some(None),
            PlayedBy::Voice => free(staff, &seated, note).map(Some),
        };
        match player {
            Some(player) => seated.push(Seated { note, end, player }),
            None => left_out += 1,
        }
    }
    (seated, left_out)
}

/// The player who takes a note of whom only the voice is known.
fn free(staff: &PartStaff, seated: &[Seated<'_>], note: &ScoreNote) -> Option<usize> {
    let last =
        |player: usize| seated.iter().rev().find(|seated| seated.player.is_none_or(|other| other == player));
    let is_free = |player: usize| last(player).is_none_or(|last| last.end <= note.start);
    let began = |player: usize| {
        last(player).is_some_and(|last| last.end == note.start && last.note.printed == note.printed)
    };
    player_of_voice(note, (staff.players, MOST_PLAYERS), is_free, began)
}

/// The player of a note of whom only the voice is known, from 0: who began a tied note, the player of the voice's number, or the
/// first who is free. The staff has so many players, and there is room for so many. Common practice of reading two parts on one
/// staff.
#[must_use]
pub fn player_of_voice(
    note: &ScoreNote,
    (own, most): (usize, usize),
    is_free: impl Fn(usize) -> bool,
    began: impl Fn(usize) -> bool,
) -> Option<usize> {
    let free = || (0..most).find(|player| is_free(*player));
    let tied = || (0..most).find(|player| is_free(*player) && began(*player));
    let of_voice = usize::from(note.voice).checked_sub(1).filter(|player| *player < own && is_free(*player));
    note.tied.then(tied).flatten().or(of_voice).or_else(free)
}
