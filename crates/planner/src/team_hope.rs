//! What can still be hoped for a team from a note on: for each of its crooks, and for what each of its players played on last,
//! once where the crook binds it and once where it has rested long enough to take another.

use crate::part::{Part, PartNote};
use core::ops::Range;

/// Seats whose changes are followed; those of a larger team are hoped to be free.
const FOLLOWED: usize = 3;

/// So much is held at most where seats are followed: in what is longer they are hoped to be free too.
const MOST_HELD: usize = 4_000_000;

/// What a player has to fear from the crook at hand.
const NEVER_PLAYED: usize = 0;
const ON_IT: usize = 1;
const ON_ANOTHER: usize = 2;

/// What is hoped for a team.
#[derive(Debug)]
pub struct TeamHope {
    crooks: usize,
    states: usize,
    seats: usize,
    followed: usize,
    /// For each state what it becomes once the team has changed its crook.
    changed: Vec<usize>,
    /// By note, crook, state: with this crook, which binds.
    bound: Vec<f64>,
    /// The same where the team has rested: any crook may be taken.
    rested: Vec<f64>,
    /// When each note begins.
    begins: Vec<i64>,
    change_time: i64,
}

/// Where a team stands in what is hoped: crook, state, and whether the crook binds it.
type At = (usize, usize, bool);

/// A note that may be taken: its place, its worth for each crook less its price, and who of the team may.
struct Offer<'a> {
    n: usize,
    /// The first note that is heard after a rest that is long enough for a change.
    rested_at: usize,
    gains: &'a [f64],
    price: f64,
    seats: Range<usize>,
    cost: f64,
    owns: &'a [Vec<bool>],
}

impl TeamHope {
    /// For a team of a part, which pays these prices.
    pub fn of(part: &Part, at: usize, prices: &[f64]) -> Self {
        let team = &part.teams[at];
        let seats = team.players.len();
        let crooks = team.crooks.len();
        let held = |states: usize| (part.notes.len() + 1) * crooks * states;
        let is_followed = seats <= FOLLOWED && held(3_usize.pow(seats as u32)) <= MOST_HELD;
        let followed = if is_followed { seats } else { 0 };
        let states = 3_usize.pow(followed as u32);
        let room = vec![0.0; held(states)];
        let mut hope = Self {
            crooks,
            states,
            seats,
            followed,
            changed: (0..states).map(|state| flipped(state, followed)).collect(),
            bound: room.clone(),
            rested: room,
            begins: part.notes.iter().map(|note| note.from).collect(),
            change_time: part.change_time,
        };
        for n in (0..part.notes.len()).rev() {
            hope.fill(n, hope.offer(part, at, n, prices));
        }
        hope
    }

    /// How much it holds.
    pub const fn size(&self) -> usize {
        self.bound.len()
    }

    /// How many players it is hoped for.
    pub const fn seats(&self) -> usize {
        self.seats
    }

    fn offer<'a>(&self, part: &'a Part, at: usize, n: usize, prices: &[f64]) -> Option<Offer<'a>> {
        let note: &PartNote = part.notes.get(n)?;
        let seats = match note.whose {
            Some((whose, seat)) if whose == at => seat..seat + 1,
            Some(_) => return None,
            None => 0..self.seats,
        };
        Some(Offer {
            n,
            rested_at: self.rested_at(note.to),
            gains: note.gains.get(at)?,
            price: prices.get(n).copied().unwrap_or(0.0),
            seats,
            cost: part.change_cost,
            owns: &part.teams.get(at)?.owns,
        })
    }

    /// The first note that begins long enough after a moment for a change of crook.
    fn rested_at(&self, moment: i64) -> usize {
        let from = moment.saturating_add(self.change_time);
        self.begins.partition_point(|begins| *begins < from)
    }

    fn fill(&mut self, n: usize, offer: Option<Offer<'_>>) {
        let first = self.place(n, 0, 0);
        let size = self.crooks * self.states;
        // Left out.
        self.bound.copy_within(first + size..first + 2 * size, first);
        self.rested.copy_within(first + size..first + 2 * size, first);
        let Some(offer) = offer else { return };
        let all: Vec<Option<(f64, usize)>> = (0..self.crooks)
            .flat_map(|crook| (0..self.states).map(move |state| (crook, state)))
            .map(|(crook, state)| self.taken(&offer, crook, state))
            .collect();
        let taken = |crook: usize, state: usize| all[crook * self.states + state].map(|(value, _)| value);
        for state in 0..self.states {
            let best = two_best((0..self.crooks).map(|crook| taken(crook, self.changed[state])));
            for crook in 0..self.crooks {
                let place = self.place(n, crook, state);
                let stays = taken(crook, state).unwrap_or(f64::MIN);
                let changes = best.into_iter().flatten().find(|(_, other)| *other != crook);
                self.bound[place] = self.bound[place].max(stays);
                self.rested[place] =
                    self.rested[place].max(stays).max(changes.map_or(f64::MIN, |(value, _)| value));
            }
        }
    }

    /// What a note that is taken on a crook brings with all after it, and the state then.
    fn taken(&self, offer: &Offer<'_>, crook: usize, state: usize) -> Option<(f64, usize)> {
        let gain = offer.gains.get(crook).copied().filter(|gain| *gain > 0.0)?;
        let mut best: Option<(f64, usize)> = None;
        for seat in offer.seats.clone().filter(|seat| offer.owns[*seat][crook]) {
            let (after, cost) = if seat < self.followed {
                let cost = if of_seat(state, seat) == ON_ANOTHER { offer.cost } else { 0.0 };
                (with_seat(state, seat, ON_IT), cost)
            } else {
                (state, 0.0)
            };
            let goes_on = self.bound[self.place(offer.n + 1, crook, after)];
            let rests = self.rested[self.place(offer.rested_at, crook, after)];
            let value = gain - offer.price - cost + goes_on.max(rests);
            if best.is_none_or(|(most, _)| value > most) {
                best = Some((value, after));
            }
        }
        best
    }

    const fn place(&self, note: usize, crook: usize, state: usize) -> usize {
        (note * self.crooks + crook) * self.states + state
    }

    /// From a note on: with the crook that binds the team until so long after its last note, and those that its players
    /// played on last.
    pub fn from(&self, note: usize, bound: Option<usize>, last: i64, own: &[u8]) -> f64 {
        let own = own.get(..self.followed).unwrap_or_default();
        let before = own.iter().find_map(|own| usize::from(*own).checked_sub(1));
        let Some(crook) = bound.or(before) else {
            let first = self.place(note, 0, 0);
            let of = |crook: usize| self.rested[first + crook * self.states];
            return (0..self.crooks).map(of).fold(0.0, f64::max);
        };
        let state = own.iter().enumerate().fold(0, |state, (seat, own)| {
            let fear = match usize::from(*own).checked_sub(1) {
                None => NEVER_PLAYED,
                Some(own) if own == crook => ON_IT,
                Some(_) => ON_ANOTHER,
            };
            with_seat(state, seat, fear)
        });
        if bound.is_none() {
            return self.rested[self.place(note, crook, state)];
        }
        let rested = self.rested_at(last).max(note);
        self.bound[self.place(note, crook, state)].max(self.rested[self.place(rested, crook, state)])
    }

    /// Counts the notes that the team takes at best, at these prices.
    pub fn mark_taken(&self, part: &Part, at: usize, prices: &[f64], takers: &mut [u8]) {
        let best = (0..self.crooks).max_by(|one, other| {
            self.rested[self.place(0, *one, 0)].total_cmp(&self.rested[self.place(0, *other, 0)])
        });
        let mut now: At = (best.unwrap_or(0), 0, false);
        let mut n = 0;
        while n < part.notes.len() {
            let taken = self.offer(part, at, n, prices).and_then(|offer| self.goes_on(&offer, now));
            let Some((next, then)) = taken else {
                n += 1;
                continue;
            };
            if let Some(takers) = takers.get_mut(n) {
                *takers = takers.saturating_add(1);
            }
            (n, now) = (next, then);
        }
    }

    /// Where the team goes on after a note, if it takes it at best.
    fn goes_on(&self, offer: &Offer<'_>, (crook, state, is_bound): At) -> Option<(usize, At)> {
        let table = if is_bound { &self.bound } else { &self.rested };
        let left_out = table[self.place(offer.n + 1, crook, state)];
        let stays = self.taken(offer, crook, state).map(|taken| (taken, crook));
        let changed = self.changed[state];
        let all = (0..self.crooks).map(|other| self.taken(offer, other, changed).map(|(value, _)| value));
        let changes = two_best(all).into_iter().flatten().find(|(_, other)| *other != crook);
        let changes = changes
            .filter(|_| !is_bound)
            .and_then(|(_, other)| Some((self.taken(offer, other, self.changed[state])?, other)));
        let best = [stays, changes].into_iter().flatten().max_by(|one, other| one.0.0.total_cmp(&other.0.0));
        let ((_, after), crook) = best.filter(|((value, _), _)| *value > left_out)?;
        let goes_on = self.bound[self.place(offer.n + 1, crook, after)];
        let rests = self.rested[self.place(offer.rested_at, crook, after)];
        Some(if rests > goes_on {
            (offer.rested_at, (crook, after, false))
        } else {
            (offer.n + 1, (crook, after, true))
        })
    }
}

/// The two highest of these, with their places.
fn two_best(values: impl Iterator<Item = Option<f64>>) -> [Option<(f64, usize)>; 2] {
    let mut best = [None::<(f64, usize)>; 2];
    for (at, value) in values.enumerate() {
        let Some(value) = value else { continue };
        if best[0].is_none_or(|(most, _)| value > most) {
            best = [Some((value, at)), best[0]];
        } else if best[1].is_none_or(|(most, _)| value > most) {
            best[1] = Some((value, at));
        }
    }
    best
}

fn of_seat(state: usize, seat: usize) -> usize {
    state / 3_usize.pow(seat as u32) % 3
}

fn with_seat(state: usize, seat: usize, fear: usize) -> usize {
    let unit = 3_usize.pow(seat as u32);
    state - of_seat(state, seat) * unit + fear * unit
}

/// After a change of the team's crook: who was on it is on another, and who was on another is hoped to be on it.
fn flipped(state: usize, followed: usize) -> usize {
    (0..followed).fold(state, |state, seat| {
        let fear = match of_seat(state, seat) {
            ON_IT => ON_ANOTHER,
            ON_ANOTHER => ON_IT,
            other => other,
        };
        with_seat(state, seat, fear)
    })
}
