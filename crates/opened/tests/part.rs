//! A part of the demo movement for paper: whole, some bars of it, and both ways under each other.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

mod kit;

use crookwise_opened::{Answer, Ask, PartRows, RowWanted, ScoreHolder, TogetherShown};

fn wanted(staves: &[u32], written: bool, sounding: bool) -> RowWanted {
    RowWanted { staves: staves.to_vec(), written, sounding, made: written && sounding }
}

fn part(holder: &mut ScoreHolder, row: RowWanted, bars: (u32, u32)) -> PartRows {
    let ask = Ask::Part { row, bars, width: 10_400, letters: 170 };
    match holder.answer(ask, Vec::new(), &mut |_| {}) {
        Answer::Part(rows) => rows,
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_whole_part_has_every_bar_once_and_its_label_nowhere() {
    let mut holder = kit::opened("").0;
    for (row, most) in [(wanted(&[6, 7], true, false), 16), (wanted(&[4], true, true), 30)] {
        let part = part(&mut holder, row, (0, u32::MAX));
        assert_eq!(part.crook, None);
        assert!(part.systems.len() > 4 && part.systems.len() < most, "{}", part.systems.len());
        let mut next = 0;
        for system in &part.systems {
            assert_eq!(system.bars.0, next);
            next = system.bars.1 + 1;
            assert!(!system.svg.contains("Corno I"), "the name stands at the head of the page");
            assert_eq!(system.size.0, 10_400);
        }
        assert_eq!(next, 82);
        assert!(part.systems.iter().any(|system| system.rests), "there is time to turn");
        assert!(part.systems.iter().any(|system| !system.rests));
    }
}

#[test]
fn only_the_first_system_says_which_row_is_which() {
    let mut holder = kit::opened("").0;
    let systems = part(&mut holder, wanted(&[4], true, true), (0, u32::MAX)).systems;
    let says = |text: &str| systems.iter().map(|one| one.svg.contains(text)).collect::<Vec<_>>();
    for text in ["as written", "as it sounds"] {
        let said = says(text);
        assert!(said[0] && !said[1..].contains(&true), "{text}: {said:?}");
    }
    let alone = part(&mut holder, wanted(&[4], true, false), (0, u32::MAX)).systems;
    assert!(alone.iter().all(|one| !one.svg.contains("as written")));
}

/// The third horn changes from F to G in bar 13: a page from bar 30 on must say so, and its time.
#[test]
fn some_bars_stand_by_themselves() {
    let mut holder = kit::opened("").0;
    let rows = part(&mut holder, wanted(&[6, 7], true, false), (30, 45));
    assert_eq!(rows.systems.first().unwrap().bars.0, 30);
    assert_eq!(rows.systems.last().unwrap().bars.1, 45);
    assert!(rows.crook.as_deref().is_some_and(|crook| crook.contains("in G")), "{:?}", rows.crook);
    assert!(rows.systems[0].svg.contains("g-timeSig6"), "the time that holds there");
    let sounding = part(&mut holder, wanted(&[6, 7], false, true), (30, 45));
    assert_eq!(sounding.crook, None, "no crook for who reads what sounds");
    let from_the_change = part(&mut holder, wanted(&[6, 7], true, false), (12, 20));
    assert_eq!(from_the_change.crook, None, "it stands over the staff");
    // Without the words before it the change itself says so.
    let right_there = part(&mut holder, wanted(&[6, 7], true, false), (13, 20));
    assert!(right_there.crook.is_some() || right_there.systems[0].svg.contains("muta in G"));
}

/// The demo has the words in the rest before the change, as parts do.
#[test]
fn a_change_of_crook_is_told_once() {
    let mut holder = kit::opened("").0;
    for staves in [vec![6_u32], vec![6, 7]] {
        let systems = part(&mut holder, wanted(&staves, true, false), (0, 30)).systems;
        let told: usize = systems.iter().map(|one| one.svg.matches(">muta in G<").count()).sum();
        assert_eq!(told, 1, "{staves:?}");
    }
}

/// A row that stands alone has dynamics, whichever pitch it shows; crooks belong to the written one.
#[test]
fn what_sounds_alone_has_its_dynamics() {
    let mut holder = kit::opened("").0;
    let written = part(&mut holder, wanted(&[4], true, false), (0, u32::MAX)).systems;
    let sounding = part(&mut holder, wanted(&[4], false, true), (0, u32::MAX)).systems;
    let dynamics = |all: &[crookwise_opened::PartSystemRow]| -> usize {
        all.iter().map(|one| one.svg.matches("g-dynamic").count()).sum()
    };
    assert!(dynamics(&written) > 3);
    assert_eq!(dynamics(&written), dynamics(&sounding));
}

#[test]
fn the_sheet_on_the_screen_stays_and_what_is_not_there_is_said() {
    let mut holder = kit::opened("").0;
    let rows = vec![wanted(&[4], true, false)];
    let ask = Ask::Sheet {
        rows,
        unseen: Vec::new(),
        together: TogetherShown::No,
        width: 9_000,
        letters: 190,
        gathered: false,
        high: None,
    };
    holder.answer(ask, Vec::new(), &mut |_| {});
    let before = holder.answer(Ask::System(1), Vec::new(), &mut |_| {});
    part(&mut holder, wanted(&[10], true, false), (0, u32::MAX));
    assert_eq!(holder.answer(Ask::System(1), Vec::new(), &mut |_| {}), before);
    for (staves, bars) in [(vec![99], (0, 9)), (vec![], (0, 9)), (vec![4], (90, 99)), (vec![4], (9, 3))] {
        let ask = Ask::Part { row: wanted(&staves, true, false), bars, width: 0, letters: 0 };
        assert!(matches!(holder.answer(ask, Vec::new(), &mut |_| {}), Answer::No(_)), "{staves:?} {bars:?}");
    }
}
