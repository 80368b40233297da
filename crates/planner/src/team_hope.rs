//! What can still be hoped for a team from a note on: for each of its crooks, and for what each of its players played on last,
//! once where the crook binds it and once where it has rested long enough to take another. Where notes are for anybody it is also
//! followed who holds one: a pair has two of a chord and no third.

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
    /// Sets of players who are at a note; one where that is not followed.
    busy_sets: usize,
    seats: usize,
    followed: usize,
    /// For each state what it becomes once the team has changed its crook.
    changed: Vec<usize>,
    /// For each state and each seat what it becomes once he plays, and what he pays for it.
    played: Vec<(usize, f64)>,
    /// By note, crook, state, set of the busy: with this crook, which binds.
    bound: Vec<f64>,
    /// By note, crook, state: where the team has rested, any crook may be taken and nobody is busy.
    rested: Vec<f64>,
    /// When each note begins.
    begins: Vec<i64>,
    /// Whether all that was taken of the run of notes before a note is still held when it begins.
    joins: Vec<bool>,
    /// When the last note of each note's run begins.
    run_ends: Vec<i64>,
    change_time: i64,
}

/// Where a team stands in what is hoped: crook, state, who is busy, and whether the crook binds it.
type At = (usize, usize, usize, bool);

/// A note that may be taken: its place, its worth for each crook less its price, and who of the team may.
struct Offer<'a> {
    n: usize,
    /// The first note that is heard after a rest that is long enough for a change.
    rested_at: usize,
    gains: &'a [f64],
    price: f64,
    seats: Range<usize>,
    owns: &'a [Vec<bool>],
}

/// A note that is taken: what it brings with all after it, and the state and the busy then.
type Taken = (f64, usize, usize);

impl TeamHope {
    /// For a team of a part, which pays these prices.
    pub fn of(part: &Part, at: usize, prices: &[f64]) -> Self {
        let team = &part.teams[at];
        let seats = team.players.len();
        let crooks = team.crooks.len();
        let notes = part.notes.len();
        let held = |sets: usize| (notes + 1) * crooks * 3_usize.pow(seats as u32) * sets;
        let is_followed = seats <= FOLLOWED && held(1) <= MOST_HELD;
        let followed = if is_followed { seats } else { 0 };
        // Given notes overlap but by a slip: then one player has two at a time.
        let is_free = part.notes.iter().any(|note| note.whose.is_none());
        let busy_sets = if is_followed && is_free && held(1 << seats) <= MOST_HELD { 1 << seats } else { 1 };
        let states = 3_usize.pow(followed as u32);
        let (joins, run_ends) = runs(&part.notes);
        let played = (0..states).flat_map(|state| (0..followed).map(move |seat| (state, seat)));
        let cost = |state, seat| if of_seat(state, seat) == ON_ANOTHER { part.change_cost } else { 0.0 };
        let mut hope = Self {
            crooks,
            states,
            busy_sets,
            seats,
            followed,
            changed: (0..states).map(|state| flipped(state, followed)).collect(),
            played: played.map(|(state, seat)| (with_seat(state, seat, ON_IT), cost(state, seat))).collect(),
            bound: vec![0.0; (notes + 1) * crooks * states * busy_sets],
            rested: vec![0.0; (notes + 1) * crooks * states],
            begins: part.notes.iter().map(|note| note.from).collect(),
            joins,
            run_ends,
            change_time: part.change_time,
        };
        let mut room = vec![f64::MIN; crooks * states];
        for n in (0..notes).rev() {
            let offer = hope.offer(part, at, n, prices);
            hope.fill(n, offer.as_ref(), &mut room);
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
            owns: &part.teams.get(at)?.owns,
        })
    }

    /// The first note that begins long enough after a moment for a change of crook.
    fn rested_at(&self, moment: i64) -> usize {
        let from = moment.saturating_add(self.change_time);
        self.begins.partition_point(|begins| *begins < from)
    }

    /// Who is still busy at the note after one, of those who were behind it.
    fn busy_after(&self, n: usize, busy: usize) -> usize {
        if self.joins.get(n + 1).copied().unwrap_or(false) { busy } else { 0 }
    }

    /// What is hoped from a note on: where it is left out, and where one who is not busy takes it.
    fn fill(&mut self, n: usize, offer: Option<&Offer<'_>>, room: &mut [f64]) {
        let (crooks, states, sets) = (self.crooks, self.states, self.busy_sets);
        let joins = self.joins.get(n + 1).copied().unwrap_or(false);
        let (bound, bound_later) = self.bound.split_at_mut((n + 1) * crooks * states * sets);
        let (rested, rested_later) = self.rested.split_at_mut((n + 1) * crooks * states);
        let bound = bound.get_mut(n * crooks * states * sets..).unwrap_or_default();
        let rested = rested.get_mut(n * crooks * states..).unwrap_or_default();
        rested.copy_from_slice(&rested_later[..crooks * states]);
        for (now, next) in bound.chunks_mut(sets).zip(bound_later.chunks(sets)) {
            if joins {
                now.copy_from_slice(next);
            } else {
                now.fill(next[0]);
            }
        }
        let Some(offer) = offer else { return };
        let after_rest = &rested_later[(offer.rested_at - n - 1) * crooks * states..];
        // What it brings where the team takes it on a crook with nobody busy.
        room.fill(f64::MIN);
        for (crook, gain) in offer.gains.iter().enumerate().filter(|(_, gain)| **gain > 0.0) {
            let first = crook * states;
            for seat in offer.seats.clone().filter(|seat| offer.owns[*seat][crook]) {
                let own = if sets > 1 { 1 << seat } else { 0 };
                for state in 0..states {
                    let (after, cost) = match self.played.get(state * self.followed + seat) {
                        Some(played) if seat < self.followed => *played,
                        _ => (state, 0.0),
                    };
                    let worth = gain - offer.price - cost;
                    let rests = after_rest[first + after];
                    let next = &bound_later[(first + after) * sets..][..sets];
                    let now = &mut bound[(first + state) * sets..][..sets];
                    for (busy, now) in now.iter_mut().enumerate().filter(|(busy, _)| busy & own == 0) {
                        let goes_on = next[if joins { busy | own } else { 0 }];
                        let value = worth + goes_on.max(rests);
                        *now = now.max(value);
                        if busy == 0 {
                            room[first + state] = room[first + state].max(value);
                        }
                    }
                }
            }
        }
        // Where the team has rested, any crook is at hand: the one that it had, or the best other.
        for state in 0..states {
            let changed = self.changed[state];
            let best = two_best((0..crooks).map(|crook| Some(room[crook * states + changed])));
            for crook in 0..crooks {
                let changes = best.into_iter().flatten().find(|(_, other)| *other != crook);
                let most = room[crook * states + state].max(changes.map_or(f64::MIN, |(value, _)| value));
                let place = crook * states + state;
                rested[place] = rested[place].max(most);
            }
        }
    }

    /// What a note that is taken on a crook brings with all after it, and the state then.
    fn taken(&self, offer: &Offer<'_>, crook: usize, state: usize, busy: usize) -> Option<Taken> {
        let gain = offer.gains.get(crook).copied().filter(|gain| *gain > 0.0)?;
        let mut best: Option<Taken> = None;
        for seat in offer.seats.clone().filter(|seat| offer.owns[*seat][crook]) {
            let own = if self.busy_sets > 1 { 1 << seat } else { 0 };
            if busy & own != 0 {
                continue;
            }
            let (after, cost) =
                if seat < self.followed { self.played[state * self.followed + seat] } else { (state, 0.0) };
            let busy = self.busy_after(offer.n, busy | own);
            let goes_on = self.bound[self.place(offer.n + 1, crook, after) * self.busy_sets + busy];
            let rests = self.rested[self.place(offer.rested_at, crook, after)];
            let value = gain - offer.price - cost + goes_on.max(rests);
            if best.is_none_or(|(most, ..)| value > most) {
                best = Some((value, after, busy));
            }
        }
        best
    }

    const fn place(&self, note: usize, crook: usize, state: usize) -> usize {
        (note * self.crooks + crook) * self.states + state
    }

    /// From a note on: with the crook that binds the team until so long after its last note, the notes that its players hold, and
    /// the crooks that they played on last.
    pub fn from(&self, note: usize, bound: Option<usize>, last: i64, held: &[i64], own: &[u8]) -> f64 {
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
        // Busy is who holds a note beyond the last that may find him so.
        let run_end = self.run_ends.get(note).copied().unwrap_or(i64::MAX);
        let busy = held.iter().take(self.followed).enumerate().filter(|(_, until)| **until > run_end);
        let busy = if self.busy_sets > 1 { busy.fold(0, |set, (seat, _)| set | 1 << seat) } else { 0 };
        self.bound[self.place(note, crook, state) * self.busy_sets + busy]
            .max(self.rested[self.place(rested, crook, state)])
    }

    /// Counts the notes that the team takes at best, at these prices.
    pub fn mark_taken(&self, part: &Part, at: usize, prices: &[f64], takers: &mut [u8]) {
        let best = (0..self.crooks).max_by(|one, other| {
            self.rested[self.place(0, *one, 0)].total_cmp(&self.rested[self.place(0, *other, 0)])
        });
        // A team without a crook takes nothing.
        let Some(best) = best else { return };
        let mut now: At = (best, 0, 0, false);
        let mut n = 0;
        while n < part.notes.len() {
            let taken = self.offer(part, at, n, prices).and_then(|offer| self.goes_on(&offer, now));
            let Some((next, then)) = taken else {
                now.2 = self.busy_after(n, now.2);
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
    fn goes_on(&self, offer: &Offer<'_>, (crook, state, busy, is_bound): At) -> Option<(usize, At)> {
        let next = self.place(offer.n + 1, crook, state);
        let left_out = if is_bound {
            self.bound[next * self.busy_sets + self.busy_after(offer.n, busy)]
        } else {
            self.rested[next]
        };
        let stays = self.taken(offer, crook, state, busy).map(|taken| (taken, crook));
        let changed = self.changed[state];
        let others = if is_bound { 0..0 } else { 0..self.crooks };
        let all = others.map(|other| self.taken(offer, other, changed, 0).map(|(value, ..)| value));
        let changes = two_best(all).into_iter().flatten().find(|(_, other)| *other != crook);
        let changes = changes.and_then(|(_, other)| Some((self.taken(offer, other, changed, 0)?, other)));
        let best = [stays, changes].into_iter().flatten().max_by(|one, other| one.0.0.total_cmp(&other.0.0));
        let ((_, after, busy), crook) = best.filter(|((value, ..), _)| *value > left_out)?;
        let goes_on = self.bound[self.place(offer.n + 1, crook, after) * self.busy_sets + busy];
        let rests = self.rested[self.place(offer.rested_at, crook, after)];
        Some(if rests > goes_on {
            (offer.rested_at, (crook, after, 0, false))
        } else {
            (offer.n + 1, (crook, after, busy, true))
        })
    }
}

/// Runs of notes: whether each joins the one before it, and when the last of its run begins. A note joins a run where all notes
/// of the run are still held when it begins, so that who plays one of them plays no other.
fn runs(notes: &[PartNote]) -> (Vec<bool>, Vec<i64>) {
    let mut until = i64::MIN;
    let joins: Vec<bool> = notes
        .iter()
        .map(|note| {
            let joins = note.from < until;
            until = if joins { until.min(note.to) } else { note.to };
            joins
        })
        .collect();
    let mut last = i64::MAX;
    let mut ends: Vec<i64> = Vec::with_capacity(notes.len());
    for (at, note) in notes.iter().enumerate().rev() {
        if !joins.get(at + 1).copied().unwrap_or(false) {
            last = note.from;
        }
        ends.push(last);
    }
    ends.reverse();
    (joins, ends)
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
