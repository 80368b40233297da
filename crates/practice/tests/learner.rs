//! A simulated learner with a planted weakness: the plan must find it and bring it back more often.

#![allow(clippy::print_stdout, reason = "the figures stand in the documentation of the plan")]

use crookwise_practice::record::{Attempt, Item, Reason, Record, StaffKey, plan};
use crookwise_practice::{Kind, Mistake};
use crookwise_theory::label::{DecodeOptions, decode};
use crookwise_theory::{Habits, Tonic, Written};

const DAY: u64 = 86_400;
const DAYS: u64 = 40;
const A_DAY: usize = 20;
const CROOKS: [&str; 6] =
    ["Corni in F", "Corni in Es", "Corni in D", "Corni in E", "Corni in G", "Corni in A"];
const NOTES: [&str; 7] = ["G4", "C5", "D5", "E5", "F5", "Bb4", "Eb5"];

fn staff(label: &str) -> StaffKey {
    let staff = decode(label, DecodeOptions::default()).staves.remove(0);
    StaffKey::of(&staff, Habits::of(staff.instrument.clef)).expect("a staff of the tables")
}

fn items() -> Vec<Item> {
    let note = |name: &str| Some(Written(name.parse().expect("a note")));
    let notes = |label| NOTES.map(|name| Item::about(Kind::Sounds, staff(label), note(name)));
    CROOKS.iter().flat_map(|label| notes(label)).collect()
}

/// Whole numbers that look like chance: the learner's own, not the plan's.
struct Dice(u64);

impl Dice {
    fn percent(&mut self) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % 100
    }
}

struct Run {
    record: Record,
    /// Questions about the weakness, and all.
    weak: usize,
    all: usize,
    /// The first day on which the weakness stands first.
    found: Option<u64>,
}

/// Lets a learner practise who misses `weak` two times of three with a mistake, and all else once in twenty.
fn practise(
    weak: impl Fn(&Item) -> bool,
    mistake: Mistake,
    first: impl Fn(&Record, u64) -> bool,
    seed: u32,
) -> Run {
    let items = items();
    let mut dice = Dice(u64::from(seed));
    let mut run = Run { record: Record::default(), weak: 0, all: 0, found: None };
    for day in 0..DAYS {
        let start = 20_000 * DAY + day * DAY + 18 * 3600;
        let asks = plan(&run.record, &items, start, seed + day as u32, A_DAY);
        assert_eq!(asks.len(), A_DAY);
        for (number, ask) in asks.iter().enumerate() {
            let planted = weak(&ask.item);
            let right = dice.percent() >= if planted { 67 } else { 5 };
            let ms = if dice.percent() < 80 { 2500 } else { 6000 };
            let mistakes: &[Mistake] = if planted { &[mistake] } else { &[] };
            run.record.add(1, Attempt::new(start + 10 * number as u64, ask.item, right, mistakes, ms));
            run.weak += usize::from(planted);
            run.all += 1;
        }
        if run.found.is_none() && first(&run.record, start + 3600) {
            run.found = Some(day + 1);
        }
    }
    run
}

/// How many hundredths of an even share the weakness got.
fn factor(run: &Run, share: (usize, usize)) -> usize {
    100 * run.weak * share.1 / (run.all * share.0)
}

#[test]
fn a_weak_crook_is_found_and_comes_back_more_often() {
    let a = staff("Corni in A");
    let mut factors = Vec::new();
    for seed in [1, 100, 200, 300, 400] {
        let first =
            |record: &Record, now| record.weak(now).staves.first().is_some_and(|(staff, _)| *staff == a);
        let run = practise(|item| item.staff == a, Mistake::ThirdForSixth, first, seed);
        let weak = run.record.weak(20_040 * DAY);
        assert_eq!(weak.staves[0].0, a);
        assert_eq!(weak.mistakes[0].0, Mistake::ThirdForSixth);
        factors.push((factor(&run, (1, 6)), run.found.unwrap()));
    }
    println!("weak crook: (hundredths of an even share, day found) {factors:?}");
    assert!(factors.iter().all(|(factor, day)| *factor >= 185 && *day <= 5), "{factors:?}");
}

#[test]
fn a_weak_note_is_found_on_every_crook() {
    let b_flat: Tonic = "Bb".parse().unwrap();
    let mut factors = Vec::new();
    for seed in [1, 100, 200, 300, 400] {
        let first =
            |record: &Record, now| record.weak(now).notes.first().is_some_and(|(note, _)| *note == b_flat);
        let run = practise(|item| item.note == Some(b_flat), Mistake::BForH, first, seed);
        assert_eq!(run.record.weak(20_040 * DAY).notes[0].0, b_flat);
        factors.push((factor(&run, (1, 7)), run.found.unwrap()));
    }
    println!("weak note: (hundredths of an even share, day found) {factors:?}");
    assert!(factors.iter().all(|(factor, day)| *factor >= 195 && *day <= 2), "{factors:?}");
}

#[test]
fn a_learner_without_weakness_is_asked_evenly() {
    let a = staff("Corni in A");
    let items = items();
    let mut record = Record::default();
    let mut asked = 0;
    for day in 0..DAYS {
        let start = 20_000 * DAY + day * DAY;
        for ask in plan(&record, &items, start, day as u32, A_DAY) {
            asked += usize::from(ask.item.staff == a);
            record.add(1, Attempt::new(start, ask.item, true, &[], 2500));
        }
    }
    let even = DAYS as usize * A_DAY / 6;
    assert!((even * 7 / 10..=even * 13 / 10).contains(&asked), "{asked} of {even}");
}

#[test]
fn a_plan_begins_with_what_is_due_and_goes_on_with_the_course() {
    let items = items();
    let mut record = Record::default();
    let now = 20_000 * DAY;
    let new: Vec<Item> = plan(&record, &items, now, 1, 10).iter().map(|ask| ask.item).collect();
    assert_eq!(new, items[..10]);
    // Two missed, eight known, on two days: an hour later nothing is due, on the third day the two are.
    let mut day = |at, expected: usize| {
        let asks = plan(&record, &items, at, 1, 10);
        assert_eq!(asks.len(), 10);
        let due = asks.iter().filter(|ask| ask.why == Reason::Due).map(|ask| ask.item);
        let due: Vec<Item> = due.collect();
        assert_eq!(due.len(), expected);
        for (number, item) in new.iter().enumerate().filter(|_| expected != 2) {
            record.add(1, Attempt::new(at, *item, number >= 2, &[], 2500));
        }
        due
    };
    assert_eq!(day(now, 0), []);
    assert_eq!(day(now + DAY, 10).len(), 10);
    let mut third = day(now + 2 * DAY, 2);
    third.sort_unstable();
    let mut missed = new[..2].to_vec();
    missed.sort_unstable();
    assert_eq!(third, missed);
    assert!(
        plan(&record, &items, now + 2 * DAY, 1, 10).iter().filter(|ask| ask.why == Reason::New).count() >= 3
    );
    assert_eq!(plan(&record, &items, now, 7, 10), plan(&record, &items, now, 7, 10));
}

#[test]
fn a_mistake_is_looked_for_on_other_crooks_that_invite_it() {
    // Third for sixth on A alone: E-flat, a sixth itself, is asked more often than F, a fifth.
    let items = items();
    let mut record = Record::default();
    let now = 20_000 * DAY;
    for (number, item) in items.iter().enumerate() {
        let wrong = item.staff == staff("Corni in A");
        for again in 0..4 {
            let at = now - (4 - again) * 2 * DAY + number as u64;
            record.add(1, Attempt::new(at, *item, !wrong, &[Mistake::ThirdForSixth], 2500));
        }
    }
    let mut asked = [0, 0];
    for seed in 0..200 {
        for ask in plan(&record, &items, now, seed, 12) {
            asked[0] += usize::from(ask.item.staff == staff("Corni in Es"));
            asked[1] += usize::from(ask.item.staff == staff("Corni in F"));
        }
    }
    assert!(asked[0] > 2 * asked[1], "{asked:?}");
}
