//! Which staff of a label each player reads: at the beginning, and after a change of label.

use super::Decoder;
use crate::change::ChangeTo;
use crate::staff::Staff;
use crookwise_theory::label::{Decoded, LONGEST, StaffLabel};
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

/// The changes of label that a player comes through, each read against what holds for him just before it: column, whether it
/// is for him alone, and what he changes to. `None` where it is not understood; what leaves him as he is is left out.
pub(super) fn course(
    staff: &Staff,
    seat: (usize, u32),
    first: &StaffLabel,
    decode: &mut Decoder<'_>,
) -> Vec<(usize, bool, Option<StaffLabel>)> {
    let mut before = Before { label: staff.label.clone(), since: String::new() };
    let mut held = first.clone();
    let mut course = Vec::new();
    for change in staff.changes().iter().filter(|change| change.player.is_none_or(|player| player == seat.0))
    {
        let ChangeTo::Label(text) = &change.to else { continue };
        let alone = change.player.is_some();
        let Some(changed) = before.read(text, &held, decode) else {
            course.push((change.column, alone, None));
            continue;
        };
        if let Some(to) = changed.of(seat, staff.players(), alone) {
            before.pass(text, &changed, to);
            held = to.clone();
            course.push((change.column, alone, Some(to.clone())));
        }
    }
    course
}

/// What a change is read behind: a label, and what has been changed since.
struct Before {
    label: String,
    since: String,
}

impl Before {
    /// Reads a change: "Corni in D" by itself, "muta in D" or "D" behind what holds; `None` where it names no staff in any
    /// way.
    fn read(&mut self, text: &str, held: &StaffLabel, decode: &mut Decoder<'_>) -> Option<Changed> {
        let alone = decode(text);
        if !alone.staves.is_empty() {
            let muta = !alone.changes.is_empty();
            return Some(Changed { decoded: alone, muta, earlier: 0, numbered: true });
        }
        if self.label.chars().chain(self.since.chars()).chain(text.chars()).count() + MUTA.len() > LONGEST {
            *self = Self { label: held.name(), since: String::new() };
        }
        let before = format!("{}{}", self.label, self.since);
        let earlier = decode(&before).changes.len();
        let mut behind = |text: String| Some(decode(&text)).filter(|decoded| decoded.changes.len() > earlier);
        let decoded =
            behind(format!("{before}; {text}")).or_else(|| behind(format!("{before}{MUTA}{text}")))?;
        Some(Changed { decoded, muta: true, earlier, numbered: false })
    }

    /// Goes on behind a change. Of drums each may be tuned by itself, so all that was changed counts; else the last change
    /// does.
    fn pass(&mut self, text: &str, changed: &Changed, to: &StaffLabel) {
        if changed.numbered {
            *self = Self { label: text.to_owned(), since: String::new() };
            return;
        }
        if to.drums.is_empty() {
            self.since.clear();
        }
        self.since.push_str(MUTA);
        self.since.push_str(text.strip_prefix("muta ").unwrap_or(text));
    }
}

/// How a change stands behind a label.
const MUTA: &str = "; muta ";

/// What a change of label says.
struct Changed {
    decoded: Arc<Decoded>,
    /// Where the text says "muta in", what it changes to.
    muta: bool,
    /// Changes that were read with it and stood before it.
    earlier: usize,
    /// Whether its numbers are its own.
    numbered: bool,
}

impl Changed {
    fn staves(&self) -> &[StaffLabel] {
        if self.muta {
            self.decoded.changes.get(self.earlier..).unwrap_or_default()
        } else {
            &self.decoded.staves
        }
    }

    /// What a player changes to. Where the change is for all and numbers players ("Corno II muta in D"), the others
    /// stay with what they have: `None`.
    fn of(&self, (player, number): (usize, u32), players: usize, alone: bool) -> Option<&StaffLabel> {
        let staves = self.staves();
        let numbered = self.numbered && staves.iter().any(|staff| !staff.players.is_empty());
        let by_number = || staves.iter().find(|staff| staff.players.contains(&number));
        match (numbered, alone) {
            (true, false) => by_number(),
            (true, true) => by_number().or(staves.first()),
            (false, true) => staves.first(),
            (false, false) if !self.numbered => staves.first(),
            (false, false) if self.muta => staves.last(),
            (false, false) => {
                let seats = self.decoded.seats(players);
                staves.get(seats.get(player).or(seats.last())?.staff)
            }
        }
    }
}
