//! Who stands on which staff, and what is printed there.

use crate::plan::Plan;
use crate::request::{NamedCrook, Request, number_in_family, teams};
use crate::ticks::Ticks;
use crookwise_score::MOST_PLAYERS;
use crookwise_theory::order::{in_order, put_in_order};
use crookwise_theory::{Crook, CrookFamily, Printed, Production};

/// How players are seated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seats {
    /// Those who share their crook have one staff.
    Together,
    /// Each has a staff of his own.
    Alone,
}

/// A staff with its players.
#[derive(Clone, Debug, PartialEq)]
pub struct Seated {
    /// As a score prints it: "Corni I, II in G".
    pub label: String,
    /// For each player his notes, one after the other.
    pub players: Vec<Vec<SeatedNote>>,
    /// Where the crook changes.
    pub turns: Vec<Turn>,
}

/// A note on a staff.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SeatedNote {
    /// When it begins.
    pub from: Ticks,
    /// When it ends.
    pub to: Ticks,
    /// As it is printed.
    pub printed: Printed,
    /// How it is made.
    pub production: Production,
}

/// A change of crook.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Turn {
    /// When everybody on the staff falls silent before it.
    pub rest: Ticks,
    /// When the first note on the new crook begins.
    pub from: Ticks,
    /// The new crook, as a label names it.
    pub crook: String,
}

/// The staves of a plan, in the order of its players: those who share their crook on one, or each on his own.
pub fn all(request: &Request, plan: &Plan, seats: Seats) -> Vec<Seated> {
    let staves = groups(request).into_iter().flat_map(|team| match seats {
        Seats::Together => vec![seated(request, plan, &team, &team)],
        Seats::Alone => team.iter().map(|player| seated(request, plan, &team, &[*player])).collect(),
    });
    staves.collect()
}

/// Players who share a staff: those who share their crook, as many as a staff takes.
fn groups(request: &Request) -> Vec<Vec<usize>> {
    let teams = teams(&request.players, request.together);
    let groups = teams.iter().flat_map(|team| team.chunks(MOST_PLAYERS)).map(<[usize]>::to_vec);
    in_order(groups, |group| group.first().copied())
}

/// A staff for some of a team, who change their crook when all of it does.
fn seated(request: &Request, plan: &Plan, team: &[usize], players: &[usize]) -> Seated {
    let turns = turns(request, plan, team);
    let owned = players.first().and_then(|first| request.players.get(*first));
    let family = owned.map_or(CrookFamily::Horn, |player| player.family);
    let first = turns.first().map(|(_, _, crook)| *crook);
    let crook = first.or_else(|| owned.and_then(|player| player.crooks.first()).map(|named| named.crook));
    let numbers: Vec<usize> = players.iter().map(|at| number_in_family(&request.players, *at)).collect();
    let label = label(family, &numbers, crook);
    let turns = turns.iter().skip(1).map(|(rest, from, crook)| Turn {
        rest: *rest,
        from: *from,
        crook: NamedCrook::of(crook).name,
    });
    let notes = players.iter().map(|player| notes(request, plan, *player)).collect();
    Seated { label, turns: turns.collect(), players: notes }
}

/// The crooks of a staff, one after the other: when it falls silent before each, when that begins, and the crook. They are taken
/// from the notes: a player's stretch may reach over a time in which the other plays alone on another crook.
fn turns(request: &Request, plan: &Plan, players: &[usize]) -> Vec<(Ticks, Ticks, &'static Crook)> {
    let all = request.notes.iter().zip(&plan.notes);
    let mut own: Vec<_> = all
        .filter_map(|(note, played)| {
            let played = played.filter(|played| players.contains(&played.player))?;
            Some((note.from, note.to, played.crook))
        })
        .collect();
    put_in_order(&mut own, |(from, ..)| *from);
    let mut turns: Vec<(Ticks, Ticks, &'static Crook)> = Vec::new();
    let mut silent = Ticks::default();
    for (from, to, crook) in own {
        if turns.last().is_none_or(|(.., last)| *last != crook) {
            turns.push((silent, from, crook));
        }
        silent = silent.max(to);
    }
    turns
}

fn notes(request: &Request, plan: &Plan, player: usize) -> Vec<SeatedNote> {
    let all = request.notes.iter().zip(&plan.notes);
    let mut own: Vec<_> = all
        .filter_map(|(note, played)| {
            let played = played.filter(|played| played.player == player)?;
            Some(SeatedNote {
                from: note.from.max(Ticks::default()),
                to: note.to,
                printed: Printed(played.making.written.0),
                production: played.making.production,
            })
        })
        .filter(|note| note.from < note.to)
        .collect();
    put_in_order(&mut own, |note| note.from);
    own
}

/// As Italian scores print it.
fn label(family: CrookFamily, numbers: &[usize], crook: Option<&'static Crook>) -> String {
    const ROMAN: [&str; 8] = ["I", "II", "III", "IV", "V", "VI", "VII", "VIII"];
    let name = match (family, numbers.len()) {
        (CrookFamily::Horn, 1) => "Corno",
        (CrookFamily::Horn, _) => "Corni",
        (CrookFamily::Trumpet, 1) => "Tromba",
        (CrookFamily::Trumpet, _) => "Trombe",
    };
    let numbers: Vec<&str> = numbers.iter().filter_map(|number| ROMAN.get(number - 1).copied()).collect();
    let crook = crook.map(|crook| format!(" in {}", NamedCrook::of(crook).name)).unwrap_or_default();
    format!("{name} {}{crook}", numbers.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crookwise_theory::label::{DecodeOptions, StaffLabel, decode};

    /// Every label that is printed, and every change, is read as what was meant.
    #[test]
    fn labels_are_read_as_they_were_meant() {
        for family in [CrookFamily::Horn, CrookFamily::Trumpet] {
            for crook in family.crooks() {
                for numbers in [&[1][..], &[1, 2], &[3, 4], &[1, 2, 3, 4]] {
                    let label = label(family, numbers, Some(crook));
                    let decoded = decode(&label, DecodeOptions::default());
                    assert_eq!(decoded.staves.first().and_then(StaffLabel::crook), Some(crook), "{label}");
                    let players: usize = decoded.staves.iter().map(|staff| staff.players.len()).sum();
                    assert_eq!(players, numbers.len(), "{label}");
                    let muta = format!("{label}; muta in {}", NamedCrook::of(crook).name);
                    let decoded = decode(&muta, DecodeOptions::default());
                    assert_eq!(decoded.changes.last().and_then(StaffLabel::crook), Some(crook), "{muta}");
                }
            }
        }
    }
}
