//! Where a plan stands before a note: what still binds it.

use crate::part::{Choice, Part};
use crate::request::MOST_PLAYERS;

/// Long enough ago.
const LONG_AGO: i64 = i64::MIN;

/// What of the notes played so far still binds those to come. The order of fields is that of sorting: states that differ
/// but in the crooks last played on stand beside each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct State {
    /// For each team the crook that binds it, counted from 1; 0 where it may take any.
    bound: [u8; MOST_PLAYERS],
    /// For each team the end of the last note that any of it played, while it binds.
    last: [i64; MOST_PLAYERS],
    /// For each seat the end of the note that he still plays.
    busy: [i64; MOST_PLAYERS],
    /// For each seat the crook that he played on last, counted from 1; 0 before his first note.
    pub own: [u8; MOST_PLAYERS],
}

impl State {
    /// Before the first note.
    pub const START: Self = Self {
        bound: [0; MOST_PLAYERS],
        last: [LONG_AGO; MOST_PLAYERS],
        busy: [LONG_AGO; MOST_PLAYERS],
        own: [0; MOST_PLAYERS],
    };

    /// At a moment: what does not bind any more is forgotten.
    pub fn at(mut self, now: i64, part: &Part) -> Self {
        for team in 0..part.teams.len() {
            if self.last[team] != LONG_AGO && now.saturating_sub(self.last[team]) >= part.change_time {
                self.last[team] = LONG_AGO;
                self.bound[team] = 0;
            }
        }
        for busy in self.busy.iter_mut().filter(|busy| **busy <= now) {
            *busy = LONG_AGO;
        }
        self
    }

    /// The crook that binds a team; `None` where it may take any.
    pub fn bound(&self, team: usize) -> Option<usize> {
        usize::from(self.bound[team]).checked_sub(1)
    }

    /// The end of the last note that a team played, while it binds.
    pub fn last(&self, team: usize) -> i64 {
        self.last[team]
    }

    /// Whether a seat plays no note now.
    pub fn is_free(&self, seat: usize) -> bool {
        self.busy[seat] == LONG_AGO
    }

    /// Once a note that ends then is played.
    pub fn played(mut self, team: usize, choice: Choice, to: i64) -> Self {
        let seat = usize::from(choice.seat);
        self.bound[team] = choice.crook + 1;
        self.last[team] = self.last[team].max(to);
        self.busy[seat] = to;
        self.own[seat] = choice.crook + 1;
        self
    }

    /// Whether two states differ at most in the crooks last played on.
    pub fn is_beside(&self, other: &Self) -> bool {
        (self.bound, self.last, self.busy) == (other.bound, other.last, other.busy)
    }

    /// How many changes more this one may have to make than another beside it.
    pub fn changes_more(&self, other: &Self) -> usize {
        self.own.iter().zip(&other.own).filter(|(mine, theirs)| **mine != 0 && mine != theirs).count()
    }

    /// Whether a seat has the same behind it as another of the same team.
    fn seat_is_like(&self, one: usize, other: usize) -> bool {
        (self.busy[one], self.own[one]) == (self.busy[other], self.own[other])
    }

    /// Whether a seat may be left aside, since one before it is in no way different: what it could do, that one can.
    pub fn is_spare(&self, part: &Part, (team, seat): (usize, usize)) -> bool {
        let first = part.first_seat(team);
        let in_team = (0..seat).any(|before| {
            part.teams[team].are_alike(before, seat) && self.seat_is_like(first + before, first + seat)
        });
        in_team || (0..team).any(|before| self.team_is_like(part, before, team))
    }

    fn team_is_like(&self, part: &Part, one: usize, other: usize) -> bool {
        let (first, second) = (part.first_seat(one), part.first_seat(other));
        part.teams[one].is_like(&part.teams[other])
            && (self.bound[one], self.last[one]) == (self.bound[other], self.last[other])
            && (0..part.teams[one].players.len()).all(|seat| self.seat_is_like(first + seat, second + seat))
    }
}
