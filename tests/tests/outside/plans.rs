//! Plans of crooks beside a general-purpose solver of whole-number programmes (HiGHS, pinned), on requests too large to try
//! every plan: free notes and given ones, pairs that share and pairs that need not, dear and free changes.

#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crate::library::ask_of;
use crate::movements::say;
use crookwise_planner::{CrookPlayer, Making, NamedCrook, Request, Ticks, WantedNote, Weights, plan};
use crookwise_tests::outside::Comparison;
use crookwise_theory::{CrookFamily, Sounding};
use serde_json::{Value, json};

/// The comparisons of this file.
pub const COMPARISONS: &[Comparison] = &crookwise_tests::comparisons![the_solver_finds_no_better_plan];

const VERSION: &str = "1.16.0";
const PITCHES: [&str; 14] =
    ["C4", "Eb4", "G3", "F4", "A3", "Bb3", "D4", "E4", "G4", "F#4", "Bb4", "C5", "Ab3", "B3"];
const CROOKS: [&str; 4] = ["F", "Eb", "C basso", "Bb alto"];

/// Numbers that look thrown, always the same.
struct Dice(u64);

impl Dice {
    fn below(&mut self, many: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % many
    }
}

fn quarters(many: usize) -> Ticks {
    Ticks::of_quarters(many as f64).unwrap()
}

fn request(dice: &mut Dice, number: usize) -> Request {
    let (is_free, together) = (number.is_multiple_of(3), number.is_multiple_of(2));
    let horn = |pair| CrookPlayer {
        family: CrookFamily::Horn,
        crooks: CROOKS[..3 + number % 2]
            .iter()
            .map(|name| NamedCrook::named(CrookFamily::Horn, name).unwrap())
            .collect(),
        pair,
    };
    let players = match number % 4 {
        0 => vec![horn(Some(1)), horn(Some(1))],
        1 => vec![horn(None)],
        2 => vec![horn(Some(1)), horn(Some(1)), horn(None)],
        _ => vec![horn(Some(2)), horn(Some(2))],
    };
    let notes = (0..16).map(|_| {
        let from = quarters(dice.below(40));
        let own = (!is_free).then(|| dice.below(players.len()));
        WantedNote {
            from,
            to: from + quarters(1 + dice.below(4)),
            sounding: Sounding(PITCHES[dice.below(PITCHES.len())].parse().unwrap()),
            player: own.filter(|_| dice.below(8) > 0),
            weight: (1 + dice.below(4)) as f64 / 2.0,
            any_octave: false,
        }
    });
    Request {
        notes: notes.collect(),
        change_time: quarters(dice.below(7)),
        together,
        weights: Weights { change_cost: dice.below(4) as f64 / 4.0, ..Weights::default() },
        players,
    }
}

/// The request in plain numbers: what each note is worth on each crook, who shares.
fn told(request: &Request) -> Value {
    let gains = |note: &WantedNote| {
        let crooks = CROOKS.map(|name| NamedCrook::named(CrookFamily::Horn, name).unwrap().crook);
        crooks.map(|crook| Making::of(crook, note.sounding, &request.weights).worth * note.weight)
    };
    let notes = request.notes.iter().map(|note| {
        json!({ "from": note.from.quarters(), "to": note.to.quarters(), "player": note.player, "gains": gains(note) })
    });
    let players = request.players.iter().enumerate().map(|(at, player)| {
        let team = player.pair.filter(|_| request.together).map_or(100 + at, |pair| pair as usize);
        json!({ "team": team, "crooks": (0..player.crooks.len()).collect::<Vec<_>>() })
    });
    json!({
        "notes": notes.collect::<Vec<_>>(),
        "players": players.collect::<Vec<_>>(),
        "changeTime": request.change_time.quarters(),
        "changeCost": request.weights.change_cost,
    })
}

fn the_solver_finds_no_better_plan(python: &str) {
    let mut dice = Dice(11);
    let requests: Vec<Request> = (0..16).map(|number| request(&mut dice, number)).collect();
    let questions = json!({ "requests": requests.iter().map(told).collect::<Vec<_>>() });
    let answers = ask_of(VERSION, python, "plans.py", &questions);
    let mut proved = 0;
    for (number, (request, best)) in requests.iter().zip(answers["best"].as_array().unwrap()).enumerate() {
        let (outcome, best) = (plan(request).unwrap(), best.as_f64().unwrap());
        let total = outcome.plans[0].total;
        assert!(
            total <= best + 1e-6 && best <= outcome.bound + 1e-6,
            "{number}: {total} {best} {}",
            outcome.bound
        );
        if outcome.optimal {
            proved += 1;
            assert!((total - best).abs() < 1e-6, "{number}: {total} is not {best}");
        }
    }
    say(&format!("{proved} of {} plans proved the best, and the solver agrees", requests.len()));
    assert_eq!(proved, requests.len());
}
