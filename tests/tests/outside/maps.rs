//! The maps of real scores, held against their notes one by one.
#![allow(clippy::unwrap_used, reason = "what a test needs and does not find is its failure")]

use crate::movements::{MOVEMENTS, decoder, movement, say};
use crookwise_opened::{Answer, Ask, RoadSpot, ScoreHolder, wire};
use crookwise_score::map::MovementMap;
use crookwise_score::road::Road;
use crookwise_score::score::{Quarters, Score};
use crookwise_score::tempo::{RoadClock, Tempi};
use crookwise_tests::outside::Comparison;
use std::path::Path;
use std::time::{Duration, Instant};

/// The comparisons of this file.
pub const COMPARISONS: &[Comparison] = &crookwise_tests::comparisons![
    every_note_lies_in_a_stretch,
    loud_places_are_louder_than_soft_ones,
    the_largest_score_is_answered,
];

fn every_note_lies_in_a_stretch(folder: &str) {
    for name in MOVEMENTS {
        let score = movement(folder, name).score;
        let begun = Instant::now();
        let map = MovementMap::of(&score, &mut decoder);
        let road = Road::of(&score);
        let clock = RoadClock::of(&road, &Tempi::of(&score));
        let took = begun.elapsed();
        let stretches: usize = map.rows.iter().map(|row| row.stretches.len()).sum();
        say(&format!(
            "{name}: {stretches} stretches on {} staves, {:.0} s, drawn in {took:?} (not built for speed)",
            map.rows.len(),
            clock.seconds(road.end())
        ));
        for (row, staff) in map.rows.iter().zip(score.staves()) {
            assert_eq!(row.staff, staff.id);
            for pair in row.stretches.windows(2) {
                let rest = pair[1].from.minus(pair[0].to).unwrap();
                assert!(rest >= score.bars()[pair[0].bars.1].length, "{name}: {pair:?}");
            }
            let mut within = vec![0_usize; row.stretches.len()];
            for (_, note) in staff.notes() {
                if note.printed.is_none() || !note.is_played() || note.grace {
                    continue;
                }
                let holds = |stretch: &crookwise_score::map::PlayedStretch| {
                    stretch.from <= note.start.time && note.end.time <= stretch.to
                };
                let at: Vec<usize> = (0..within.len()).filter(|at| holds(&row.stretches[*at])).collect();
                assert_eq!(at.len(), 1, "{name}: {note:?}");
                within[at[0]] += 1;
            }
            assert!(!within.contains(&0), "{name}: a stretch without a note");
        }
        assert_eq!(map.loudness.len(), score.bars().len());
    }
}

fn bars(score: &Score, map: &MovementMap, from: &str, to: &str) -> f64 {
    let at = |number: &str| score.bars().iter().position(|bar| bar.number.as_ref() == number).unwrap();
    let own = &map.loudness[at(from)..=at(to)];
    own.iter().map(|loudness| f64::from(*loudness)).sum::<f64>() / own.len() as f64
}

/// Tutti in fortissimo beside a few players in piano, and beside the horns alone, by the print: louder by a fifth of the scale at least.
fn loud_places_are_louder_than_soft_ones(folder: &str) {
    for (name, loud, soft) in [
        ("Beethoven_Op.67_1", ("479", "482"), ("6", "12")),
        ("Beethoven_Op.67_4", ("1", "8"), ("160", "200")),
        ("Beethoven_Op.55_3", ("93", "100"), ("1", "20")),
        ("Beethoven_Op.55_3", ("93", "100"), ("172", "177")),
    ] {
        let score = movement(folder, name).score;
        let map = MovementMap::of(&score, &mut decoder);
        let (loud, soft) = (bars(&score, &map, loud.0, loud.1), bars(&score, &map, soft.0, soft.1));
        say(&format!("{name}: {loud:.0} beside {soft:.0}"));
        assert!(loud > soft + 20.0, "{name}: {loud} {soft}");
        assert!(map.next_entry(&[], Quarters::ZERO, 0).is_none());
    }
}

/// What a page asks of the largest score, and what travels.
fn the_largest_score_is_answered(folder: &str) {
    let file = std::fs::read(Path::new(folder).join("Beethoven_Op.125_4.mxl")).unwrap();
    let mut holder = ScoreHolder::default();
    let Answer::Score(summary) = holder.answer(Ask::Open(String::new()), file, &mut |_| {}) else { panic!() };
    let mut ask = |ask: Ask| {
        // Others would be answered between two pieces: what counts is the longest.
        let mut longest = Duration::ZERO;
        let bytes = loop {
            let begun = Instant::now();
            let bytes = wire::answer(&mut holder, &wire::write(&ask), Vec::new(), &mut |_| {});
            longest = longest.max(begun.elapsed());
            if let Some(bytes) = bytes {
                break bytes;
            }
        };
        (longest, bytes.len(), wire::read::<Answer>(&bytes).unwrap())
    };
    let staves: Vec<u32> = (0..36).collect();
    let window = |place: u32| Ask::Play {
        staves: staves.clone(),
        from: RoadSpot::bar(place),
        to: RoadSpot::bar(place + 4),
    };
    let (first, _, _) = ask(window(700));
    let (took, bytes, answer) = ask(window(700));
    let Answer::Play(played) = answer else { panic!() };
    say(&format!(
        "four bars of all staves: {} notes in {bytes} bytes, the first time in {first:?}, then in {took:?}",
        played.notes.len()
    ));
    assert!(played.notes.len() > 100);
    let (took, bytes, answer) = ask(Ask::Map);
    let Answer::Map(map) = answer else { panic!() };
    say(&format!("its map: {bytes} bytes in {took:?} (not built for speed)"));
    assert_eq!((map.staves.len(), map.loudness.len()), (36, summary.bars.len()));
    let (took, bytes, answer) = ask(Ask::Places);
    let Answer::Places(places) = answer else { panic!() };
    say(&format!("its {} places: {bytes} bytes in pieces of {took:?} at most", places.len()));
    assert!(!places.is_empty());
    assert_eq!(holder.answer(Ask::Places, Vec::new(), &mut |_| {}), Answer::Places(places));
    let mut other = ScoreHolder::default();
    let file = std::fs::read(Path::new(folder).join("Beethoven_Op.125_4.mxl")).unwrap();
    other.answer(Ask::Open(String::new()), file, &mut |_| {});
    let at_once = other.answer(Ask::Harmonies, Vec::new(), &mut |_| {});
    assert!(
        holder.answer(Ask::Harmonies, Vec::new(), &mut |_| {}) == at_once,
        "harmonies in pieces are others"
    );
}
