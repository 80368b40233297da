//! The horns and trumpets of a score as a request: what they sound, each note for the player who has it there.

use crate::Weights;
use crate::printed::{self, PrintedCrook};
use crate::request::{CrookPlayer, MOST_PLAYERS, NamedCrook, Request, WantedNote};
use crate::ticks::Ticks;
use crate::written::Layout;
use core::cmp::Reverse;
use core::ops::Range;
use crookwise_score::Score;
use crookwise_score::resolve::Decoder;
use crookwise_score::score::{PartStaff, PlayedBy, Quarters, Sounded, StaffId, player_of_voice};
use crookwise_theory::CrookFamily;
use crookwise_theory::order::put_in_order;

/// A seat of a score: a staff and a player of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Seat {
    /// His staff.
    pub staff: StaffId,
    /// His place on it, from 0.
    pub player: usize,
    /// Horn or trumpet.
    pub family: CrookFamily,
}

/// What horns and trumpets of a score or a page ask for.
#[derive(Clone, Debug, PartialEq)]
pub struct ScoreRequest {
    /// Their seats, from the top.
    pub seats: Vec<Seat>,
    /// What they sound.
    pub request: Request,
    /// The bars in which they do.
    pub layout: Layout,
    /// The crooks that are printed for them, by player and then by time; none where one of them is in no key that is built.
    pub printed: Vec<PrintedCrook>,
}

/// What the horns and trumpets of a score sound in some of its bars, counted from 0. `None` where it has neither horns nor
/// trumpets, or a time of it is beyond what is planned.
pub fn in_bars(
    score: &Score,
    bars: Range<usize>,
    change_time: Ticks,
    decoder: &mut Decoder<'_>,
) -> Option<ScoreRequest> {
    let seats = seats(score, decoder);
    if seats.is_empty() {
        return None;
    }
    let (mut request, mut printed) = with_crooks(score, &seats, change_time, decoder)?;
    let whole = Layout::of_score(score)?;
    let between = whole.time_of(&bars);
    request.keep_between(between);
    printed::keep_between(&mut printed, between);
    Some(ScoreRequest { seats, request, layout: whole.only(bars), printed })
}

/// The seats of horns and trumpets in a score, from the top; at most as many as are planned for.
pub fn seats(score: &Score, decoder: &mut Decoder<'_>) -> Vec<Seat> {
    let mut families: Vec<(StaffId, CrookFamily)> = Vec::new();
    for sounded in score.sounded(decoder) {
        if let Some(family) = sounded.family
            && families.iter().all(|(staff, _)| *staff != sounded.staff)
        {
            families.push((sounded.staff, family));
        }
    }
    let of_staff = |staff: &PartStaff| {
        let found = families.iter().find(|(id, _)| *id == staff.id)?;
        let (id, family) = *found;
        Some((0..staff.players).map(move |player| Seat { staff: id, player, family }))
    };
    score.staves().filter_map(of_staff).flatten().take(MOST_PLAYERS).collect()
}

/// What these seats sound, for players who own every crook that is built; horns and trumpets are pairs, from the top.
/// `None` where a time of the score is beyond what is planned.
pub fn request(
    score: &Score,
    seats: &[Seat],
    change_time: Ticks,
    decoder: &mut Decoder<'_>,
) -> Option<Request> {
    Some(with_crooks(score, seats, change_time, decoder)?.0)
}

/// The same with the crooks that are printed for it.
pub(crate) fn with_crooks(
    score: &Score,
    seats: &[Seat],
    change_time: Ticks,
    decoder: &mut Decoder<'_>,
) -> Option<(Request, Vec<PrintedCrook>)> {
    let mut sounded = score.sounded(decoder);
    sounded.retain(|sounded| sounded.family.is_some() && !sounded.note.grace);
    put_in_order(&mut sounded, |one| (one.note.start, !one.note.tied, Reverse(one.pitch.midi())));
    let mut notes: Vec<WantedNote> = Vec::new();
    // For each seat his last note.
    let mut last: Vec<Option<usize>> = vec![None; seats.len()];
    let mut printed: Vec<Option<PrintedCrook>> = Vec::new();
    for one in &sounded {
        let (from, to) = (ticks(one.note.start.time)?, ticks(one.note.end.time)?);
        if to <= from {
            continue;
        }
        let note = WantedNote::free(from, to, one.pitch);
        for at in takers(seats, one, &note, &notes, &last) {
            match last[at].and_then(|last| notes.get_mut(last)) {
                // Tied to the note before: one breath.
                Some(before) if one.note.tied && is_tied(before, &note) => before.to = to,
                _ => {
                    last[at] = Some(notes.len());
                    notes.push(WantedNote { player: Some(at), ..note.clone() });
                    printed.push(one.crook.map(|crook| PrintedCrook { player: at, from, crook }));
                }
            }
        }
    }
    let players = seats.iter().enumerate().map(|(at, seat)| CrookPlayer {
        family: seat.family,
        crooks: NamedCrook::all(seat.family),
        pair: Some(pair(seats, at)),
    });
    let weights = Weights::default();
    let request = Request { notes, players: players.collect(), change_time, together: true, weights };
    Some((request, printed::changes(printed)))
}

/// The seats that play a note.
fn takers(
    seats: &[Seat],
    sounded: &Sounded<'_>,
    note: &WantedNote,
    notes: &[WantedNote],
    last: &[Option<usize>],
) -> Vec<usize> {
    let own = |at: &usize| seats.get(*at).is_some_and(|seat| seat.staff == sounded.staff);
    let of = |player: usize| (0..seats.len()).find(|at| own(at) && seats[*at].player == player);
    let before = |at: usize| last.get(at).copied().flatten().and_then(|last| notes.get(last));
    match sounded.note.by {
        PlayedBy::All => (0..seats.len()).filter(own).collect(),
        PlayedBy::One(player) => of(player).into_iter().collect(),
        PlayedBy::Voice => {
            let players = (0..seats.len()).filter(own).count();
            let last = |player: usize| of(player).map(before);
            let is_free =
                |player| last(player).is_some_and(|last| last.is_none_or(|last| last.to <= note.from));
            let began = |player| last(player).flatten().is_some_and(|last| is_tied(last, note));
            let player = player_of_voice(sounded.note, (players, players), is_free, began);
            player.and_then(of).into_iter().collect()
        }
    }
}

fn is_tied(before: &WantedNote, note: &WantedNote) -> bool {
    (before.sounding, before.to) == (note.sounding, note.from)
}

/// The number of a seat's pair: two of a family, from the top.
fn pair(seats: &[Seat], at: usize) -> u32 {
    let family = seats.get(at).map(|seat| seat.family);
    let before = seats.iter().take(at).filter(|seat| Some(seat.family) == family).count();
    let first = if family == Some(CrookFamily::Horn) { 1 } else { 101 };
    // Far fewer than a 32-bit number counts.
    first + before as u32 / 2
}

fn ticks(time: Quarters) -> Option<Ticks> {
    let (above, below) = time.fraction();
    Ticks::of_fraction(above, below)
}
