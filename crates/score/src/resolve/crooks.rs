//! Which staff of a label each player reads: at the beginning, and after a change of label.

use super::Decoder;
use crate::staff::Staff;
use crookwise_theory::label::{Decoded, StaffLabel};
use std::sync::Arc;

/// The staff each player reads at the beginning, with the player's number: by a crook of his own, else by his seat on
/// the label. Empty where the label names no staff.
pub(super) fn at_start(staff: &Staff, decoded: &Decoded) -> Vec<(u32, StaffLabel)> {
    let chosen = staff.choice.and_then(|choice| choice.among(decoded));
    if let (Some(chosen), true) = (&chosen, decoded.staves.is_empty()) {
        // The label names no staff that could be read, and one was chosen among those it offers.
        return (1_u32..).take(staff.players()).map(|number| (number, chosen.clone())).collect();
    }
    let seats = decoded.seats(staff.players()).into_iter().enumerate();
    let seated = seats.filter_map(|(player, seat)| {
        let own = staff.crook(player).and_then(|choice| choice.among(decoded));
        // Other readings are those of the first staff the label names.
        let chosen = || chosen.clone().filter(|_| seat.staff == 0);
        let label = own.or_else(chosen).or_else(|| decoded.staves.get(seat.staff).cloned())?;
        Some((seat.number, label))
    });
    seated.collect()
}

/// What a change of label says, read in its place: "Corni in D" by itself, "muta in D" or "D" behind the label of the
/// staff.
pub(super) struct Changed {
    decoded: Arc<Decoded>,
    /// Where the text says "muta in", what it changes to.
    muta: bool,
    /// Whether its numbers are its own.
    numbered: bool,
}

impl Changed {
    /// Reads a change; `None` where it names no staff in any way.
    pub(super) fn read(text: &str, label: &str, decode: &mut Decoder<'_>) -> Option<Self> {
        let alone = decode(text);
        if !alone.staves.is_empty() {
            let muta = !alone.changes.is_empty();
            return Some(Self { decoded: alone, muta, numbered: true });
        }
        let mut behind = |text: String| Some(decode(&text)).filter(|decoded| !decoded.changes.is_empty());
        let decoded =
            behind(format!("{label}; {text}")).or_else(|| behind(format!("{label}; muta {text}")))?;
        Some(Self { decoded, muta: true, numbered: false })
    }

    fn staves(&self) -> &[StaffLabel] {
        if self.muta { &self.decoded.changes } else { &self.decoded.staves }
    }

    /// What a player changes to. Where the change is for all and numbers players ("Corno II muta in D"), the others
    /// stay with what they have: `None`.
    pub(super) fn of(
        &self,
        (player, number): (usize, u32),
        players: usize,
        alone: bool,
    ) -> Option<&StaffLabel> {
        let staves = self.staves();
        let numbered = self.numbered && staves.iter().any(|staff| !staff.players.is_empty());
        let by_number = || staves.iter().find(|staff| staff.players.contains(&number));
        match (numbered, alone) {
            (true, false) => by_number(),
            (true, true) => by_number().or(staves.first()),
            (false, true) => staves.first(),
            (false, false) if self.muta => staves.last(),
            (false, false) => {
                let seats = self.decoded.seats(players);
                staves.get(seats.get(player).or(seats.last())?.staff)
            }
        }
    }
}
