//! The next best plans: what it would cost to do without a crook of the best, or without changes. Each is the best of its
//! kind as far as it was sought.

use crate::part::Part;
use crate::search::Found;
use core::cmp::Reverse;
use crookwise_theory::order::put_in_order;

/// So many crooks of the best plan are done without in turn: those on which most notes are played.
const MOST: usize = 4;

/// Another plan that is sought: the parts that are other there, each with its place among all.
pub type OtherPlan = Vec<(usize, Part)>;

/// The other plans that are sought.
pub fn all(parts: &[Part], best: &[Found]) -> Vec<OtherPlan> {
    let mut used: Vec<(usize, usize, usize, usize)> = Vec::new();
    for (at, (part, found)) in parts.iter().zip(best).enumerate() {
        used.extend(crooks(part, found).into_iter().map(|(notes, team, crook)| (notes, at, team, crook)));
    }
    put_in_order(&mut used, |one| Reverse(*one));
    let without = used.iter().take(MOST).filter_map(|(_, at, team, crook)| {
        let part = parts.get(*at)?.without(*team, *crook);
        Some(vec![(*at, part)])
    });
    let stays = parts.iter().map(Part::without_changes).enumerate().collect();
    without.chain([stays]).collect()
}

/// The crooks of a plan: how many notes are played on each, its team, its place there.
fn crooks(part: &Part, found: &Found) -> Vec<(usize, usize, usize)> {
    let mut used: Vec<(usize, usize, usize)> = Vec::new();
    for choice in found.choices.iter().flatten() {
        let Some((team, _)) = part.seats.get(usize::from(choice.seat)) else { continue };
        let crook = usize::from(choice.crook);
        match used.iter_mut().find(|(_, one, other)| (*one, *other) == (*team, crook)) {
            Some((notes, ..)) => *notes += 1,
            None => used.push((1, *team, crook)),
        }
    }
    used
}
