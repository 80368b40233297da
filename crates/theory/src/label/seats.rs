//! Who sits where: which number each player of a staff has, and which of the label's staves that number reads.

use super::Decoded;
use crate::order::in_order;

/// Players that are seated at most: no label numbers more.
pub const MOST_SEATS: usize = 64;

/// The place of one player.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Seat {
    /// The player's number, as the label prints it or counted on from there; from 1.
    pub number: u32,
    /// The staff the player reads, as an index into [`Decoded::staves`].
    pub staff: usize,
}

impl Decoded {
    /// Seats so many players (at most [`MOST_SEATS`]), lowest number first. Every player takes the crook that the
    /// player's number has:
    ///
    /// 1. Numbers that the label prints belong to the crook they are printed with.
    /// 2. A crook with a count ("2 Corni in F, 2 in C") has the next so many numbers.
    /// 3. Crooks with neither ("Corni in Es/C") share the players left over evenly, in order; the first ones have one
    ///    more where it does not come out even.
    /// 4. Of fewer players the last ones are missing; more players go on counting on the last crook.
    ///
    /// Where one number stands with two instruments ("Flauto I, Oboe I") the order is that of the label. There are no
    /// seats where the label names no staff.
    ///
    /// ```
    /// use crookwise_theory::label::{DecodeOptions, decode};
    ///
    /// let seats = |label: &str, players: usize| {
    ///     let decoded = decode(label, DecodeOptions::default());
    ///     let seats = decoded.seats(players);
    ///     let name = |staff: usize| decoded.staves[staff].name();
    ///     seats.iter().map(|seat| format!("{} {}", seat.number, name(seat.staff))).collect::<Vec<_>>().join(", ")
    /// };
    /// assert_eq!(
    ///     seats("Corni I. II. in Es, III. IV. in F", 4),
    ///     "1 Horn in E-flat, 2 Horn in E-flat, 3 Horn in F, 4 Horn in F"
    /// );
    /// assert_eq!(seats("Corno III in E, Corno IV in G", 2), "3 Horn in E, 4 Horn in G");
    /// assert_eq!(seats("2 Corni in F", 3), "1 Horn in F, 2 Horn in F, 3 Horn in F");
    /// assert_eq!(seats("Corni in Es/F", 3), "1 Horn in E-flat, 2 Horn in E-flat, 3 Horn in F");
    /// ```
    #[must_use]
    pub fn seats(&self, players: usize) -> Vec<Seat> {
        let players = players.min(MOST_SEATS);
        let printed: Vec<u32> = self.staves.iter().flat_map(|staff| &staff.players).copied().collect();
        let mut counted = (1_u32..).filter(|number| !printed.contains(number));
        let mut seats: Vec<Seat> = Vec::new();
        for (staff, (label, own)) in self.staves.iter().zip(self.shares(players)).enumerate() {
            for place in 0..own {
                let number = label.players.get(place).copied().or_else(|| counted.next()).unwrap_or(u32::MAX);
                seats.push(Seat { number, staff });
            }
        }
        let twice = |seat: &Seat| printed.iter().filter(|number| **number == seat.number).count() > 1;
        if !seats.iter().any(twice) {
            seats = in_order(seats, |seat| seat.number);
        }
        let Some(last) = seats.last().copied() else { return seats };
        let beyond = seats.iter().map(|seat| seat.number).max().unwrap_or(0).saturating_add(1);
        let missing = players.saturating_sub(seats.len());
        seats.extend((beyond..).take(missing).map(|number| Seat { number, ..last }));
        seats.truncate(players);
        seats
    }

    /// How many players the label itself names, by numbers or by a count, for all its crooks together; a crook with
    /// neither beside others that have one stands for one player. `None` where the label names no number at all.
    ///
    /// ```
    /// use crookwise_theory::label::{DecodeOptions, decode};
    ///
    /// let named = |label: &str| decode(label, DecodeOptions::default()).named_players();
    /// assert_eq!(named("2 Corni in Es"), Some(2));
    /// assert_eq!(named("Corni I. II. in Es, III. IV. in C"), Some(4));
    /// assert_eq!(named("Corno 3, 4"), Some(2));
    /// assert_eq!(named("Corni in Es"), None);
    /// ```
    #[must_use]
    pub fn named_players(&self) -> Option<usize> {
        let named: Vec<Option<usize>> = self.staves.iter().map(super::StaffLabel::named_players).collect();
        named.iter().any(Option::is_some).then(|| {
            named.iter().fold(0_usize, |sum, own| sum.saturating_add(own.unwrap_or(1))).min(MOST_SEATS)
        })
    }

    /// How many of so many players each staff has: those it names, and an even share of the rest where it names none.
    fn shares(&self, players: usize) -> Vec<usize> {
        let named: Vec<Option<usize>> = self.staves.iter().map(super::StaffLabel::named_players).collect();
        let taken = named.iter().flatten().fold(0_usize, |sum, own| sum.saturating_add(*own));
        let open = named.iter().filter(|own| own.is_none()).count();
        let rest = players.saturating_sub(taken);
        let mut earlier = 0;
        let mut share = || {
            let more = usize::from(earlier < rest.checked_rem(open).unwrap_or(0));
            earlier += 1;
            rest.checked_div(open).unwrap_or(0) + more
        };
        named.into_iter().map(|own| own.map_or_else(&mut share, |own| own.min(MOST_SEATS))).collect()
    }
}

impl super::StaffLabel {
    /// How many players the label names for this staff alone.
    fn named_players(&self) -> Option<usize> {
        match self.players.len() {
            0 => self.count.and_then(|count| usize::try_from(count).ok()),
            numbered => Some(numbered),
        }
    }
}
