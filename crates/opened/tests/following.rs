//! The demo movement followed: its map, its road, and what is played of it.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

mod kit;

use crookwise_opened::{
    Answer, Ask, Correction, MovementRows, PlaceSort, PlayedRows, RoadSpot, RowWanted, ScoreHolder, SoundRow,
    Summary, TempoFrom, TogetherShown, wire,
};
use crookwise_score::performance::PlayedSound;
use crookwise_theory::Pitch;

use kit::opened;

/// An answer as it travels, asked for until it is there.
fn ask(holder: &mut ScoreHolder, ask: &Ask) -> Answer {
    let ask = wire::write(ask);
    let mut answers = core::iter::repeat_with(|| wire::answer(holder, &ask, Vec::new(), &mut |_| {}));
    wire::read(&answers.find_map(|answer| answer).unwrap()).unwrap()
}

fn map(holder: &mut ScoreHolder) -> MovementRows {
    let Answer::Map(map) = ask(holder, &Ask::Map) else { panic!() };
    *map
}

fn play(holder: &mut ScoreHolder, staves: &[u32], places: (u32, u32)) -> PlayedRows {
    let (from, to) = (RoadSpot::bar(places.0), RoadSpot::bar(places.1));
    match ask(holder, &Ask::Play { staves: staves.to_vec(), from, to }) {
        Answer::Play(played) => played,
        other => panic!("{other:?}"),
    }
}

/// The number of a staff by its label.
fn staff(summary: &Summary, label: &str) -> u32 {
    let mut all = summary.parts.iter().flat_map(|part| &part.staves);
    all.find(|staff| staff.label == label).unwrap().staff
}

#[test]
fn the_map_shows_the_road_the_tempi_and_every_staff() {
    let (mut holder, summary) = opened("");
    let map = map(&mut holder);
    let number = |bar: u32| summary.bars[bar as usize].as_str();
    assert_eq!((map.loudness.len(), map.lengths.len()), (summary.bars.len(), summary.bars.len()));
    // A repeat from bar 13 with its endings at 20 and 21, by the text of the demo.
    let legs: Vec<_> =
        map.legs.iter().map(|leg| (number(leg.bars.0), number(leg.bars.1), leg.pass)).collect();
    assert_eq!(legs, [("0", "20", 1), ("13", "19", 2), ("21", "81", 1)]);
    assert_eq!(map.faults, []);
    assert_eq!(map.begins.len(), summary.bars.len() + 7 + 1);
    assert!(map.begins.is_sorted_by(|one, other| one < other));
    // An upbeat of a quarter of 54 a minute and a bar of four; later two dotted quarters of 100.
    assert_eq!((map.begins[1], map.begins[2]), (1_111_111, 5_555_556));
    assert_eq!(map.begins[14] - map.begins[13], 1_200_000);
    let tempi: Vec<_> =
        map.tempi.iter().map(|row| (number(row.from.bar), row.tempo, row.source.clone())).collect();
    assert_eq!(tempi[..2], [("0", 54_000, TempoFrom::Told), ("13", 150_000, TempoFrom::Told)]);
    // Where quarter notes take another time within a bar, in the course of the road and within their bar.
    assert!(map.turns.is_sorted_by_key(|turn| turn.at) && !map.turns.is_empty());
    for turn in &map.turns {
        let place = usize::try_from(turn.spot.place).unwrap();
        assert!(map.begins[place] < turn.at && turn.at < map.begins[place + 1], "{turn:?}");
        assert!(turn.spot.quarters.0 > 0);
    }
    // Every staff with its instrument; horns and trumpets change their crooks.
    assert_eq!(map.staves.len(), summary.parts.iter().map(|part| part.staves.len()).sum::<usize>());
    assert!(map.staves.iter().all(|staff| staff.instrument.is_some() && !staff.stretches.is_empty()));
    let horn = &map.staves[usize::try_from(staff(&summary, "Corno III in F")).unwrap()];
    assert!(horn.stands_out && horn.instrument.as_deref() == Some("horn"));
    assert_eq!(number(horn.crooks[0].bar), "13");
    assert_eq!(horn.crooks[0].name.as_deref(), Some("Horn in G"));
    let Answer::Places(places) = ask(&mut holder, &Ask::Places) else { panic!() };
    assert!(places.iter().any(|place| place.kind == PlaceSort::Solo));
    assert!(places.iter().all(|place| place.bars.0 <= place.bars.1 && !place.staves.is_empty()));
}

#[test]
fn a_stretch_is_played_and_played_again_the_same() {
    let (mut holder, summary) = opened("");
    let all: Vec<u32> = (0..u32::try_from(summary.parts.iter().map(|part| part.staves.len()).sum::<usize>())
        .unwrap())
        .collect();
    let horn = staff(&summary, "Corno I in D");
    let rows = map(&mut holder);
    let road = u32::try_from(rows.begins.len()).unwrap() - 1;
    let whole = play(&mut holder, &all, (0, road));
    assert_eq!(whole.length, *rows.begins.last().unwrap());
    assert!(whole.notes.len() > 2000 && whole.notes.iter().all(|note| !note.held), "{}", whole.notes.len());
    assert!(whole.notes.is_sorted_by_key(|note| note.onset));
    // Bar by bar it is the same.
    let mut count = 0;
    for place in 0..road {
        let own = play(&mut holder, &all, (place, place + 1));
        count += own.notes.iter().filter(|note| !note.held).count();
        assert!(own.notes.iter().all(|note| note.onset < own.length));
    }
    assert_eq!(count, whole.notes.len());
    // The horn sounds what its crook makes of it, and says its partials; the drums are told apart.
    let horns = play(&mut holder, &[horn], (0, road));
    assert!(!horns.notes.is_empty() && horns.notes.iter().all(|note| note.staff == horn));
    for note in &horns.notes {
        let SoundRow::Pitched(_, Some(natural), false) = note.sound else { panic!("{note:?}") };
        assert!(natural.is_horn);
        assert_eq!(Pitch::from(natural.crook).to_string(), "D3");
        assert_eq!(SoundRow::from(PlayedSound::from(note.sound)), note.sound);
    }
    assert_eq!(play(&mut holder, &[horn], (3, 9)), play(&mut holder, &[horn], (3, 9)));
    assert!(whole.notes.iter().any(|note| matches!(note.sound, SoundRow::Drum(_))));
    assert!(whole.notes.iter().any(|note| note.stroke));
}

#[test]
fn a_start_within_a_bar_and_a_correction_are_heard() {
    let (mut holder, summary) = opened("");
    let horn = staff(&summary, "Corno I in D");
    let rows = map(&mut holder);
    let road = u32::try_from(rows.begins.len()).unwrap() - 1;
    let from = RoadSpot { place: 0, quarters: (3, 2) };
    let Answer::Play(late) =
        ask(&mut holder, &Ask::Play { staves: vec![horn], from, to: RoadSpot::bar(road) })
    else {
        panic!()
    };
    // A quarter and a half of 54 a minute are gone.
    assert_eq!(late.length, rows.begins[road as usize] - 1_666_667);
    let pitches = |played: &PlayedRows| -> Vec<i32> {
        let semitones = |sound: SoundRow| match sound {
            SoundRow::Pitched(pitch, ..) => Pitch::from(pitch).semitones(),
            _ => panic!(),
        };
        played.notes.iter().map(|note| semitones(note.sound)).collect()
    };
    let before = pitches(&play(&mut holder, &[horn], (0, 6)));
    let correction = Correction { staff: horn, label: Some("Corno I in Es".into()), ..Correction::default() };
    assert!(matches!(ask(&mut holder, &Ask::Correct(Correction::write(&[correction]))), Answer::Score(_)));
    let after = pitches(&play(&mut holder, &[horn], (0, 6)));
    assert!(!before.is_empty());
    assert_eq!(before.iter().map(|pitch| pitch + 1).collect::<Vec<_>>(), after);
}

#[test]
fn what_is_not_there_is_said() {
    let (mut holder, _) = opened("");
    let bar = RoadSpot::bar;
    let spot = |quarters| RoadSpot { place: 0, quarters };
    for (staves, from, to) in [
        (vec![999], bar(0), bar(1)),
        (vec![0], bar(1), bar(1)),
        (vec![0], bar(2), bar(1)),
        (vec![0], bar(0), bar(99_999)),
        (vec![0], spot((1, 0)), bar(1)),
        (vec![0], spot((-1, 1)), bar(1)),
        (vec![0], spot((i64::MAX, 1)), bar(1)),
    ] {
        assert!(
            matches!(ask(&mut holder, &Ask::Play { staves, from, to }), Answer::No(_)),
            "{from:?} {to:?}"
        );
    }
    assert!(matches!(ask(&mut ScoreHolder::default(), &Ask::Map), Answer::No(_)));
}

/// The questions whose answers take long in a large score.
fn long_ones() -> [Ask; 3] {
    let row = RowWanted { staves: vec![0], written: true, sounding: false, made: false };
    let sheet = Ask::Sheet {
        rows: vec![row],
        unseen: Vec::new(),
        together: TogetherShown::Shown,
        width: 12_000,
        letters: 200,
        gathered: false,
        high: None,
    };
    [Ask::Places, Ask::Harmonies, sheet]
}

#[test]
fn long_answers_are_worked_on_in_pieces_and_others_are_given_between() {
    for long in long_ones() {
        let (mut at_once, summary) = opened("");
        let (mut in_pieces, _) = opened("");
        let whole = at_once.answer(long.clone(), Vec::new(), &mut |_| {});
        let heard = play(&mut at_once, &[0], (0, 4));
        let mut pieces = 0;
        let answer = loop {
            if let Some(answer) = in_pieces.answer_in_pieces(long.clone(), Vec::new(), &mut |_| {}) {
                break answer;
            }
            pieces += 1;
            assert_eq!(play(&mut in_pieces, &[0], (0, 4)), heard);
        };
        assert_eq!(answer, whole);
        assert!(pieces > 2, "{pieces} pieces of {} bars", summary.bars.len());
    }
}

#[test]
fn what_is_corrected_while_it_is_worked_on_counts_from_then_on() {
    let (mut holder, summary) = opened("");
    let horn = staff(&summary, "Corno I in D");
    let label = Correction { staff: horn, label: Some("Corno I in E".to_owned()), ..Correction::default() };
    let corrected = Ask::Correct(Correction::write(&[label]));
    let (mut other, _) = opened("");
    other.answer(corrected.clone(), Vec::new(), &mut |_| {});
    for _ in 0..2 {
        assert_eq!(holder.answer_in_pieces(Ask::Harmonies, Vec::new(), &mut |_| {}), None);
    }
    holder.answer(corrected, Vec::new(), &mut |_| {});
    assert_eq!(ask(&mut holder, &Ask::Harmonies), ask(&mut other, &Ask::Harmonies));
    assert_ne!(ask(&mut holder, &Ask::Harmonies), ask(&mut opened("").0, &Ask::Harmonies));
}
