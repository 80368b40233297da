//! The search against every plan there is, on small random requests: reckoned anew here, by the words of the contract.

#![allow(clippy::unwrap_used, missing_docs, reason = "a test may fail loudly")]

use crookwise_planner::{CrookPlayer, Making, NamedCrook, Plan, Request, Ticks, WantedNote, Weights, plan};
use crookwise_theory::{CrookFamily, Sounding};
use proptest::prelude::*;

const CROOKS: [(&str, &str); 6] =
    [("F", "F"), ("Eb", "Eb"), ("C basso", "C"), ("D", "D"), ("G", "G"), ("Bb alto", "Bb")];
const PITCHES: [&str; 12] = ["C4", "Eb4", "G3", "F4", "A3", "Bb3", "D4", "E4", "G4", "F#4", "Bb4", "C5"];

/// Every plan's worth; the best of them.
fn best_of_all(request: &Request) -> f64 {
    let mut choices = vec![None; request.notes.len()];
    best_from(request, 0, &mut choices)
}

/// CrookPlayer and crook in his list, for each note.
type Choices = Vec<Option<(usize, usize)>>;

fn best_from(request: &Request, at: usize, choices: &mut Choices) -> f64 {
    if at == request.notes.len() {
        return worth(request, choices).unwrap_or(f64::MIN);
    }
    let mut best = best_from(request, at + 1, choices);
    let players = 0..request.players.len();
    for player in players.filter(|player| request.notes[at].player.is_none_or(|own| own == *player)) {
        for crook in 0..request.players[player].crooks.len() {
            choices[at] = Some((player, crook));
            best = best.max(best_from(request, at + 1, choices));
        }
    }
    choices[at] = None;
    best
}

/// What a choice is worth; `None` where it is not allowed.
fn worth(request: &Request, choices: &Choices) -> Option<f64> {
    let crook = |(player, at): (usize, usize)| request.players[player].crooks[at].crook;
    let mut total = 0.0;
    for (note, choice) in request.notes.iter().zip(choices) {
        if let Some(choice) = choice {
            total += Making::of(crook(*choice), note.sounding, &request.weights).worth * note.weight;
        }
    }
    let played_by = |is_one: &dyn Fn(usize) -> bool| {
        let mut all: Vec<_> = request
            .notes
            .iter()
            .zip(choices)
            .filter_map(|(note, choice)| choice.filter(|(player, _)| is_one(*player)).map(|own| (note, own)))
            .collect();
        all.sort_by_key(|(note, _)| note.from);
        all
    };
    for player in 0..request.players.len() {
        let mine = played_by(&|one| one == player);
        for (at, (note, own)) in mine.iter().enumerate() {
            if mine[..at].iter().any(|(before, _)| before.to > note.from) {
                return None;
            }
            if at > 0 && crook(mine[at - 1].1) != crook(*own) {
                total -= request.weights.change_cost;
            }
        }
        let pair = request.players[player].pair.filter(|_| request.together);
        let shared = played_by(&|one| one == player || (pair.is_some() && request.players[one].pair == pair));
        for at in 1..shared.len() {
            let (note, own) = shared[at];
            let silent_from = shared[..at].iter().map(|(before, _)| before.to).max()?;
            let rest = note.from - silent_from;
            if crook(shared[at - 1].1) != crook(own) && rest < request.change_time {
                return None;
            }
        }
    }
    Some(total)
}

/// The plan's own words add up: nobody plays two notes at once, crooks change in rests, the total is the sum.
fn adds_up(request: &Request, plan: &Plan) -> Result<(), TestCaseError> {
    let choices: Choices = plan
        .notes
        .iter()
        .map(|note| {
            let note = note.as_ref()?;
            let at = request.players[note.player].crooks.iter().position(|one| one.crook == note.crook)?;
            Some((note.player, at))
        })
        .collect();
    let total = worth(request, &choices);
    prop_assert!(total.is_some_and(|total| (total - plan.total).abs() < 1e-9), "{total:?} {}", plan.total);
    for stretch in &plan.stretches {
        let on_it = request.notes.iter().zip(&plan.notes).filter(|(note, played)| {
            played.is_some_and(|played| played.player == stretch.player && played.crook == stretch.crook)
                && note.from >= stretch.from
                && note.to <= stretch.to
        });
        let times: Vec<_> = on_it.map(|(note, _)| (note.from, note.to)).collect();
        prop_assert_eq!(times.iter().map(|(from, _)| *from).min(), Some(stretch.from));
        prop_assert_eq!(times.iter().map(|(_, to)| *to).max(), Some(stretch.to));
    }
    Ok(())
}

fn requests() -> impl Strategy<Value = Request> {
    let crooks = proptest::sample::subsequence(CROOKS.to_vec(), 1..=3);
    let player = (crooks, 0..5_u8, 0..4_u8);
    let note = (0..14_u8, 1..6_u8, 0..PITCHES.len(), 0..6_usize, 0..4_u8);
    let players = proptest::collection::vec(player, 1..=3);
    (players, proptest::collection::vec(note, 0..=5), 0..6_u8, any::<bool>(), 0..4_u8).prop_map(request)
}

type Drawn =
    (Vec<(Vec<(&'static str, &'static str)>, u8, u8)>, Vec<(u8, u8, usize, usize, u8)>, u8, bool, u8);

fn request((players, notes, change_time, together, cost): Drawn) -> Request {
    let quarters = |many: u8| Ticks::of_quarters(f64::from(many)).unwrap();
    let horns_only = players.iter().any(|(_, _, kind)| *kind > 0);
    let players: Vec<CrookPlayer> = players
        .into_iter()
        .map(|(crooks, pair, _)| {
            let family = if horns_only { CrookFamily::Horn } else { CrookFamily::Trumpet };
            let name = |(horn, trumpet): (&str, &str)| if horns_only { horn } else { trumpet }.to_owned();
            let crooks = crooks.into_iter().map(|names| NamedCrook::named(family, &name(names)).unwrap());
            CrookPlayer { family, crooks: crooks.collect(), pair: (pair > 1).then_some(u32::from(pair % 2)) }
        })
        .collect();
    let notes = notes
        .into_iter()
        .map(|(from, length, pitch, player, weight)| WantedNote {
            from: quarters(from),
            to: quarters(from) + quarters(length),
            sounding: Sounding(PITCHES[pitch].parse().unwrap()),
            player: Some(player).filter(|player| *player < players.len()),
            weight: f64::from(weight) / 2.0,
            any_octave: false,
        })
        .collect();
    let weights = Weights { change_cost: f64::from(cost) / 4.0, ..Weights::default() };
    Request { notes, players, change_time: quarters(change_time), together, weights }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 3000, ..ProptestConfig::default() })]

    #[test]
    fn the_best_of_all_plans_is_found(request in requests()) {
        let outcome = plan(&request).unwrap();
        let best = best_of_all(&request);
        prop_assert!(outcome.optimal);
        prop_assert!((outcome.plans[0].total - best).abs() < 1e-9, "{} is not {best}", outcome.plans[0].total);
        prop_assert!((outcome.bound - best).abs() < 1e-9);
        for (at, one) in outcome.plans.iter().enumerate() {
            adds_up(&request, one)?;
            let later = &outcome.plans[at + 1..];
            let fine = later.iter().all(|next| next.total <= one.total + 1e-9 && next.stretches != one.stretches);
            prop_assert!(fine, "plans are told twice or not in order");
            // Of equal plans that stands first which leaves less out.
            let left_out = |plan: &Plan| plan.notes.iter().filter(|note| note.is_none()).count();
            let equal = later.iter().filter(|other| (other.total - one.total).abs() < 1e-9);
            prop_assert!(equal.map(left_out).all(|others| left_out(one) <= others), "a hole stands before none");
        }
    }
}
