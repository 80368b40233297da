//! A search that pauses finds what one finds that goes through at once, and may be asked at any time.

#![allow(clippy::unwrap_used, missing_docs, reason = "a test may fail loudly")]

use crookwise_planner::key_plan::{KeyStretch, wanted};
use crookwise_planner::{
    CrookPlayer, MOST_NOTES, NamedCrook, PlanSearch, Request, RequestError, Ticks, Weights, plan,
};
use crookwise_theory::CrookFamily;

fn request(keys: &[(&str, u32)], players: u32) -> Request {
    let horn = |player: u32| CrookPlayer {
        family: CrookFamily::Horn,
        crooks: NamedCrook::all(CrookFamily::Horn),
        pair: Some(player / 2),
    };
    let stretches: Vec<_> =
        keys.iter().map(|(key, bars)| KeyStretch { key: key.parse().unwrap(), bars: *bars }).collect();
    Request {
        notes: wanted(&stretches, 0),
        players: (0..players).map(horn).collect(),
        change_time: Ticks::of_fraction(40, 1).unwrap(),
        together: true,
        weights: Weights::default(),
    }
}

#[test]
fn pauses_change_nothing() {
    let request = request(&[("G minor", 12), ("Bb major", 12)], 4);
    let whole = plan(&request).unwrap();
    for steps in [1, 7, 1_000] {
        let mut search = PlanSearch::of(request.clone()).unwrap();
        let (mut last, mut bound) = (0.0, f64::MAX);
        let mut rounds = 0;
        while !search.go_on(steps) {
            rounds += 1;
            if rounds % 97 == 0 {
                let now = search.outcome();
                let total = now.plans[0].total;
                assert!(total >= last && now.bound <= bound + 1e-6 && total <= now.bound + 1e-6);
                (last, bound) = (total, now.bound);
            }
        }
        assert!(search.has_best() && search.go_on(1));
        assert_eq!(search.outcome(), whole, "{steps}");
    }
}

#[test]
fn nothing_is_asked_of_one_who_was_not_asked_to_go_on() {
    let search = PlanSearch::of(request(&[("D minor", 8)], 2)).unwrap();
    let outcome = search.outcome();
    assert_eq!((outcome.plans[0].total, outcome.optimal, search.has_best()), (0.0, false, false));
    assert!(outcome.bound >= plan(search.request()).unwrap().plans[0].total);
}

/// Ten thousand bars: more than are planned say so, and what is planned pauses.
#[test]
fn ten_thousand_bars_are_begun_or_refused() {
    let most = MOST_NOTES as u32 / 3;
    let too_many = request(&[("G minor", most + 1)], 4);
    assert_eq!(PlanSearch::of(too_many).err(), Some(RequestError::TooManyNotes(MOST_NOTES + 3)));
    let mut search = PlanSearch::of(request(&[("G minor", 10_000)], 4)).unwrap();
    for _ in 0..20 {
        assert!(!search.go_on(2_000));
    }
    assert!(search.outcome().bound > 0.0);
}

#[test]
fn far_more_bars_than_are_planned_cost_nothing() {
    assert!(
        wanted(&[KeyStretch { key: "C major".parse().unwrap(), bars: u32::MAX }], 0).len() < MOST_NOTES + 4
    );
}
