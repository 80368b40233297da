//! The demo movement engraved: every note has a head, rows that belong together share their bar lines, systems fill their width.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

mod kit;

use crookwise_opened::{Answer, Ask, Correction, DrawnRow, RowWanted, ScoreHolder, SystemRow, TogetherShown};

fn row(staves: &[u32], sounding: bool) -> RowWanted {
    RowWanted { staves: staves.to_vec(), written: true, sounding, made: true }
}

fn systems(holder: &mut ScoreHolder, rows: Vec<RowWanted>, width: u32) -> Vec<(SystemRow, DrawnRow)> {
    let Answer::Sheet(systems) = holder.answer(
        Ask::Sheet {
            rows,
            unseen: Vec::new(),
            together: TogetherShown::No,
            width,
            letters: 190,
            gathered: false,
            high: None,
        },
        Vec::new(),
        &mut |_| {},
    ) else {
        panic!()
    };
    let drawn = systems.into_iter().zip(0..).map(|(system, number)| {
        let Answer::System(drawn) = holder.answer(Ask::System(number), Vec::new(), &mut |_| {}) else {
            panic!()
        };
        (system, *drawn)
    });
    drawn.collect()
}

#[test]
fn systems_hold_every_bar_once_at_any_width() {
    let mut holder = kit::opened("").0;
    for width in [4_000, 9_000, 15_000, 30_000] {
        let all = systems(&mut holder, vec![row(&[6, 7], true), row(&[8, 9], false)], width);
        let mut next = 0;
        for (system, drawn) in &all {
            assert_eq!(system.bars.0, next);
            next = system.bars.1 + 1;
            assert_eq!(system.height, drawn.size.1);
            assert_eq!(drawn.tops.len(), 3);
            let bars: Vec<u32> = drawn.bars.iter().map(|(bar, ..)| *bar).collect();
            assert_eq!(bars, (system.bars.0..=system.bars.1).collect::<Vec<_>>());
        }
        assert_eq!(next, 82);
        // All but the last reach the right edge, within the width of a bar line.
        for (_, drawn) in all.iter().take(all.len() - 1) {
            let right = drawn.bars.iter().map(|(_, _, right)| *right).max().unwrap();
            assert!(
                (right - i32::try_from(width).unwrap()).abs() < 30 || width < 5_000,
                "{right} of {width}"
            );
        }
    }
}

#[test]
fn every_note_has_a_head_that_can_be_found() {
    let mut holder = kit::opened("").0;
    for staves in [vec![4_u32], vec![5], vec![6, 7], vec![10]] {
        let rows = vec![row(&staves, false)];
        let mut heads: Vec<u32> = systems(&mut holder, rows, 12_000)
            .into_iter()
            .flat_map(|(_, drawn)| {
                drawn.heads.into_iter().map(|(staff, note, _)| {
                    assert!(staves.contains(&staff));
                    note
                })
            })
            .collect();
        let all = heads.len();
        heads.sort_unstable();
        heads.dedup();
        assert_eq!(heads.len(), all, "no head stands twice");
        assert!(all > 20, "{staves:?}: {all}");
    }
}

/// What takes the place of what was shown moves nothing sideways: the same bars stand on the same systems, at the same places.
#[test]
fn what_has_room_though_it_is_not_shown_moves_nothing() {
    let mut holder = kit::opened("").0;
    let rows = |sounding: bool| -> Vec<RowWanted> {
        let row = |staves: &[u32]| RowWanted {
            staves: staves.to_vec(),
            written: !sounding,
            sounding,
            made: !sounding,
        };
        vec![row(&[4, 5]), row(&[6, 7]), row(&[8, 9]), row(&[10])]
    };
    let mut stands = |sounding: bool, with_room: bool| -> Vec<_> {
        let unseen = if with_room { rows(!sounding) } else { Vec::new() };
        let (rows, width) = (rows(sounding), 12_000);
        let ask = Ask::Sheet {
            rows,
            unseen,
            together: TogetherShown::No,
            width,
            letters: 190,
            gathered: true,
            high: None,
        };
        let Answer::Sheet(all) = holder.answer(ask, Vec::new(), &mut |_| {}) else { panic!() };
        let draw = |number: usize| match holder.answer(
            Ask::System(u32::try_from(number).unwrap()),
            Vec::new(),
            &mut |_| {},
        ) {
            Answer::System(drawn) => (drawn.bars, drawn.tops.len()),
            other => panic!("{other:?}"),
        };
        (0..all.len()).map(draw).collect()
    };
    assert_eq!(stands(false, true), stands(true, true));
    assert_ne!(stands(false, false), stands(true, false));
    assert!(stands(false, true).iter().all(|(_, rows)| *rows == 4), "what has room is not drawn");
}

/// Chords that are hidden have their room under the rows: when they are revealed every system, bar, onset and head of the rows
/// stands where it stood.
#[test]
fn chords_that_are_revealed_move_nothing() {
    let mut holder = kit::opened("").0;
    let rows = [row(&[4, 5], false), row(&[6, 7], false), row(&[8, 9], false), row(&[10], false)];
    for width in [6_000, 12_000] {
        let mut stands = |together: TogetherShown| -> (Vec<SystemRow>, Vec<DrawnRow>) {
            let (rows, unseen) = (rows.to_vec(), Vec::new());
            let ask = Ask::Sheet { rows, unseen, together, width, letters: 190, gathered: false, high: None };
            let Answer::Sheet(all) = holder.answer(ask, Vec::new(), &mut |_| {}) else { panic!() };
            let mut draw = |number| match holder.answer(Ask::System(number), Vec::new(), &mut |_| {}) {
                Answer::System(drawn) => *drawn,
                other => panic!("{other:?}"),
            };
            let drawn = (0..u32::try_from(all.len()).unwrap()).map(&mut draw).collect();
            (all, drawn)
        };
        let (hidden, shown) = (stands(TogetherShown::Hidden), stands(TogetherShown::Shown));
        assert_eq!(hidden.0, shown.0, "systems");
        let mut revealed = 0;
        for (one, two) in hidden.1.iter().zip(&shown.1) {
            assert_eq!((&one.bars, &one.onsets, one.size), (&two.bars, &two.onsets, two.size));
            assert_eq!((&one.tops, &one.feet), (&two.tops, &two.feet));
            assert_eq!(one.heads, two.heads[..one.heads.len()], "heads of the rows come first");
            revealed += two.heads.len() - one.heads.len();
            let (one, two) = (one.pictures.concat(), two.pictures.concat());
            assert!(!one.contains("Together") && two.contains("Together") && one.len() < two.len());
        }
        assert!(revealed > 50, "{revealed} heads of chords");
        // Without their room the long rests stay whole, and bars stand elsewhere.
        assert_ne!(stands(TogetherShown::No).0, hidden.0);
    }
}

/// Where a staff stands is known before its system is drawn: all of its notes are there, as written and as they sound, and the
/// next staff stands under it.
#[test]
fn a_system_tells_where_its_staves_stand() {
    let mut holder = kit::opened("").0;
    for width in [6_000, 15_000] {
        for (system, drawn) in
            systems(&mut holder, vec![row(&[4, 5], true), row(&[6, 7], true), row(&[10], false)], width)
        {
            let numbers: Vec<u32> = system.staves.iter().map(|(staff, ..)| *staff).collect();
            assert_eq!(numbers, [4, 5, 6, 7, 10]);
            let place = |staff: u32| system.staves.iter().find(|(own, ..)| *own == staff).unwrap();
            assert_eq!((place(4).1, place(4).2), (0, drawn.feet[1]), "with what it sounds");
            assert_eq!((place(6).1, place(6).2), (drawn.feet[1], drawn.feet[3]));
            assert_eq!((place(10).1, place(10).2), (drawn.feet[3], drawn.feet[4]));
            assert!(place(10).2 <= system.height);
            for (staff, _, (_, y)) in &drawn.heads {
                assert!((place(*staff).1..=place(*staff).2).contains(y), "{staff}: {y}");
            }
        }
    }
}

/// The harmonies stand on two staves under the rows; their heads are notes of any part.
#[test]
fn harmonies_stand_under_the_rows() {
    let mut holder = kit::opened("").0;
    let rows = vec![row(&[4, 5], false)];
    let ask = Ask::Sheet {
        rows,
        unseen: Vec::new(),
        together: TogetherShown::Shown,
        width: 15_000,
        letters: 190,
        gathered: false,
        high: None,
    };
    let Answer::Sheet(all) = holder.answer(ask, Vec::new(), &mut |_| {}) else { panic!() };
    let mut staves = Vec::new();
    for number in 0..u32::try_from(all.len()).unwrap() {
        let Answer::System(drawn) = holder.answer(Ask::System(number), Vec::new(), &mut |_| {}) else {
            panic!()
        };
        assert_eq!(drawn.tops.len(), 3);
        let under = drawn.heads.iter().filter(|(.., (_, y))| *y > drawn.tops[1] - 300);
        staves.extend(under.map(|(staff, ..)| *staff));
    }
    assert!(staves.contains(&15) && staves.contains(&0), "basses and flute are in it");
    let Answer::Harmonies(rows) = holder.answer(Ask::Harmonies, Vec::new(), &mut |_| {}) else { panic!() };
    // One after the other without a gap, each staff with each pitch once.
    for pair in rows.windows(2) {
        assert_eq!(pair[0].to, pair[1].from);
    }
    for row in &rows {
        let mut heard: Vec<_> = row.heard.iter().map(|own| (own.staff, &own.pitch)).collect();
        heard.sort();
        let all = heard.len();
        heard.dedup();
        assert_eq!(heard.len(), all);
    }
    let horn = rows.iter().flat_map(|row| &row.heard).find(|own| own.staff == 4).unwrap();
    assert!(!horn.spells && horn.made.is_some());
}

#[test]
fn what_is_not_there_is_said() {
    let mut holder = kit::opened("").0;
    assert!(matches!(holder.answer(Ask::System(0), Vec::new(), &mut |_| {}), Answer::No(_)));
    let none = systems(&mut holder, vec![row(&[99], true)], 9_000);
    assert!(none.iter().all(|(_, drawn)| drawn.heads.is_empty()));
    let ask = Ask::Sheet {
        rows: Vec::new(),
        unseen: Vec::new(),
        together: TogetherShown::No,
        width: 0,
        letters: 0,
        gathered: false,
        high: None,
    };
    assert!(matches!(holder.answer(ask, Vec::new(), &mut |_| {}), Answer::Sheet(_)));
    let Answer::Signs(signs) = holder.answer(Ask::Signs, Vec::new(), &mut |_| {}) else { panic!() };
    assert!(signs.contains("g-flag8thUp"));
}

/// A part that sounds as it is written stands once, and says so; one that does not stands twice.
#[test]
fn what_sounds_as_it_is_written_stands_once() {
    let mut holder = kit::opened("").0;
    for (staff, rows) in [(11, 1), (0, 1), (10, 1), (2, 2), (4, 2), (15, 2)] {
        let wanted = RowWanted { staves: vec![staff], written: true, sounding: true, made: false };
        let all = systems(&mut holder, vec![wanted], 15_000);
        assert!(all.iter().all(|(_, drawn)| drawn.tops.len() == rows), "staff {staff}");
        let says = all.iter().any(|(_, drawn)| drawn.pictures.concat().contains("sounds as"));
        assert_eq!(says, rows == 1, "staff {staff}");
    }
    // Asked for what sounds alone, it stands there all the same.
    let wanted = RowWanted { staves: vec![11], written: false, sounding: true, made: false };
    assert!(systems(&mut holder, vec![wanted], 15_000).iter().all(|(_, drawn)| drawn.tops.len() == 1));
}

/// The glyph of every sign and head stands in the gathered picture too, and every word.
#[test]
fn a_gathered_picture_shows_the_same() {
    let mut holder = kit::opened("").0;
    let rows = vec![row(&[4, 5], true), row(&[6, 7], true), row(&[8, 9], false)];
    let mut pictures = |gathered| -> Vec<String> {
        let ask = Ask::Sheet {
            rows: rows.clone(),
            unseen: Vec::new(),
            together: TogetherShown::Shown,
            width: 15_000,
            letters: 190,
            gathered,
            high: None,
        };
        let Answer::Sheet(all) = holder.answer(ask, Vec::new(), &mut |_| {}) else { panic!() };
        let draw = |number| match holder.answer(Ask::System(number), Vec::new(), &mut |_| {}) {
            Answer::System(drawn) => drawn.pictures.concat(),
            other => panic!("{other:?}"),
        };
        (0..u32::try_from(all.len()).unwrap()).map(draw).collect()
    };
    for (apart, gathered) in pictures(false).iter().zip(pictures(true)) {
        let elements = |svg: &str| svg.matches('<').count() - svg.matches("</").count();
        let heads = apart.matches("#g-notehead").count();
        let gathered_heads: usize = gathered
            .split("<path")
            .filter(|path| path.starts_with(r#" class="heads""#))
            .map(|path| path.matches('M').count())
            .sum();
        assert!(heads > 0 && gathered_heads == heads, "{gathered_heads} of {heads}");
        assert_eq!(gathered.matches("<text").count(), apart.matches("<text").count());
        let (few, many) = (elements(&gathered), elements(apart));
        assert!(few * 4 < many, "{few} of {many} elements");
    }
}

#[test]
fn the_first_systems_are_told_before_the_rest() {
    let mut holder = kit::opened("").0;
    let rows = || vec![row(&[6, 7], true), row(&[8, 9], false)];
    let mut ask = |ask: Ask| holder.answer(ask, Vec::new(), &mut |_| {});
    let sheet = |high| Ask::Sheet {
        rows: rows(),
        unseen: Vec::new(),
        together: TogetherShown::No,
        width: 9_000,
        letters: 190,
        gathered: false,
        high,
    };
    let Answer::Sheet(whole) = ask(sheet(None)) else { panic!() };
    // Nothing is left of a sheet that was told whole.
    assert_eq!(ask(Ask::Rest(u32::try_from(whole.len()).unwrap())), Answer::Sheet(Vec::new()));
    // Rows may be got ready before.
    assert_eq!(ask(Ask::Print(rows())), Answer::Printed);
    let high = whole[0].height + 1;
    let Answer::Sheet(first) = ask(sheet(Some(u32::try_from(high).unwrap()))) else { panic!() };
    assert_eq!(first, whole[..2]);
    // Any system can be drawn meanwhile.
    let last = u32::try_from(whole.len() - 1).unwrap();
    assert!(
        matches!(ask(Ask::System(last)), Answer::System(drawn) if drawn.size.1 == whole.last().unwrap().height)
    );
    assert_eq!(ask(Ask::Rest(2)), Answer::Sheet(whole[2..].to_vec()));
}

#[test]
fn rows_are_engraved_anew_where_they_are_corrected() {
    let mut holder = kit::opened("").0;
    let look = |holder: &mut ScoreHolder| systems(holder, vec![row(&[6], true)], 12_000);
    let before = look(&mut holder);
    let told = Correction { staff: 6, label: Some("Corni in D".into()), ..Correction::default() };
    let laid = holder.answer(Ask::Correct(Correction::write(&[told])), Vec::new(), &mut |_| {});
    assert!(matches!(laid, Answer::Score(_)));
    assert_ne!(look(&mut holder), before);
}
