//! A request, taken apart into what can be planned apart: players who share a crook are a team, and teams that may take
//! notes from each other stand in one part.

use crate::request::{self, Request, WantedNote};
use crookwise_theory::Crook;
use crookwise_theory::order::put_in_order;
use std::sync::Arc;

/// Players who share their crook; or one alone.
#[derive(Clone, Debug)]
pub struct Team {
    /// Who they are, as indices into the request's players.
    pub players: Vec<usize>,
    /// The crooks that any of them owns, each once.
    pub crooks: Vec<&'static Crook>,
    /// For each player, which of them are his.
    pub owns: Vec<Vec<bool>>,
    /// Whether any note of the part is given to one of them.
    has_own_notes: bool,
}

/// A note of a part.
#[derive(Clone, Debug)]
pub struct PartNote {
    /// Its place in the request.
    pub index: usize,
    /// Beginning and end in ticks.
    pub from: i64,
    /// See `from`.
    pub to: i64,
    /// Whose it is: team and seat in it.
    pub whose: Option<(usize, usize)>,
    /// For each team and each of its crooks, what the note is worth there, its weight included.
    pub gains: Vec<Vec<f64>>,
}

impl PartNote {
    /// What it is worth at its best.
    pub fn highest(&self) -> f64 {
        self.gains.iter().flatten().copied().fold(0.0, f64::max)
    }
}

/// Who plays a note: the seat in the part, and the crook in the list of his team.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Choice {
    /// Among all seats of the part.
    pub seat: u8,
    /// Among the crooks of his team.
    pub crook: u8,
}

/// Who plays a note, on what.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chosen {
    /// As an index into the request's players.
    pub player: usize,
    /// His crook.
    pub crook: &'static Crook,
}

/// What is planned apart from all else.
#[derive(Clone, Debug)]
pub struct Part {
    /// By their beginning; shared with the same part under other conditions.
    pub notes: Arc<[PartNote]>,
    /// The teams.
    pub teams: Vec<Team>,
    /// For each seat its team and its place there.
    pub seats: Vec<(usize, usize)>,
    /// The rest that a change needs, in ticks; none long enough where no crook may be changed.
    pub change_time: i64,
    /// What a change costs each player.
    pub change_cost: f64,
}

impl Part {
    /// The parts of a request.
    pub fn all(request: &Request) -> Vec<Self> {
        let teams = teams(request);
        let is_free = request.notes.iter().any(|note| note.player.is_none());
        let together: Vec<Vec<Team>> =
            if is_free { vec![teams] } else { teams.into_iter().map(|team| vec![team]).collect() };
        together.into_iter().map(|teams| Self::of(request, teams)).collect()
    }

    fn of(request: &Request, mut teams: Vec<Team>) -> Self {
        let seat_of = |player: usize| {
            teams.iter().enumerate().find_map(|(team, all)| {
                let seat = all.players.iter().position(|one| *one == player)?;
                Some((team, seat))
            })
        };
        let mut notes: Vec<PartNote> = Vec::new();
        for (index, note) in request.notes.iter().enumerate() {
            let whose = note.player.and_then(seat_of);
            if note.player.is_none() || whose.is_some() {
                notes.push(PartNote {
                    index,
                    from: note.from.0,
                    to: note.to.0,
                    whose,
                    gains: teams.iter().map(|team| gains(request, team, note)).collect(),
                });
            }
        }
        put_in_order(&mut notes, |note| (note.from, note.to, note.index));
        for (at, team) in teams.iter_mut().enumerate() {
            team.has_own_notes = notes.iter().any(|note| note.whose.is_some_and(|(whose, _)| whose == at));
        }
        let seats = teams
            .iter()
            .enumerate()
            .flat_map(|(team, all)| (0..all.players.len()).map(move |seat| (team, seat)))
            .collect();
        let (change_time, change_cost) = (request.change_time.0, request.weights.change_cost);
        Self { notes: notes.into(), teams, seats, change_time, change_cost }
    }

    /// The first seat of a team among all.
    pub fn first_seat(&self, team: usize) -> usize {
        self.teams.iter().take(team).map(|team| team.players.len()).sum()
    }

    /// What a choice means.
    pub fn chosen(&self, choice: Choice) -> Chosen {
        let (team, seat) = self.seats[usize::from(choice.seat)];
        let team = &self.teams[team];
        Chosen { player: team.players[seat], crook: team.crooks[usize::from(choice.crook)] }
    }

    /// This part where a team has not that crook.
    pub fn without(&self, team: usize, crook: usize) -> Self {
        let mut other = self.clone();
        if let Some(team) = other.teams.get_mut(team) {
            for owns in &mut team.owns {
                if let Some(owned) = owns.get_mut(crook) {
                    *owned = false;
                }
            }
        }
        other
    }

    /// This part where nobody changes his crook.
    pub fn without_changes(&self) -> Self {
        Self { change_time: i64::MAX, ..self.clone() }
    }
}

impl Team {
    /// Whether nothing but their number tells two teams apart.
    pub fn is_like(&self, other: &Self) -> bool {
        !self.has_own_notes && !other.has_own_notes && self.crooks == other.crooks && self.owns == other.owns
    }

    /// Whether nothing but their number tells two players of it apart.
    pub fn are_alike(&self, one: usize, other: usize) -> bool {
        !self.has_own_notes && self.owns.get(one) == self.owns.get(other)
    }
}

fn teams(request: &Request) -> Vec<Team> {
    let teams = request::teams(&request.players, request.together);
    teams.into_iter().map(|players| team(request, players)).collect()
}

fn team(request: &Request, players: Vec<usize>) -> Team {
    let mut crooks: Vec<&'static Crook> = Vec::new();
    let of = |player: &usize| request.players[*player].crooks.iter().map(|named| named.crook);
    for crook in players.iter().flat_map(of) {
        if !crooks.contains(&crook) {
            crooks.push(crook);
        }
    }
    let owns = players
        .iter()
        .map(|player| crooks.iter().map(|crook| of(player).any(|one| one == *crook)).collect())
        .collect();
    Team { players, crooks, owns, has_own_notes: false }
}

fn gains(request: &Request, team: &Team, note: &WantedNote) -> Vec<f64> {
    let gain = |crook: &&'static Crook| note.given_on(crook, &request.weights).making.worth * note.weight;
    team.crooks.iter().map(gain).collect()
}
