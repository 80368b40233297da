//! The planner fed with what the horns of real movements sound: does it find the composer's crooks? The weights stood before any
//! of these movements was tried; every second movement is held out all the same, for whoever changes them.

#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crate::movements::{MOVEMENTS, decoder, repaired};
use crookwise_planner::of_score::{Seat, request, seats};
use crookwise_planner::{NamedCrook, Plan, Request, Ticks, plan};
use crookwise_score::score::{Score, StaffCourse};
use crookwise_tests::outside::{Comparison, hold_in};
use crookwise_theory::{Crook, CrookFamily};

/// The comparisons of this file.
pub const COMPARISONS: &[Comparison] = &crookwise_tests::comparisons![the_composers_crooks_are_found];

/// Ten bars of four quarters, about twenty seconds at a usual pace: what the dossier calls risky below.
const CHANGE_TIME: f64 = 40.0;

fn the_composers_crooks_are_found(folder: &str) {
    for (half, heading) in [(0, "Tried"), (1, "Held out")] {
        let names = MOVEMENTS.iter().enumerate().filter(|(at, _)| at % 2 == half);
        let lines: Vec<String> = names.flat_map(|(_, name)| lines_of(folder, name)).collect();
        hold_in("docs/crooks.md", heading, &lines);
    }
}

fn lines_of(folder: &str, name: &str) -> Vec<String> {
    let score = repaired(folder, name);
    let mut horns = seats(&score, &mut decoder);
    horns.retain(|seat| seat.family == CrookFamily::Horn);
    if horns.is_empty() {
        return vec![format!("{name}: no horns")];
    }
    let asked = request(&score, &horns, Ticks::of_quarters(CHANGE_TIME).unwrap(), &mut decoder).unwrap();
    let outcome = plan(&asked).unwrap();
    assert!(outcome.optimal, "{name}: not proved");
    let best = &outcome.plans[0];
    let mut lines = vec![format!("{name}: {} notes, worth {:.1}", asked.notes.len(), best.total)];
    let own: Vec<&'static Crook> = horns.iter().map(|seat| composers(&score, seat)).collect();
    let theirs = only(&asked, &own);
    let worth_of = |plan: &Plan, at: usize| -> f64 {
        plan.notes.iter().flatten().filter(|note| note.player == at).map(|note| note.worth).sum()
    };
    for (at, seat) in horns.iter().enumerate() {
        let label = &score.staff(seat.staff).unwrap().label;
        let names = names(best, at);
        let others: Vec<String> = names.iter().filter(|name| *name != own[at].name).cloned().collect();
        let more = worth_of(best, at) - worth_of(&theirs, at);
        let verdict = match (names.len() > others.len(), others.is_empty()) {
            (true, true) => "found".to_owned(),
            (true, false) => format!("found; {} beside it gives {more:.1} more", others.join(", ")),
            (false, _) => format!("not found: {} gives {more:.1} more", others.join(", ")),
        };
        lines.push(format!("    {label}: {}, {verdict}", own[at].name));
    }
    lines
}

fn names(plan: &Plan, at: usize) -> Vec<String> {
    plan.stretches.iter().filter(|stretch| stretch.player == at).map(|stretch| stretch.name.clone()).collect()
}

/// The best plan on these crooks alone, one for each player.
fn only(request: &Request, own: &[&'static Crook]) -> Plan {
    let mut request = request.clone();
    request.together = false;
    for (player, crook) in request.players.iter_mut().zip(own) {
        player.crooks = vec![NamedCrook { name: crook.name.to_owned(), crook }];
    }
    plan(&request).unwrap().plans.remove(0)
}

/// The crook on which the part has most of its notes.
fn composers(score: &Score, seat: &Seat) -> &'static Crook {
    let staff = score.staff(seat.staff).unwrap();
    let course = StaffCourse::of(score, staff, &mut decoder);
    let played = staff.notes().iter().filter(|(_, note)| note.printed.is_some());
    most_used(played.filter_map(|(_, note)| course.place_of(note)?.staff.crook())).unwrap()
}

fn most_used(all: impl Iterator<Item = &'static Crook>) -> Option<&'static Crook> {
    let mut counts: Vec<(&'static Crook, usize)> = Vec::new();
    for crook in all {
        match counts.iter_mut().find(|(one, _)| *one == crook) {
            Some((_, count)) => *count += 1,
            None => counts.push((crook, 1)),
        }
    }
    counts.iter().max_by_key(|(_, count)| *count).map(|(crook, _)| *crook)
}
