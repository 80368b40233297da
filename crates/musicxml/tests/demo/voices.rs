//! Voice leading and ranges.

use crate::{decoder, repaired, staff};
use crookwise_score::score::{Quarters, Score};
use crookwise_theory::Pitch;

/// Who has the tune, by bars.
const TUNE: [(usize, usize, &str); 13] = [
    (0, 4, "Violino I"),
    (5, 8, "Corno I in D"),
    (9, 21, "Violino I"),
    (22, 23, "2 Oboi"),
    (24, 25, "Flauto"),
    (26, 37, "Violino I"),
    (40, 49, "Corno III in F"),
    (50, 51, "2 Oboi"),
    (52, 73, "Violino I"),
    (73, 74, "Corno I in D"),
    (75, 76, "Tromba I in D"),
    (77, 78, "Corno I in D"),
    (79, 81, "Violino I"),
];

/// What a staff sounds in these bars: when it begins and ends, its height; of several at once the highest.
fn line(score: &Score, name: &str, bars: (usize, usize)) -> Vec<(Quarters, Quarters, i32)> {
    let id = staff(score, name).id;
    let mut all: Vec<(Quarters, Quarters, i32)> = Vec::new();
    let sounded = score.sounded(&mut decoder);
    for note in sounded.iter().filter(|note| note.staff == id && !note.note.grace) {
        let bar = score.bar_at(note.note.start.time);
        if bar < bars.0 || bar > bars.1 {
            continue;
        }
        let (start, end) = note.span();
        match all.last_mut().filter(|last| last.0 == start) {
            Some(last) => last.2 = last.2.max(note.pitch.semitones()),
            None => all.push((start, end, note.pitch.semitones())),
        }
    }
    // Rests of less than a quarter note are the player's breath: what stood before them is heard on.
    for at in 1..all.len() {
        let (before, after) = (all[at - 1].1, all[at].0);
        if after.minus(before).is_some_and(|rest| rest < Quarters::whole(1)) {
            all[at - 1].1 = after;
        }
    }
    all
}

/// Pairs of heights one after the other in which both voices moved the same way, from a fifth to a fifth or an octave to an
/// octave: when.
fn parallels(upper: &[(Quarters, Quarters, i32)], lower: &[(Quarters, Quarters, i32)]) -> Vec<Quarters> {
    let at = |line: &[(Quarters, Quarters, i32)], time: Quarters| {
        line.iter().find(|note| note.0 <= time && time < note.1).map(|note| note.2)
    };
    let mut times: Vec<Quarters> = upper.iter().chain(lower).map(|note| note.0).collect();
    times.sort_unstable();
    times.dedup();
    let mut found = Vec::new();
    let mut before: Option<(i32, i32)> = None;
    for time in times {
        let now = at(upper, time).zip(at(lower, time));
        if let (Some(before), Some(now)) = (before, now) {
            let same_way = (now.0 - before.0) * (now.1 - before.1) > 0;
            let perfect = (now.0 - now.1).rem_euclid(12);
            if same_way && matches!(perfect, 0 | 7) && perfect == (before.0 - before.1).rem_euclid(12) {
                found.push(time);
            }
        }
        before = now;
    }
    found
}

#[test]
fn the_outer_voices_have_no_parallel_fifths_or_octaves() {
    let score = repaired();
    let tune: Vec<_> = TUNE.iter().flat_map(|(from, to, name)| line(&score, name, (*from, *to))).collect();
    let bass = line(&score, "Contrabbasso", (0, 81));
    assert!(tune.len() > 250 && bass.len() > 150, "{} and {}", tune.len(), bass.len());
    let bars: Vec<usize> = parallels(&tune, &bass).into_iter().map(|time| score.bar_at(time)).collect();
    assert_eq!(bars, []);
}

#[test]
fn the_strings_move_against_one_another() {
    let score = repaired();
    let strings = ["Violino I", "Violino II", "Viola", "Contrabbasso"];
    for (at, upper) in strings.iter().enumerate() {
        for lower in &strings[at + 1..] {
            let found = parallels(&line(&score, upper, (0, 81)), &line(&score, lower, (0, 81)));
            let bars: Vec<usize> = found.into_iter().map(|time| score.bar_at(time)).collect();
            // The second violins double the first an octave lower in the last refrain.
            let doubled = (*upper, *lower) == ("Violino I", "Violino II");
            assert!(bars.iter().all(|bar| doubled && (62..=70).contains(bar)), "{upper}, {lower}: {bars:?}");
        }
    }
}

/// A check that cannot fail is none: it hears parallels where there are some.
#[test]
fn parallels_are_heard() {
    let line = |heights: &[i32]| -> Vec<(Quarters, Quarters, i32)> {
        (0..)
            .zip(heights)
            .map(|(at, height)| (Quarters::whole(at), Quarters::whole(at + 1), *height))
            .collect()
    };
    assert_eq!(parallels(&line(&[67, 69]), &line(&[48, 50])), [Quarters::whole(1)]);
    assert_eq!(parallels(&line(&[60, 62, 62]), &line(&[48, 50, 43])), [Quarters::whole(1)]);
    assert_eq!(parallels(&line(&[67, 69]), &line(&[48, 38])), []);
}

#[test]
fn every_instrument_keeps_its_range() {
    let score = repaired();
    let sounded = score.sounded(&mut decoder);
    let mut checked = 0;
    for part in score.parts() {
        let staff = &part.staves[0];
        let own: Vec<Pitch> =
            sounded.iter().filter(|note| note.staff == staff.id).map(|note| note.written.0).collect();
        let lowest = own.iter().map(|pitch| pitch.semitones()).min().unwrap();
        let highest = own.iter().map(|pitch| pitch.semitones()).max().unwrap();
        let instrument = decoder(&staff.label).staves[0].instrument;
        // Horns and trumpets are held against their series; drums are two.
        let Some((low, high)) = instrument.range.split_once('–') else { continue };
        if instrument.is_crooked() {
            continue;
        }
        let first = |text: &str| -> i32 {
            let text = text.split(['/', ' ']).next().unwrap().replace('♭', "b").replace('♯', "#");
            text.parse::<Pitch>().unwrap().semitones()
        };
        assert!(first(low) <= lowest && highest <= first(high), "{}: {lowest} to {highest}", part.name);
        checked += 1;
    }
    assert_eq!(checked, 9);
    let drums: Vec<String> = {
        let id = staff(&score, "Timpani in D A").id;
        let mut all: Vec<String> =
            sounded.iter().filter(|note| note.staff == id).map(|note| note.pitch.to_string()).collect();
        all.sort_unstable();
        all.dedup();
        all
    };
    assert_eq!(drums, ["A2", "D3"]);
}
