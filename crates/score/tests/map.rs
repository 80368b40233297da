//! The map of a small movement, drawn by hand.

#![allow(clippy::unwrap_used, reason = "a test may panic, its helpers too")]

use crookwise_score::map::{MovementMap, NextEntry};
use crookwise_score::score::{
    Direction, Look, Moment, PlayedBy, Quarters, ScoreNote, StaffId, TimedChange, TimedDirection,
};
use crookwise_score::{ChangeTo, Score};
use crookwise_theory::Printed;
use crookwise_theory::label::{DecodeOptions, Decoded, decode};
use std::sync::Arc;

fn decoder(text: &str) -> Arc<Decoded> {
    Arc::new(decode(text, DecodeOptions::default()))
}

fn whole(quarters: i32) -> Quarters {
    Quarters::whole(quarters)
}

/// Bars of four quarters, and staves with notes from when to when.
fn score(bars: usize, staves: &[(&str, &[(i32, i32)])]) -> (Score, Vec<StaffId>) {
    let mut score = Score::default();
    for bar in 0..bars {
        score.add_bar(&(bar + 1).to_string(), whole(4), None).unwrap();
    }
    let mut ids = Vec::new();
    for (label, notes) in staves {
        let part = score.add_part(label);
        let staff = score.add_staff(part, label, 1).unwrap();
        ids.push(staff);
        for (from, to) in *notes {
            let note = ScoreNote {
                printed: Some(Printed("C5".parse().unwrap())),
                voice: 1,
                by: PlayedBy::Voice,
                start: Moment::measured(whole(*from)),
                end: Moment::measured(whole(*to)),
                tied: false,
                grace: false,
                tuplet: None,
                bar: u32::try_from(from / 4).unwrap(),
                look: Look::default(),
            };
            score.add_note(staff, note).unwrap();
        }
    }
    (score, ids)
}

#[test]
fn rests_of_a_bar_cut_and_shorter_ones_do_not() {
    // From the second bar; a rest of three quarters within; four bars of rest; then across two bars to the end of one.
    let (score, ids) = score(12, &[("Horn in F", &[(4, 5), (8, 12), (29, 36), (40, 44)])]);
    let map = MovementMap::of(&score, &mut decoder);
    let shown: Vec<_> = map.rows[0]
        .stretches
        .iter()
        .map(|stretch| ((stretch.from, stretch.to), stretch.bars, stretch.rest))
        .collect();
    assert_eq!(
        shown,
        [
            ((whole(4), whole(12)), (1, 2), 1),
            ((whole(29), whole(36)), (7, 8), 4),
            // A rest of a bar's length cuts.
            ((whole(40), whole(44)), (10, 10), 1),
        ]
    );
    let of = |entry: Option<NextEntry>| entry.map(|entry| entry.stretch.from);
    assert_eq!(of(map.next_entry(&ids, whole(0), 0)), Some(whole(4)));
    assert_eq!(of(map.next_entry(&ids, whole(4), 0)), Some(whole(29)));
    assert_eq!(of(map.next_entry(&ids, whole(0), 2)), Some(whole(29)));
    assert_eq!(of(map.next_entry(&ids, whole(29), 2)), None);
    assert_eq!(of(map.next_entry(&[], whole(0), 0)), None);
}

#[test]
fn of_several_staves_the_earliest_enters_next() {
    let (score, ids) =
        score(8, &[("Horn in F", &[(8, 12), (28, 30)]), ("Trumpet in D", &[(8, 9), (20, 24)])]);
    let map = MovementMap::of(&score, &mut decoder);
    let next = |staves: &[StaffId], after: i32| map.next_entry(staves, whole(after), 0).unwrap().staff;
    assert_eq!(next(&ids, 0), ids[0]);
    assert_eq!(next(&ids, 8), ids[1]);
    assert_eq!(next(&ids[..1], 8), ids[0]);
}

#[test]
fn a_bar_is_as_loud_as_its_signs_and_its_players() {
    let all = [(0, 4), (4, 8), (12, 16)];
    let (mut score, ids) =
        score(5, &[("Horn in F", &all), ("Oboe", &[(4, 8)]), ("Viola", &[(4, 8)]), ("Flute", &[(4, 8)])]);
    let mut sign = |at: i32, name: &str, staff: StaffId| {
        let at = Moment::measured(whole(at));
        let direction = Direction::Dynamic(name.into());
        score.staff_mut(staff).unwrap().directions.push(TimedDirection { at, direction });
    };
    sign(0, "p", ids[0]);
    for staff in &ids {
        sign(4, "ff", *staff);
    }
    sign(12, "ppp", ids[0]);
    let map = MovementMap::of(&score, &mut decoder);
    // One of four plays piano: 65 · 48 / 127 + 35 · ½; all play fortissimo: 65 · 106 / 127 + 35; a rest; one pianissimo; a rest.
    assert_eq!(map.loudness, [42, 89, 0, 30, 0]);
}

#[test]
fn changes_of_crook_have_their_bars_and_names() {
    let (mut score, ids) = score(8, &[("Corno in F", &[(0, 4)])]);
    for (at, label) in [(8, "in Es"), (16, "?")] {
        let at = Moment::measured(whole(at));
        score.change(ids[0], TimedChange { at, player: None, to: ChangeTo::Label(label.into()) }).unwrap();
    }
    let map = MovementMap::of(&score, &mut decoder);
    let shown: Vec<_> =
        map.rows[0].crooks.iter().map(|one| (one.bar, one.label.as_str(), one.name.as_deref())).collect();
    assert_eq!(shown[0], (2, "in Es", Some("Horn in E-flat")));
    assert_eq!((shown[1].0, shown[1].1), (4, "?"));
    assert_eq!(MovementMap::of(&Score::default(), &mut decoder), MovementMap::default());
}
